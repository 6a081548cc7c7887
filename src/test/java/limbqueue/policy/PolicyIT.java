package limbqueue.policy;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.document.Draft;
import limbqueue.policy.PolicyPreview.Line;
import limbqueue.practice.Policies;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.AgeingNow;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Moved;
import limbqueue.referral.Moves;
import limbqueue.referral.Placing;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Policy.Metformin;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** The draft of a policy, what it would move, and what it moves. What is published stays, so the tests follow each other. */
@OnPostgres
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class PolicyIT {

    @Autowired
    private PolicyDrafts drafts;

    @Autowired
    private PolicyPreviews previews;

    @Autowired
    private Policies policies;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Moves moves;

    @Autowired
    private RuleBooks books;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ApplicationContext application;

    private Staff staff;

    @BeforeEach
    void staff() {
        staff = new Staff(actingAs);
    }

    private LocalDate today() {
        return staff.as("physician", referrals::today);
    }

    private PolicyDraft saved(Optional<Long> madeOn, TypedPolicy typed) {
        return ((DraftOutcome.Saved) staff.as("physician", () -> drafts.save(madeOn, typed))).draft();
    }

    private Referral queued(String document) {
        var entered = staff.as("coordinator", () -> referrals.enter(document));
        var submitted = staff.as("coordinator", () -> referrals.submit(entered.id(), entered.version()));
        return ((SubmitOutcome.Submitted) submitted).referral();
    }

    @Test
    @Order(1)
    void aDraftKeepsWhatIsTypedWhateverItIsAndWhoeverElseTypes() {
        assertThat(staff.as("physician", drafts::current)).isEmpty();
        var beginning = staff.as("physician", drafts::beginning);
        assertThat(beginning.get("days.within6Weeks")).isEqualTo("42");
        assertThat(beginning.get(TypedPolicy.NAME)).isEqualTo("policy-2");
        assertThat(beginning.read(today()).problems()).containsOnlyKeys(TypedPolicy.REASON);

        var nonsense = beginning
                .with("days.within6Weeks", "five weeks")
                .with("validity.inr", "")
                .with(TypedPolicy.NAME, "no blanks allowed");
        var first = saved(Optional.empty(), nonsense);
        assertThat(staff.as("physician", drafts::current)).contains(first);
        assertThat(first.typed().get("days.within6Weeks")).isEqualTo("five weeks");
        assertThat(first.typed().read(today()).policy()).isEmpty();
        assertThat(first.typed().read(today()).problems())
                .containsOnlyKeys("days.within6Weeks", "validity.inr", TypedPolicy.NAME, TypedPolicy.REASON);
        assertThatThrownBy(() -> staff.as("physician", () -> drafts.publish(first.id())))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("Say why");

        var second = saved(Optional.of(first.id()), beginning.with("days.within6Weeks", "14"));
        assertThat(second.typed().read(today()).problems().get("days.within6Weeks"))
                .contains("A less urgent tier must have more days");

        // Typed on a step that is not the newest any more: told, and kept.
        var late = beginning.with("days.within6Weeks", "35");
        assertThat(staff.as("physician", () -> drafts.save(Optional.of(first.id()), late)))
                .isEqualTo(new DraftOutcome.Overtaken(Optional.of(second)));
        assertThat(staff.as("physician", drafts::current)).contains(second);
        assertThat(jdbc.sql("select typed ->> 'days.within6Weeks' from policy_draft order by id")
                        .query(String.class)
                        .list())
                .containsExactly("five weeks", "14", "35");

        actingAs.person("physician", () -> drafts.discard(second.id()));
        assertThat(staff.as("physician", drafts::current)).isEmpty();
        assertThatThrownBy(() -> jdbc.sql("delete from policy_draft").update()).hasMessageContaining("only ever added");
        for (var other : List.of("manager", "coordinator")) {
            assertThatThrownBy(() -> staff.as(other, () -> drafts.save(Optional.empty(), late)))
                    .isInstanceOf(AccessDeniedException.class);
        }
    }

    /**
     * Every demo referral is open, each in two copies, one of them as a draft. The preview of each is compared with what is
     * proposed once the policy is published, and with what has moved.
     */
    @Test
    @Order(2)
    void aPreviewIsWhatPublishingThenDoesReferralByReferral() throws IOException {
        for (var document : demo()) {
            staff.as("coordinator", () -> referrals.enter(document));
            var entered = staff.as("coordinator", () -> referrals.enter(document));
            staff.as("coordinator", () -> referrals.submit(entered.id(), entered.version()));
        }
        var approved = queued(Arriving.REST_PAIN);
        staff.as("physician", () -> referrals.decide(approved.id(), approved.version(), new Decision.Approve()));
        var askedAbout = queued(Arriving.REST_PAIN);
        staff.as(
                "physician",
                () -> referrals.decide(
                        askedAbout.id(), askedAbout.version(), new Decision.AskForInformation("Which medicines?")));

        var draft = saved(
                Optional.empty(),
                staff.as("physician", drafts::beginning)
                        .with("days.within14Days", "10")
                        .with("days.within18Weeks", "90")
                        .with("validity.creatinine", "3")
                        .with("validity.creatinineWhenImpaired", "2")
                        .with("validity.imagingMonths", "1")
                        .with(TypedPolicy.METFORMIN, Metformin.CONTRAST_MANUAL.name())
                        .with(TypedPolicy.SECOND_LOOK_LIMB_THREAT, "false")
                        .with(TypedPolicy.REASON, " More rooms since March. "));
        var read = draft.typed().read(today());
        assertThat(read.problems()).isEmpty();
        var policy = read.policy().orElseThrow();
        var preview = staff.as("physician", () -> previews.of(policy, today()));
        var before = proposed(preview);
        assertThat(preview.without()).isEqualTo("standard-1");
        assertThat(preview.lines()).hasSize(2 * demo().size() + 1);
        assertThat(preview.lines()).noneMatch(line -> line.id() == approved.id());
        assertThat(preview.moving()).anyMatch(line -> line.id() == askedAbout.id());
        assertThat(preview.moving().size()
                        + preview.otherWorkUp().size()
                        + preview.staying().size())
                .isEqualTo(preview.lines().size());
        // Those and only those whose tier has other days than before: the dates are counted from the day of receipt.
        assertThat(preview.lines()).allSatisfy(line -> {
            var tier = line.before().tier();
            var days = Map.of(Tier.WITHIN_14_DAYS, 4, Tier.WITHIN_18_WEEKS, 36).getOrDefault(tier, 0);
            assertThat(line.after().tier()).isEqualTo(tier);
            assertThat(line.after().targetDate())
                    .isEqualTo(line.before().targetDate().map(day -> day.minusDays(days)));
            assertThat(line.moves()).isEqualTo(days > 0);
        });
        assertThat(preview.moving()).isNotEmpty();
        assertThat(preview.otherWorkUp()).isNotEmpty();
        assertThat(preview.staying()).isNotEmpty();

        var published = staff.as("physician", () -> drafts.publish(draft.id()));
        assertThat(published.policy()).isEqualTo(policy);
        assertThat(published.reason()).isEqualTo("More rooms since March.");
        assertThat(published.secondLook().loweredBelowLimbThreat()).isFalse();
        assertThat(staff.as("physician", policies::inForce)).isEqualTo(published);
        assertThat(staff.as("physician", drafts::current)).isEmpty();

        var after = proposed(preview);
        for (var line : preview.lines()) {
            var was = of(before, line.id()).proposal();
            var is = of(after, line.id()).proposal();
            assertThat(Placing.of(was)).as(line.reference()).isEqualTo(line.before());
            assertThat(Placing.of(is)).as(line.reference()).isEqualTo(line.after());
            assertThat(is.policy()).isEqualTo(policy.id());
            assertThat(PolicyPreview.WorkUp.of(was)).as(line.reference()).isEqualTo(line.workUpBefore());
            assertThat(PolicyPreview.WorkUp.of(is)).as(line.reference()).isEqualTo(line.workUpAfter());
        }
        // A second preview of what is in force finds nothing to move.
        var again = staff.as("physician", () -> previews.of(policy, today()));
        assertThat(again.moving()).isEmpty();
        assertThat(again.otherWorkUp()).isEmpty();

        // Those that were before a physician come up again, with the same difference.
        var announced = preview.moving().stream()
                .filter(line -> line.state() != ReferralState.DRAFT)
                .collect(Collectors.toMap(Line::id, Function.identity()));
        new AgeingNow(application).run();
        var moved = unseen();
        assertThat(moved.keySet()).isEqualTo(announced.keySet());
        moved.forEach((id, one) -> {
            var line = of(announced, id);
            assertThat(one.before().targetDate()).isEqualTo(line.before().targetDate());
            assertThat(one.after()).isEqualTo(line.after());
        });
    }

    private static <T> T of(Map<Long, T> all, long id) {
        return Objects.requireNonNull(all.get(id), () -> "nothing of " + id);
    }

    @Test
    @Order(3)
    void aPolicyThatCountsLaterIsPreviewedAsOfItsDay() {
        var later = today().plusDays(20);
        var typed = staff.as("physician", drafts::beginning)
                .with("days.within14Days", "12")
                .with(TypedPolicy.VALID_FROM, later.toString())
                .with(TypedPolicy.REASON, "After the holidays.");
        assertThat(typed.get(TypedPolicy.NAME)).isEqualTo("policy-3");
        var policy = typed.read(today()).policy().orElseThrow();
        var preview = staff.as("physician", () -> previews.of(policy, later));
        assertThat(preview.asOf()).isEqualTo(later);
        assertThat(preview.without()).isEqualTo("policy-2");
        assertThat(preview.lines()).allSatisfy(line -> {
            var document = Draft.of(staff.as("physician", () -> referrals.get(line.id()))
                            .document())
                    .read(later)
                    .document();
            assertThat(line.after()).isEqualTo(Placing.of(Triage.triage(document, policy, books.inForce(), later)));
        });

        var draft = saved(Optional.empty(), typed);
        staff.as("physician", () -> drafts.publish(draft.id()));
        assertThat(staff.as("physician", policies::inForce).policy().id()).isEqualTo("policy-2");
        assertThat(staff.as("physician", () -> policies.on(later)).policy()).isEqualTo(policy);
    }

    private Map<Long, ProposedCase> proposed(PolicyPreview preview) {
        return staff
                .as(
                        "physician",
                        () -> referrals.proposed(
                                preview.lines().stream().map(Line::id).toList()))
                .stream()
                .collect(Collectors.toMap(one -> one.referral().id(), Function.identity()));
    }

    private Map<Long, Moved> unseen() {
        return staff.as("physician", moves::unseen).stream()
                .collect(Collectors.toMap(Moved::referralId, Function.identity()));
    }

    private static List<String> demo() throws IOException {
        try (var files = Files.list(Path.of("demo-referrals"))) {
            return files.filter(file -> file.toString().endsWith(".referral.json"))
                    .sorted()
                    .map(file -> {
                        try {
                            return Files.readString(file);
                        } catch (IOException unread) {
                            throw new UncheckedIOException(unread);
                        }
                    })
                    .toList();
        }
    }
}
