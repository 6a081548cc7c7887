package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.finding.MehranScore;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;

/** How the score of Mehran is shown, and which of several blood counts it goes by. Its table: {@code mehran-2004.csv}. */
class MehranScoreTest {

    private static final Facts KNOWN =
            Facts.of("L.restPain.present=true history.dialysis=false history.heartFailure=false"
                    + " history.diabetes=false patient.born=1956-01-01 patient.sex=male labs[0].test=egfr"
                    + " labs[0].taken=2026-03-01 labs[0].value=25 labs[1].test=haemoglobin labs[1].unit=g/L"
                    + " labs[1].taken=2026-03-01 labs[1].value=150");

    private static String why(Facts given) {
        return Triage.triage(given.document(), Policy.standard(), Facts.TODAY).workUp().stream()
                .filter(item -> item.code().equals("kidney-protection"))
                .map(WorkUpItem::why)
                .findFirst()
                .orElseThrow();
    }

    /** mehran-2004, table of points: eGFR 20 to 40 is 4; groups of risk: up to 5 points 7.5 % and 0.04 %. */
    @Test
    void aScoreThatIsKnownIsOneNumber() {
        assertThat(why(KNOWN)).contains("4 points", " in 7.5 %", " in 0.04 %");
    }

    /** Diabetes adds 3: 4 to 7 points, 6 to 10 points 14 % and 0.12 %. */
    @Test
    void aScoreWithSomethingUnknownIsARangeOfPointsAndOfRisk() {
        assertThat(why(KNOWN.without("history.diabetes"))).contains("4 to 7 points", "7.5 to 14.0 %", "0.04 to 0.12 %");
    }

    @Test
    void theWordsSayWhereTheScoreComesFromAndWhatIsNotInIt() {
        assertThat(why(KNOWN))
                .contains("coronary interventions", "100 mL of contrast adds 1", "hypotension would add 5")
                .contains("balloon pump 5", "haemoglobin", "NYHA class III or IV");
    }

    @Test
    void noScoreIsShownOnDialysis() {
        assertThat(why(KNOWN.with("history.dialysis", true)))
                .isEqualTo("Low kidney function.")
                .doesNotContain("Mehran");
    }

    /** Common practice, no source. */
    @Test
    void theLatestHaemoglobinCountsAndOfOneDayTheLowest() {
        var later = KNOWN.with("labs[2].test", "haemoglobin").with("labs[2].unit", "g/L");
        assertThat(score(later.with("labs[2].taken", "2026-03-02").with("labs[2].value", 100)))
                .isEqualTo(new MehranScore(7, 7));
        assertThat(score(later.with("labs[2].taken", "2026-02-01").with("labs[2].value", 100)))
                .isEqualTo(new MehranScore(4, 4));
        assertThat(score(later.with("labs[2].taken", "2026-03-01").with("labs[2].value", 100)))
                .isEqualTo(new MehranScore(7, 7));
    }

    /** Common practice, no source. */
    @Test
    void theLatestCreatinineCountsAndOfOneDayTheHighest() {
        var young =
                KNOWN.without("patient.born").with("labs[0].test", "creatinine").with("labs[0].unit", "mg/dL");
        var low = young.with("labs[0].value", 1.0)
                .with("labs[2].test", "creatinine")
                .with("labs[2].unit", "umol/L")
                .with("labs[2].value", 200);
        assertThat(score(low.with("labs[2].taken", "2026-03-01"))).isEqualTo(new MehranScore(4, 8));
        assertThat(score(low.with("labs[2].taken", "2026-02-01"))).isEqualTo(new MehranScore(0, 4));
    }

    private static MehranScore score(Facts given) {
        return MehranScore.of(given.document(), Facts.TODAY, RuleBook.shipped().on(Facts.TODAY))
                .orElseThrow();
    }
}
