package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every number that a rule compares with: below it, at it, above it, and with the value missing. A number that is only
 * reckoned with or named: where it is used, and where it is not.
 */
class LimitCasesTest {

    static List<Table.Row> cases() {
        return Table.read(Path.of("src/test/resources/limbqueue/triage/limit-cases.txt"), 4);
    }

    @ParameterizedTest
    @EnumSource(
            value = Limit.class,
            mode = EnumSource.Mode.EXCLUDE,
            // What a practice learns, and which of its stents fit, is no part of a referral's result: CaseMinutesTest,
            // StentNeedTest.
            names = {"PLAN_MINUTES_PRIOR_CASES", "PLAN_COVERED_STENT_LENGTH_ENOUGH"})
    void everyNumberHasItsCases(Limit limit) {
        assertThat(cases().stream()
                        .filter(row -> row.cell(0).equals(limit.id()))
                        .map(row -> row.cell(1))
                        .collect(Collectors.toSet()))
                .containsExactlyInAnyOrder(
                        limit.amount()
                                ? new String[] {"used", "not used"}
                                : new String[] {"below", "at", "above", "missing"});
    }

    @ParameterizedTest
    @MethodSource("cases")
    void theRuleTurnsAtTheLimit(Table.Row row) {
        Expectation.check(Facts.of(row.cell(2)), row.cell(3), row.place() + ": " + row.cell(0) + " " + row.cell(1));
    }

    /** The exploration of open ankle figures takes the two pairs for one; let nobody move one of them alone. */
    @Test
    void anAnkleLowForClaudicationIsLowForRestPain() {
        var limits = RuleBook.shipped().on(Facts.TODAY);
        assertThat(limits.of(Limit.CLAUDICATION_SOON_ABI_LESS_THAN))
                .isEqualTo(limits.of(Limit.REST_PAIN_ABI_LESS_THAN));
        assertThat(limits.of(Limit.CLAUDICATION_SOON_ANKLE_LESS_THAN))
                .isEqualTo(limits.of(Limit.REST_PAIN_ANKLE_LESS_THAN));
    }
}
