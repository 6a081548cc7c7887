package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import limbqueue.access.ActingAs;
import limbqueue.access.People;
import limbqueue.access.Role;
import limbqueue.referral.DecideOutcome.AwaitsSecondLook;
import limbqueue.referral.DecideOutcome.Changed;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.referral.Decision.Change;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** Rest pain with a poor pressure is proposed within 14 days and threatens the leg; one physician would let it wait. */
@OnPostgres
class SecondLooksIT {

    private static final Change LOWER =
            new Change(Tier.WITHIN_6_WEEKS, Map.of(), "The pain is from the back, not from the leg.");

    @Autowired
    private Referrals referrals;

    @Autowired
    private SecondLooks looks;

    @Autowired
    private People people;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;

    @BeforeEach
    void staff() {
        staff = new Staff(actingAs);
        choose(true);
    }

    @Test
    void aLoweredTierStandsAsProposedUntilASecondPhysicianAgrees() {
        second();
        var queued = queued();

        var asked =
                (AwaitsSecondLook) staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), LOWER));

        assertThat(asked.look().against()).contains("the left leg is threatened");
        assertThat(asked.referral().state()).isEqualTo(ReferralState.QUEUED);
        assertThat(staff.as("physician", () -> referrals.decisions(queued.id())))
                .isEmpty();
        assertThat(staff.as("physician", looks::waiting)).contains(queued.id());
        assertThat(staff.as("physician", referrals::queue))
                .filteredOn(line -> line.id() == queued.id())
                .singleElement()
                .satisfies(line -> assertThat(line.proposedTier()).isEqualTo(Tier.WITHIN_14_DAYS));
        // Who read the referral before that is told that it has moved on.
        assertThat(staff.as(
                        "second.physician",
                        () -> referrals.decide(queued.id(), queued.version(), new Decision.Approve())))
                .isInstanceOf(Changed.class);

        var look = staff.as("second.physician", () -> looks.of(queued.id())).orElseThrow();
        assertThat(look).isEqualTo(asked.look());
        assertThat(staff.as("physician", () -> looks.agree(queued.id(), look.id())))
                .as("the first physician is no second one")
                .isInstanceOf(SecondLookOutcome.Refused.class);
        assertThatThrownBy(() -> staff.as("coordinator", () -> looks.agree(queued.id(), look.id())))
                .isInstanceOf(AccessDeniedException.class);

        var agreed = (SecondLookOutcome.Agreed) staff.as("second.physician", () -> looks.agree(queued.id(), look.id()));

        assertThat(agreed.referral().state()).isEqualTo(ReferralState.APPROVED);
        assertThat(agreed.decision().tier()).isEqualTo(Tier.WITHIN_6_WEEKS);
        assertThat(agreed.decision().author()).isEqualTo(look.author());
        assertThat(staff.as("second.physician", () -> looks.agree(queued.id(), look.id())))
                .isInstanceOf(SecondLookOutcome.Refused.class);
        assertThat(staff.as("physician", looks::waiting)).doesNotContain(queued.id());
        assertThat(staff.as("coordinator", () -> referrals.timeline(queued.id())))
                .extracting(TimelineEntry::what)
                .contains(
                        "agreed, as the second physician, to lower it: within 6 weeks",
                        "would lower the proposal: within 6 weeks, once a second physician agrees. Reason: "
                                + LOWER.reason());
    }

    @Test
    void whereTheSecondDoesNotAgreeTheProposalStandsAndIsDecidedAnew() {
        second();
        var queued = queued();
        var asked =
                (AwaitsSecondLook) staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), LOWER));

        assertThat(staff.as(
                        "second.physician",
                        () -> looks.disagree(queued.id(), asked.look().id(), " ")))
                .isInstanceOf(SecondLookOutcome.Refused.class);
        var not = (SecondLookOutcome.NotAgreed) staff.as(
                "second.physician",
                () -> looks.disagree(queued.id(), asked.look().id(), "The toe pressure says otherwise."));

        assertThat(staff.as("physician", () -> looks.of(queued.id()))
                        .orElseThrow()
                        .answer()
                        .orElseThrow()
                        .words())
                .isEqualTo("The toe pressure says otherwise.");
        assertThat(staff.as("physician", looks::waiting)).doesNotContain(queued.id());
        assertThat(staff.as(
                        "physician",
                        () -> referrals.decide(queued.id(), not.referral().version(), new Decision.Approve())))
                .isInstanceOf(Decided.class);
        assertThat(staff.as("physician", () -> looks.of(queued.id()))).isEmpty();
    }

    @Test
    void aCorrectionMeanwhileEndsTheLook() {
        second();
        var queued = queued();
        var asked =
                (AwaitsSecondLook) staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), LOWER));
        staff.as(
                "coordinator",
                () -> referrals.save(
                        queued.id(),
                        asked.referral().version(),
                        Arriving.REST_PAIN.replace("\"toe\": 22", "\"toe\": 25")));

        assertThat(staff.as(
                        "second.physician",
                        () -> looks.agree(queued.id(), asked.look().id())))
                .isInstanceOfSatisfying(
                        SecondLookOutcome.Refused.class,
                        refused -> assertThat(refused.why()).contains("has changed since"));
        assertThat(staff.as("physician", looks::waiting)).doesNotContain(queued.id());
    }

    @Test
    void loweringTakesASentenceAndRaisingAWord() {
        second();
        var queued = queued();

        assertThat(staff.as(
                        "physician",
                        () -> referrals.decide(
                                queued.id(), queued.version(), new Change(Tier.WITHIN_6_WEEKS, Map.of(), "Fine."))))
                .isInstanceOfSatisfying(
                        DecideOutcome.Refused.class,
                        refused -> assertThat(refused.why()).contains("Give the reason in a sentence"));
        assertThat(staff.as(
                        "physician",
                        () -> referrals.decide(
                                queued.id(), queued.version(), new Change(Tier.WITHIN_5_DAYS, Map.of(), "Worse"))))
                .isInstanceOf(Decided.class);
    }

    @Test
    void whereThePracticeWantsNoneOrHasNoOtherPhysicianALoweredTierCountsAtOnce() {
        jdbc.sql("update account set active = false where role = 'PHYSICIAN' and sign_in_name <> 'physician'")
                .update();
        var alone = queued();
        assertThat(staff.as("physician", () -> referrals.decide(alone.id(), alone.version(), LOWER)))
                .isInstanceOf(Decided.class);
        jdbc.sql("update account set active = true where role = 'PHYSICIAN'").update();

        second();
        choose(false);
        var queued = queued();
        assertThat(staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), LOWER)))
                .isInstanceOf(Decided.class);
    }

    @Test
    void theDatabaseLetsNobodyAnswerForThemselves() {
        second();
        var queued = queued();
        var asked =
                (AwaitsSecondLook) staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), LOWER));

        assertThatThrownBy(() -> jdbc.sql("""
                        insert into second_look_answer (second_look, account, author, at, agreed, words)
                        select :look, id, 'x', now(), false, 'No.' from account where sign_in_name = 'physician'
                        """).param("look", asked.look().id()).update())
                .isInstanceOf(DataIntegrityViolationException.class);
    }

    /** Whoever is there already is added no second time. */
    private void second() {
        staff.as("manager", () -> people.add("second.physician", "Dr Oda Brandt", Role.PHYSICIAN));
    }

    /** The columns belong to the policy in force, which is only ever added to; so the test steps around its guard. */
    private void choose(boolean wanted) {
        jdbc.sql("alter table policy_version disable trigger policy_version_append_only")
                .update();
        jdbc.sql("update policy_version set second_look_red_flag = :wanted, second_look_limb_threat = :wanted")
                .param("wanted", wanted)
                .update();
        jdbc.sql("alter table policy_version enable trigger policy_version_append_only")
                .update();
    }

    private Referral queued() {
        return staff.as("coordinator", () -> {
            var entered = referrals.enter(Arriving.REST_PAIN);
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }
}
