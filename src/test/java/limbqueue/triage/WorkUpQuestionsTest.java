package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.triage.TriageResult.Question;
import org.junit.jupiter.api.Test;

/**
 * What is asked because an item of the work-up, or a figure in it, depends on it, and what is not asked because nothing
 * does. Which figure needs which input: the equations and tables themselves (ckd-epi-2021, cockcroft-1976,
 * sir-2019); the rest is common practice, no source.
 */
class WorkUpQuestionsTest {

    /** Rest pain of a man of whom everything is known that the work-up asks about. */
    private static final Facts MAN = Facts.of("received=2026-03-02 L.restPain.present=true L.abi=0.3 patient.sex=male"
            + " patient.born=1950-06-01 weightKg=80 heightCm=178 medicines=[] allergies=[] imaging=[] procedures=[]"
            + " history.diabetes=false history.dialysis=false history.heartFailure=false history.stroke=false"
            + " history.coronaryBypass=false history.thyroidDisease=false history.bleedingDisorder=false"
            + " history.smoking=never labs[0].test=creatinine labs[0].unit=mg/dL labs[0].value=1.0"
            + " labs[0].taken=2026-02-20");

    private static final Facts UNBORN = MAN.without("patient.born");

    private static List<String> asked(Facts facts) {
        return facts.triage().questions().stream().map(Question::field).toList();
    }

    private static String words(Facts facts, String field) {
        return facts.triage().questions().stream()
                .filter(question -> question.field().equals(field))
                .map(Question::ask)
                .findFirst()
                .orElse("");
    }

    @Test
    void nothingIsAskedForTheWorkUpOfWhomEverythingIsKnown() {
        assertThat(asked(MAN))
                .noneMatch(field -> field.startsWith("patient")
                        || field.startsWith("history.d")
                        || field.startsWith("labs")
                        || field.startsWith("medicines")
                        || field.equals("weightKg"));
    }

    @Test
    void theUnitOfALaterCreatinineIsAsked() {
        var later = MAN.with("labs[1].test", "creatinine").with("labs[1].value", 1.4);
        assertThat(words(later.with("labs[1].taken", "2026-02-21"), "labs[1].unit"))
                .isEqualTo("In which unit is the creatinine of 1.4 given, mg/dL or umol/L?");
        assertThat(asked(later.with("labs[1].taken", "2026-02-20"))).doesNotContain("labs[1].unit");
        assertThat(asked(later.with("labs[1].taken", "2026-02-21").with("labs[1].unit", "mg/dL")))
                .doesNotContain("labs[1].unit");
    }

    @Test
    void theUnitOfTheOnlyCreatinineIsAsked() {
        assertThat(asked(MAN.without("labs[0].unit"))).contains("labs[0].unit");
    }

    @Test
    void theDayOfTheOnlyCreatinineIsAsked() {
        assertThat(words(MAN.without("labs[0].taken"), "labs[0].taken"))
                .isEqualTo("On which day was the blood taken for the kidney function?");
        assertThat(asked(MAN)).doesNotContain("labs[0].taken");
    }

    @Test
    void haemoglobinAndPlateletsAreAskedForTheirDayOnlyTogether() {
        var haemoglobin = MAN.with("labs[1].test", "haemoglobin")
                .with("labs[1].value", 14)
                .with("labs[1].unit", "g/dL");
        assertThat(asked(haemoglobin)).doesNotContain("labs[1].taken");
        var both = haemoglobin
                .with("labs[2].test", "platelets")
                .with("labs[2].value", 250)
                .with("labs[2].unit", "10*9/L");
        assertThat(asked(both)).contains("labs[1].taken", "labs[2].taken");
        assertThat(words(both, "labs[2].taken")).isEqualTo("On which day was the blood taken for the platelets?");
        assertThat(asked(both.with("labs[1].taken", "2026-02-20")))
                .doesNotContain("labs[1].taken")
                .contains("labs[2].taken");
    }

    /** The kidney function rests on creatinine and age: without a birth date there is none. */
    @Test
    void theBirthDateIsAskedForTheKidneyFunctionOfTheLatestCreatinine() {
        assertThat(words(UNBORN, "patient.born")).isEqualTo("When was the patient born?");
        assertThat(asked(MAN)).doesNotContain("patient.born");
    }

    @Test
    void withALaterFiltrationRateTheCreatinineIsNotWhatCounts() {
        var rate = UNBORN.with("labs[1].test", "egfr").with("labs[1].value", 70).with("labs[1].unit", "mL/min");
        assertThat(asked(rate.with("labs[1].taken", "2026-02-21"))).doesNotContain("patient.born");
        assertThat(asked(rate.with("labs[1].taken", "2026-02-20"))).contains("patient.born");
        assertThat(asked(rate.with("labs[1].taken", "2026-02-19"))).contains("patient.born");
    }

    @Test
    void withNothingButAFiltrationRateTheBirthDateOfAManIsNotAsked() {
        assertThat(asked(UNBORN.with("labs[0].test", "egfr")
                        .with("labs[0].unit", "mL/min")
                        .with("labs[0].value", 80)))
                .doesNotContain("patient.born");
    }

    /** Cockcroft and Gault: age, weight and sex; of those on an anticoagulant that the kidneys clear. */
    @Test
    void withAnAnticoagulantAgeAndWeightAreAskedForTheClearance() {
        var rate = UNBORN.without("weightKg")
                .with("labs[0].test", "egfr")
                .with("labs[0].unit", "mL/min")
                .with("labs[0].value", 80);
        assertThat(asked(rate)).doesNotContain("weightKg", "patient.born");
        var onApixaban = rate.without("medicines").with("medicines[0].name", "apixaban");
        assertThat(asked(onApixaban)).contains("weightKg", "patient.born");
        assertThat(words(onApixaban, "weightKg")).isEqualTo("What does the patient weigh?");
        assertThat(asked(onApixaban.with("weightKg", 80))).doesNotContain("weightKg");
        assertThat(asked(onApixaban.with("history.dialysis", true))).doesNotContain("weightKg", "patient.born");
    }

    @Test
    void theSexIsAskedWhereTheEquationGivesARange() {
        var unsaid = MAN.without("patient.sex");
        assertThat(words(unsaid, "patient.sex")).isEqualTo("Is the patient a woman or a man?");
        assertThat(asked(MAN)).doesNotContain("patient.sex");
        assertThat(asked(unsaid.with("labs[0].test", "egfr")
                        .with("labs[0].unit", "mL/min")
                        .with("labs[0].value", 80)))
                .doesNotContain("patient.sex");
    }

    /** The clearance differs between the sexes though the filtration rate, as reported, does not. */
    @Test
    void theSexIsAskedWhereTheClearanceIsARange() {
        var unsaid = MAN.without("patient.sex")
                .with("labs[1].test", "egfr")
                .with("labs[1].value", 70)
                .with("labs[1].unit", "mL/min")
                .with("labs[1].taken", "2026-02-21");
        assertThat(asked(unsaid)).doesNotContain("patient.sex");
        var onApixaban = unsaid.without("medicines").with("medicines[0].name", "apixaban");
        assertThat(asked(onApixaban)).contains("patient.sex");
        assertThat(asked(onApixaban.with("history.dialysis", true))).doesNotContain("patient.sex");
    }

    /** 12 to 50 years: the limits of the practice. */
    @Test
    void aWomanWhoCouldBePregnantIsAskedAndAManIsNot() {
        var woman = MAN.with("patient.sex", "female").with("patient.born", "1990-06-01");
        assertThat(words(woman, "history.pregnant")).isEqualTo("Is the patient pregnant?");
        assertThat(asked(woman.with("history.pregnant", false))).doesNotContain("history.pregnant");
        assertThat(asked(woman.with("patient.sex", "male"))).doesNotContain("history.pregnant");
        assertThat(asked(woman.with("patient.born", "1950-06-01"))).doesNotContain("history.pregnant");
        var ofUnsaidAge = woman.without("patient.born")
                .with("labs[0].test", "egfr")
                .with("labs[0].unit", "mL/min")
                .with("labs[0].value", 80);
        assertThat(asked(ofUnsaidAge)).contains("patient.born");
        assertThat(asked(ofUnsaidAge.with("history.pregnant", false))).doesNotContain("patient.born");
    }

    @Test
    void ofSomeoneYoungTheSexIsAskedForThePregnancy() {
        var young = MAN.with("patient.born", "1990-06-01")
                .with("labs[0].test", "egfr")
                .with("labs[0].unit", "mL/min")
                .with("labs[0].value", 80)
                .without("patient.sex");
        assertThat(asked(young)).contains("patient.sex");
        assertThat(asked(young.with("history.pregnant", false))).doesNotContain("patient.sex");
    }

    @Test
    void picturesAreAskedForWhereNoneAreToldOfAndADateWhereOneIsUndated() {
        var untold = MAN.without("imaging");
        assertThat(words(untold, "imaging")).isEqualTo("Which pictures of the leg arteries have been made, and when?");
        assertThat(asked(MAN)).doesNotContain("imaging");
        var undated = untold.with("imaging[0].kind", "duplex");
        assertThat(words(undated, "imaging[0].date")).isEqualTo("On which day was the duplex ultrasound made?");
        assertThat(asked(undated.with("imaging[0].date", "2026-02-01"))).doesNotContain("imaging[0].date");
        assertThat(asked(undated.with("imaging[1].kind", "duplex").with("imaging[1].date", "2026-02-01")))
                .doesNotContain("imaging[0].date");
    }

    @Test
    void ofAVitaminKAntagonistTheDayOfTheInrIsAsked() {
        var inr = MAN.with("labs[1].test", "inr").with("labs[1].value", 2.1);
        assertThat(asked(inr)).doesNotContain("labs[1].taken");
        assertThat(asked(inr.without("medicines").with("medicines[0].name", "warfarin")))
                .contains("labs[1].taken");
    }

    @Test
    void ofPotassiumTheDayIsAskedUnlessItIsHighAnyway() {
        var potassium = MAN.with("labs[1].test", "potassium").with("labs[1].unit", "mmol/L");
        assertThat(asked(potassium.with("labs[1].value", 4.2))).contains("labs[1].taken");
        assertThat(asked(potassium.with("labs[1].value", 6.8))).doesNotContain("labs[1].taken");
    }
}
