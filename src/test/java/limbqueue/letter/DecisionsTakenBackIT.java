package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.access.People;
import limbqueue.access.Role;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.referral.Decision;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.referral.TakeBackOutcome.Refused;
import limbqueue.referral.TakeBackOutcome.TakenBack;
import limbqueue.referral.TimelineEntry;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

@OnPostgres
class DecisionsTakenBackIT {

    @Autowired
    private Referrals referrals;

    @Autowired
    private Letters letters;

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
    }

    @Test
    void everyKindOfDecisionCanBeTakenBackAndIsDecidedAnew() {
        for (var decision : List.of(
                new Decision.Approve(),
                new Decision.AskForInformation("Since when?"),
                new Decision.ReturnToReferrer("Known to another practice."),
                new Decision.SendToHospital("The vascular team, by telephone."))) {
            var made = decided(decision);
            var id = made.referral().id();
            assertThat(staff.as("physician", () -> referrals.canTakeBack(id))).contains(made.decision());

            var back = (TakenBack) staff.as(
                    "physician", () -> referrals.takeBack(made.decision().id()));

            assertThat(back.referral().state()).as("after %s", decision).isEqualTo(ReferralState.QUEUED);
            assertThat(back.referral().version()).isEqualTo(made.referral().version() + 1);
            assertThat(staff.as("physician", () -> referrals.decisions(id))).isEmpty();
            assertThat(staff.as("physician", () -> referrals.canTakeBack(id))).isEmpty();
            assertThat(staff.as("coordinator", () -> referrals.timeline(id)))
                    .extracting(TimelineEntry::what)
                    .startsWith("took the decision back: it is before the physicians again");
            assertThat(kept(made.decision()))
                    .as("the decision stays as it was made")
                    .isEqualTo(1);

            var anew = staff.as(
                    "physician", () -> referrals.decide(id, back.referral().version(), new Decision.Approve()));
            assertThat(anew).isInstanceOf(Decided.class);
        }
    }

    @Test
    void aLetterWaitsUntilTheDecisionIsFinalAndIsNotSentOnceItIsTakenBack() {
        var made = decided(new Decision.ReturnToReferrer("Known to another practice."));
        var letter = letter(made);
        assertThatThrownBy(() -> staff.as("coordinator", () -> letters.markSent(letter)))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("can take the decision back until");

        staff.as("physician", () -> referrals.takeBack(made.decision().id()));
        assertThat(staff.as("coordinator", () -> letters.about(made.referral().id())))
                .extracting(Letter::id)
                .doesNotContain(letter);
        later(made.decision(), 11);
        assertThatThrownBy(() -> staff.as("coordinator", () -> letters.markSent(letter)))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("was taken back");
    }

    @Test
    void afterTenMinutesTheDecisionStandsAndItsLetterLeaves() {
        var made = decided(new Decision.Approve());
        var id = made.referral().id();
        later(made.decision(), 9);
        assertThat(staff.as("physician", () -> referrals.canTakeBack(id))).isPresent();
        later(made.decision(), 1);

        assertThat(staff.as("physician", () -> referrals.canTakeBack(id))).isEmpty();
        assertThat(staff.as(
                        "physician", () -> referrals.takeBack(made.decision().id())))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains("10 minutes"));
        assertThat(staff.as("coordinator", () -> letters.markSent(letter(made))).sentAt())
                .isPresent();
        assertThat(staff.as("physician", () -> referrals.get(id)).state()).isEqualTo(ReferralState.APPROVED);
    }

    @Test
    void onlyWhoDecidedTakesItBackAndOnlyOnce() {
        staff.as("manager", () -> people.add("other.physician", "Dr Oda Brandt", Role.PHYSICIAN));
        var made = decided(new Decision.Approve());
        var decision = made.decision().id();

        assertThat(staff.as("other.physician", () -> referrals.takeBack(decision)))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains("who decided"));
        assertThatThrownBy(() -> staff.as("coordinator", () -> referrals.takeBack(decision)))
                .isInstanceOf(AccessDeniedException.class);
        staff.as("physician", () -> referrals.takeBack(decision));
        assertThat(staff.as("physician", () -> referrals.takeBack(decision)))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains("does not stand any more"));
        for (var sql : List.of(
                "update decision_taken_back set author = 'x' where decision = :decision",
                "delete from decision_taken_back where decision = :decision")) {
            assertThatThrownBy(() -> jdbc.sql(sql).param("decision", decision).update())
                    .as(sql)
                    .isInstanceOf(DataAccessException.class);
        }
    }

    /** Puts the decision and its letter back in time. */
    private void later(DecisionRecord decision, int minutes) {
        jdbc.sql("alter table decision disable trigger decision_append_only").update();
        jdbc.sql("alter table letter disable trigger letter_guarded").update();
        jdbc.sql("update decision set at = at - make_interval(mins => :minutes) where id = :id")
                .param("minutes", minutes)
                .param("id", decision.id())
                .update();
        jdbc.sql("update letter set written_at = written_at - make_interval(mins => :minutes) where decision = :id")
                .param("minutes", minutes)
                .param("id", decision.id())
                .update();
        jdbc.sql("alter table letter enable trigger letter_guarded").update();
        jdbc.sql("alter table decision enable trigger decision_append_only").update();
    }

    private long letter(Decided made) {
        return jdbc.sql("select id from letter where decision = :decision")
                .param("decision", made.decision().id())
                .query(Long.class)
                .single();
    }

    private int kept(DecisionRecord decision) {
        return jdbc.sql("select count(*) from decision where id = :id and reason = :reason")
                .param("id", decision.id())
                .param("reason", decision.reason())
                .query(Integer.class)
                .single();
    }

    private Decided decided(Decision decision) {
        var queued = queued();
        return (Decided) staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), decision));
    }

    private Referral queued() {
        return staff.as("coordinator", () -> {
            var entered = referrals.enter(Arriving.REST_PAIN);
            return ((Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }
}
