package limbqueue.triage;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * All rows of the tables in a few runs. The tests that name each row say the same; for mutation testing, which runs them
 * again for every changed line, to begin a run for each of a thousand rows takes many times as long as the rows.
 */
class TablesAtOnce {

    @Test
    void publishedSituations() {
        var test = new PublishedRulesTest();
        atOnce(() -> PublishedRulesTest.situations().forEach(test::whatIsPrintedHolds));
    }

    @Test
    void publishedNumbers() {
        var test = new PublishedRulesTest();
        PublishedRulesTest.stages().forEach(test::theStageIsTheRiskOfAmputationAsPrinted);
        PublishedRulesTest.benefits().forEach(test::theBenefitIsAsPrinted);
        PublishedRulesTest.workedValues().forEach(test::theKidneyFunctionIsTheWorkedValue);
        PublishedRulesTest.risks().forEach(test::theRiskOfEveryTotalIsAsPrinted);
        PublishedRulesTest.tiers().forEach(test::theDaysOfATierAreAsPrinted);
    }

    @Test
    void vignettes() {
        var test = new VignettesTest();
        atOnce(() -> VignettesTest.vignettes().forEach(test::theRuleHoldsForTheWholeReferral));
    }

    @Test
    void limits() {
        var test = new LimitCasesTest();
        atOnce(() -> LimitCasesTest.cases().forEach(test::theRuleTurnsAtTheLimit));
    }

    @Test
    void caseReports() {
        var test = new CaseReportsTest();
        atOnce(() -> Stream.concat(CaseReportsTest.cases().stream(), CaseReportsTest.casesOfAnatomy().stream())
                .forEach(test::theFactsOfTheReportLeadToTheClassItStates));
    }

    private static void atOnce(Runnable rows) {
        ScopedValue.where(Expectation.DRAWN, LegRules.draw()).run(rows);
    }
}
