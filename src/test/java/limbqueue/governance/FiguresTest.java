package limbqueue.governance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import limbqueue.governance.Equity.Group;
import limbqueue.preparation.CaseOutcome;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** Expected values are counted by hand. */
class FiguresTest {

    private static final Period YEAR = new Period(LocalDate.of(2026, 1, 1), LocalDate.of(2026, 12, 31));

    private static Judgement judged(long person, Tier proposed, Tier decided, String... rules) {
        return new Judgement(
                1,
                LocalDate.of(2026, 3, 2),
                person,
                "Dr " + person,
                proposed,
                decided,
                proposed == decided,
                List.of(rules));
    }

    /** Received on 1 February, and done or not so many days later; the target is {@code allowed} days after reception. */
    private static Course course(Tier tier, int allowed, Optional<Integer> days) {
        var received = LocalDate.of(2026, 2, 1);
        return new Course(
                tier,
                received.plusDays(2),
                received,
                Optional.of(received.plusDays(allowed)),
                days.map(received::plusDays),
                days.map(_ -> CaseOutcome.AS_PLANNED),
                List.of(),
                received,
                Optional.of(LocalDate.of(1950, 5, 1)),
                Optional.of("FEMALE"),
                Optional.of("Dr Farrow, Millrace Surgery"),
                Haste.NOT_ASKED);
    }

    private static Course with(Course course, CaseOutcome outcome, String... flags) {
        return new Course(
                course.tier(),
                course.decided(),
                course.since(),
                course.target(),
                course.ended(),
                Optional.of(outcome),
                List.of(flags),
                course.received(),
                course.born(),
                course.sex(),
                course.referrer(),
                course.haste());
    }

    private static Course of(Course course, int born, String sex, String referrer, Haste haste) {
        return new Course(
                course.tier(),
                course.decided(),
                course.since(),
                course.target(),
                course.ended(),
                course.outcome(),
                course.redFlags(),
                course.received(),
                Optional.of(LocalDate.of(born, 1, 1)),
                Optional.of(sex),
                Optional.of(referrer),
                haste);
    }

    @Test
    void agreementIsCountedByTierPersonAndRule() {
        var agreement = Agreement.of(List.of(
                judged(1, Tier.WITHIN_14_DAYS, Tier.WITHIN_14_DAYS, "a", "b"),
                judged(1, Tier.WITHIN_14_DAYS, Tier.WITHIN_5_DAYS, "a"),
                judged(2, Tier.WITHIN_6_WEEKS, Tier.WITHIN_6_WEEKS, "a", "b"),
                judged(2, Tier.WITHIN_14_DAYS, Tier.WITHIN_14_DAYS, "b")));

        assertThat(agreement.all()).isEqualTo(new Proportion(3, 4));
        assertThat(agreement.byTier())
                .extracting(Agreement.Line::of, Agreement.Line::agreed)
                .containsExactly(
                        tuple(Tier.WITHIN_14_DAYS, new Proportion(2, 3)),
                        tuple(Tier.WITHIN_6_WEEKS, new Proportion(1, 1)));
        assertThat(agreement.byPerson())
                .extracting(Agreement.Line::of, Agreement.Line::agreed)
                .containsExactly(tuple("Dr 1", new Proportion(1, 2)), tuple("Dr 2", new Proportion(2, 2)));
        assertThat(agreement.byRule())
                .extracting(Agreement.Line::of, Agreement.Line::agreed)
                .containsExactly(tuple("a", new Proportion(2, 3)), tuple("b", new Proportion(3, 3)));
    }

    @Test
    void aRuleOverruledOnceInOneComesAfterOneOverruledTwentyTimesInForty() {
        var judgements = new ArrayList<Judgement>();
        judgements.add(judged(1, Tier.WITHIN_14_DAYS, Tier.WITHIN_5_DAYS, "once"));
        for (var n = 0; n < 40; n++) {
            judgements.add(
                    judged(1, Tier.WITHIN_14_DAYS, n % 2 == 0 ? Tier.WITHIN_5_DAYS : Tier.WITHIN_14_DAYS, "often"));
        }
        assertThat(Agreement.of(judgements).byRule())
                .extracting(Agreement.Line::of)
                .containsExactly("often", "once");
    }

    @Test
    void waitsAreCountedByTierWithWhatIsLateAndWhatIsStillWaiting() {
        var courses = List.of(
                course(Tier.WITHIN_14_DAYS, 14, Optional.of(10)),
                course(Tier.WITHIN_14_DAYS, 14, Optional.of(14)),
                course(Tier.WITHIN_14_DAYS, 14, Optional.of(15)),
                course(Tier.WITHIN_14_DAYS, 14, Optional.empty()),
                course(Tier.WITHIN_18_WEEKS, 126, Optional.of(60)));

        var march = new Period(LocalDate.of(2026, 2, 1), LocalDate.of(2026, 3, 31));
        var lines = Waiting.of(courses, march).byTier();

        assertThat(lines)
                .extracting(
                        Waiting.Line::tier,
                        Waiting.Line::ended,
                        Waiting.Line::late,
                        Waiting.Line::waiting,
                        Waiting.Line::overdue)
                .containsExactly(
                        tuple(Tier.WITHIN_14_DAYS, 3, new Proportion(1, 3), 1, 1),
                        // Done on 2 April: on 31 March it waited still, and was not late.
                        tuple(Tier.WITHIN_18_WEEKS, 0, new Proportion(0, 0), 1, 0));
        assertThat(lines.getFirst().days().orElseThrow().median()).isEqualTo(14);
        assertThat(lines.getLast().days()).isEmpty();
    }

    @Test
    void adviceWaitsForNothing() {
        assertThat(Waiting.of(List.of(course(Tier.ADVICE_ONLY, 1, Optional.empty())), YEAR)
                        .byTier())
                .isEmpty();
    }

    @Test
    void outcomesStandAgainstEachFlagAndAgainstNone() {
        var done = course(Tier.WITHIN_14_DAYS, 14, Optional.of(10));
        var outcomes = Outcomes.of(
                List.of(
                        with(done, CaseOutcome.AS_PLANNED),
                        with(done, CaseOutcome.COMPLICATION, "kidney-risk", "only-leg"),
                        with(done, CaseOutcome.AS_PLANNED, "kidney-risk"),
                        course(Tier.WITHIN_14_DAYS, 14, Optional.empty())),
                YEAR);

        assertThat(outcomes.all().cases()).isEqualTo(3);
        assertThat(outcomes.unflagged().notAsPlanned()).isEqualTo(new Proportion(0, 1));
        assertThat(outcomes.byFlag())
                .extracting(Outcomes.Flagged::flag, flagged -> flagged.line().notAsPlanned())
                .containsExactly(tuple("kidney-risk", new Proportion(1, 2)), tuple("only-leg", new Proportion(1, 1)));
        assertThat(outcomes.byFlag().getFirst().line().counts())
                .isEqualTo(Map.of(
                        CaseOutcome.AS_PLANNED, 1,
                        CaseOutcome.OTHER_ACCESS, 0,
                        CaseOutcome.FAILED, 0,
                        CaseOutcome.COMPLICATION, 1));
    }

    @Test
    void halvesOfCalendarYearsNeverOverlap() {
        assertThat(new Period(LocalDate.of(2026, 3, 1), LocalDate.of(2026, 11, 26)).lastHalfYear())
                .isEqualTo(new Period(LocalDate.of(2026, 1, 1), LocalDate.of(2026, 6, 30)));
        assertThat(new Period(LocalDate.of(2026, 6, 30), LocalDate.of(2026, 6, 30)).lastHalfYear())
                .isEqualTo(new Period(LocalDate.of(2026, 1, 1), LocalDate.of(2026, 6, 30)));
        assertThat(new Period(LocalDate.of(2026, 1, 1), LocalDate.of(2026, 6, 29)).lastHalfYear())
                .isEqualTo(new Period(LocalDate.of(2025, 7, 1), LocalDate.of(2025, 12, 31)));
        assertThat(YEAR.lastHalfYear()).isEqualTo(new Period(LocalDate.of(2026, 7, 1), LocalDate.of(2026, 12, 31)));
        assertThat(Period.of(LocalDate.of(2026, 2, 2), LocalDate.of(2026, 2, 1)))
                .isEmpty();
    }

    @Test
    void groupsTooSmallShowNothingAndReferrersAmongThemHaveNoName() {
        var courses = new ArrayList<Course>();
        for (var n = 0; n < 34; n++) {
            courses.add(of(
                    course(Tier.WITHIN_14_DAYS, 14, Optional.of(n % 2 == 0 ? 7 : 21)),
                    n < 20 ? 1950 : n < 31 ? 1940 : 1990,
                    n < 14 ? "FEMALE" : "MALE",
                    n < 15 ? "Dr Farrow" : n < 31 ? "Dr Quill" : "Dr Wexley",
                    n < 4 ? Haste.ASKED : Haste.NOT_ASKED));
        }
        var equity = Equity.of(courses, new Period(LocalDate.of(2026, 1, 1), LocalDate.of(2026, 6, 30)));

        assertThat(equity.all().orElseThrow().count()).isEqualTo(34);
        // 3 were under 50, and take with them those of whom the age is not told, and the pair after them to come to
        // ten.
        assertThat(counts(equity, "Age"))
                .containsExactly(
                        "Age not told held",
                        "Under 50 held",
                        "50 to 59 held",
                        "60 to 69 held",
                        "70 to 79 held",
                        "80 and over held");
        assertThat(counts(equity, "Sex")).containsExactly("Female 14", "Other none", "Male 20", "Sex not told none");
        assertThat(counts(equity, "Haste"))
                .containsExactly("Haste asked for held", "Haste not asked for, or not told held");
        assertThat(counts(equity, "Referrer")).containsExactly("Dr Quill 16", "All others 18");
        var female = grouping(equity, "Sex").groups().getFirst().figures().orElseThrow();
        assertThat(female.days().median()).isEqualTo(14);
        assertThat(female.ofAllowed().orElseThrow().median()).isEqualTo(1.0);
    }

    @Test
    void ofNineWaitsNothingIsShownAtAll() {
        var courses = new ArrayList<Course>();
        for (var n = 0; n < 9; n++) {
            courses.add(course(Tier.WITHIN_14_DAYS, 14, Optional.of(7)));
        }
        var equity = Equity.of(courses, new Period(LocalDate.of(2026, 1, 1), LocalDate.of(2026, 6, 30)));
        assertThat(equity.all()).isEmpty();
        assertThat(equity.groupings())
                .allSatisfy(grouping -> assertThat(grouping.groups())
                        .allSatisfy(group -> assertThat(group.figures().isEmpty() && !group.none())
                                .isTrue()));
    }

    @Test
    void aPatientsNameIsTakenOutOfWhatSomebodyTyped() {
        assertThat(Nameless.words(
                        "Mrs PELL walks again, says Ångström's clinic; see pelle.", "Marguerite", "Pell Angstrom"))
                .isEqualTo("Mrs [name] walks again, says [name]'s clinic; see pelle.");
        assertThat(Nameless.words("A new wound.", "A", "")).isEqualTo("A new wound.");
    }

    @Test
    void aPictureHasTitleDescriptionAndLettersToRead() {
        var picture = new RangePicture(
                "agreement",
                "Agreement & more",
                "Dots and lines",
                "Share",
                true,
                List.of(
                        new RangePicture.Row("Within 14 days", 0.5, 0.6, 0.7, OptionalDouble.empty()),
                        new RangePicture.Row("Within 6 weeks", 0.2, 0.9, 1, OptionalDouble.of(0.4))));
        var svg = picture.svg().orElseThrow();
        assertThat(svg)
                .startsWith("<svg")
                .contains("role=\"img\"")
                .contains("aria-labelledby=\"agreement-title\"")
                .containsPattern("<title[^>]*id=\"agreement-title\"[^>]*>Agreement &amp; more</title")
                .containsPattern("<desc[^>]*id=\"agreement-desc\"[^>]*>Dots and lines</desc")
                .containsPattern("<text[^>]*>Within 14 days</text")
                .doesNotContain("id=\"clipPath");
    }

    private static Equity.Grouping grouping(Equity equity, String title) {
        return equity.groupings().stream()
                .filter(one -> one.title().equals(title))
                .findFirst()
                .orElseThrow();
    }

    private static List<String> counts(Equity equity, String title) {
        return grouping(equity, title).groups().stream()
                .map(group -> group.words() + " " + shown(group))
                .toList();
    }

    private static String shown(Group group) {
        return group.none()
                ? "none"
                : group.figures().map(figures -> "" + figures.count()).orElse("held");
    }
}
