package limbqueue.governance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.preparation.CaseOutcome;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome.Done;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.security.access.AccessDeniedException;

/** The figures on a database. All people in it are invented. */
@OnPostgres
class GovernanceIT {

    @Autowired
    private Governance governance;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Preparation preparation;

    @Autowired
    private JdbcTemplate jdbc;

    private final Staff staff;
    private LocalDate today = LocalDate.MIN;

    GovernanceIT(@Autowired ActingAs actingAs) {
        staff = new Staff(actingAs);
    }

    @BeforeEach
    void whatDayItIs() {
        today = staff.as("manager", governance::today);
    }

    @Test
    void whatIsDecidedAndDoneIsCountedWithItsRulesItsReasonAndItsFlagAndWithoutAName() {
        var before = report(new Period(today, today));
        var approved = queued(Draft.of(Arriving.REST_PAIN));
        decide(approved, new Decision.Approve());
        var onlyLeg = Draft.of(Arriving.REST_PAIN);
        onlyLeg.set("legs.right.amputation", "aboveKnee");
        var changed = queued(onlyLeg);
        decide(
                changed,
                new Decision.Change(
                        Tier.WITHIN_6_WEEKS,
                        Map.of(),
                        "Zoe Ångström-Łuczak was seen here on Monday, the pain is of the spine."));
        decide(queued(Draft.of(Arriving.REST_PAIN)), new Decision.AskForInformation("Which medicines?"));
        recorded(changed, CaseOutcome.COMPLICATION);

        var report = report(new Period(today, today));

        assertThat(report.agreement().all()).isEqualTo(new Proportion(1, 2));
        assertThat(report.agreement().byPerson())
                .containsExactly(new Agreement.Line<>("Dr Imogen Tarrant", new Proportion(1, 2)));
        assertThat(report.agreement().byRule())
                .contains(
                        new Agreement.Line<>("urgency-rest-pain", new Proportion(1, 2)),
                        new Agreement.Line<>("only-leg", new Proportion(0, 1)));
        assertThat(report.mostOverruled())
                .filteredOn(rule -> rule.rule().equals("urgency-rest-pain"))
                .singleElement()
                .satisfies(rule -> {
                    assertThat(rule.says()).contains("pain");
                    assertThat(rule.reasons())
                            .extracting(Overruling.Reason::words)
                            .containsExactly("[name] [name]-[name] was seen here on Monday, the pain is of the spine.");
                });
        assertThat(report.outcomes().byFlag())
                .filteredOn(flagged -> flagged.flag().equals("only-leg"))
                .singleElement()
                .satisfies(flagged -> assertThat(flagged.line().notAsPlanned()).isEqualTo(new Proportion(1, 1)));
        assertThat(report.outcomes().unflagged().cases()).isZero();
        // The referral is older than its target date allows, and the procedure was today.
        assertThat(report.waiting().byTier())
                .filteredOn(line -> line.tier() == Tier.WITHIN_6_WEEKS)
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.late()).isEqualTo(new Proportion(1, 1));
                    assertThat(line.days().orElseThrow().median())
                            .isEqualTo((double) LocalDate.of(2026, 1, 12).until(today, ChronoUnit.DAYS));
                });
        assertThat(waiting(report)).isEqualTo(waiting(before) + 1);
        assertThat(report.equity()).isEqualTo(before.equity());
    }

    @Test
    void aDecisionThatWasTakenBackIsNotCounted() {
        var period = new Period(today, today);
        var before = report(period);
        var referral = queued(Draft.of(Arriving.REST_PAIN));
        decide(referral, new Decision.Approve());
        assertThat(report(period).agreement()).isNotEqualTo(before.agreement());

        var decision =
                staff.as("physician", () -> referrals.decisions(referral.id())).getFirst();
        staff.as("physician", () -> referrals.takeBack(decision.id()));

        assertThat(report(period).agreement()).isEqualTo(before.agreement());
        assertThat(report(period).waiting()).isEqualTo(before.waiting());
    }

    @Test
    void figuresOfManyReferralsAreThoseThatTheDatabaseCounts() {
        ManyCourses.add(jdbc, 1_500);
        var period = new Period(today.minusDays(300), today.minusDays(20));
        var report = report(period);

        assertThat(report.agreement().all())
                .isEqualTo(new Proportion(
                        count("""
                                select count(*) from decision
                                where at >= ? and at < ? and (kind = 'APPROVED'
                                    or kind = 'SENT_TO_HOSPITAL' and proposed_tier = 'SAME_DAY')""", period), count("select count(*) from decision where at >= ? and at < ?", period)));
        assertThat(report.agreement().byPerson())
                .extracting(Agreement.Line::of)
                .containsExactly("Dr Ansel Quillfeather", "Dr Imogen Tarrant");
        assertThat(report.outcomes().all().cases())
                .isEqualTo(count(
                        "select count(*) from recorded_case c join procedure_booking b using (referral)"
                                + " where ready_at >= ? and ready_at < ?",
                        period));
        assertThat(report.waiting().byTier())
                .filteredOn(line -> line.tier() == Tier.WITHIN_14_DAYS)
                .singleElement()
                .satisfies(line -> assertThat(line.late()).isEqualTo(new Proportion(count("""
                                select count(*) from procedure_booking b join recorded_case c using (referral)
                                join referral r on r.id = referral join decision d on d.id = r.decision
                                where ready_at >= ? and ready_at < ? and d.tier = 'WITHIN_14_DAYS' and ready_at::date > target_date
                                """, period), line.ended())));
        assertThat(report.mostOverruled()).hasSizeBetween(5, 10);
        var equity = report.equity();
        assertThat(equity.all().orElseThrow().count()).isEqualTo(count("""
                        select count(*)
                        from decision d left join recorded_case c using (referral) left join procedure_booking b using (referral)
                        where case when kind = 'SENT_TO_HOSPITAL' then d.at else ready_at end >= ?
                          and case when kind = 'SENT_TO_HOSPITAL' then d.at else ready_at end < ?""", equity.half()));
        assertThat(equity.groupings().stream()
                        .flatMap(grouping -> grouping.groups().stream())
                        .flatMap(group -> group.figures().stream()))
                .isNotEmpty()
                .allSatisfy(figures -> assertThat(figures.count()).isGreaterThanOrEqualTo(10));
        assertThat(report.toString()).doesNotContain("Wetherell");
    }

    @Test
    void whoEntersReferralsSeesNoFigures() {
        assertThatThrownBy(() -> staff.as("coordinator", () -> governance.report(new Period(today, today))))
                .isInstanceOf(AccessDeniedException.class);
    }

    /** On days of the practice: the database's session has the time zone of this machine. */
    private int count(String sql, Period period) {
        var count = jdbc.queryForObject(
                sql,
                Integer.class,
                period.from().atStartOfDay(),
                period.to().plusDays(1).atStartOfDay());
        return count == null ? 0 : count;
    }

    private static int waiting(GovernanceReport report) {
        return report.waiting().byTier().stream()
                .mapToInt(Waiting.Line::waiting)
                .sum();
    }

    private GovernanceReport report(Period period) {
        return staff.as("physician", () -> governance.report(period));
    }

    private Referral queued(Draft document) {
        return staff.as("coordinator", () -> {
            var entered = referrals.enter(document.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    private void decide(Referral queued, Decision decision) {
        staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), decision));
    }

    private void recorded(Referral referral, CaseOutcome outcome) {
        var id = referral.id();
        staff.as("physician", () -> {
            assertThat(preparation.book(id, 0, LocalDateTime.of(today, LocalTime.of(8, 30)), "Room 2"))
                    .isEqualTo(new Done());
            assertThat(preparation.override(id, preparation.get(id).facts(), "The leg does not wait."))
                    .isEqualTo(new Done());
            assertThat(preparation.sendToRoom(id)).isEqualTo(new Done());
            assertThat(preparation.record(id, 80, "right groin", outcome, "Bleeding from the groin."))
                    .isEqualTo(new Done());
            return id;
        });
    }
}
