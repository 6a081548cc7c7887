package limbqueue.triage.workup;

import java.util.ArrayList;
import java.util.Optional;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Sex;
import limbqueue.triage.finding.LatestLab;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;

/** Blood values other than those of the kidneys, and pregnancy. */
final class LaboratoryTests {

    private LaboratoryTests() {}

    static void propose(Occasion on, Sheet sheet) {
        bloodCount(on, sheet);
        potassium(on, sheet);
        inr(on, sheet);
        hba1c(on, sheet);
        if (on.history().thyroidDisease().orElse(false)) {
            sheet.once(
                    Item.THYROID_FUNCTION,
                    "Thyroid function (TSH)",
                    "Thyroid disease, and contrast carries iodine; none is given electively while the thyroid is"
                            + " overactive.",
                    on.lab(LabTest.TSH).isPresent());
        }
        pregnancy(on, sheet);
    }

    private static void bloodCount(Occasion on, Sheet sheet) {
        var validity = Validity.days(on.policy().validity().bloodCount());
        var haemoglobin = on.lab(LabTest.HAEMOGLOBIN).flatMap(LatestLab::taken);
        var platelets = on.lab(LabTest.PLATELETS).flatMap(LatestLab::taken);
        var oldest = haemoglobin.flatMap(one -> platelets.map(other -> one.isBefore(other) ? one : other));
        sheet.dated(
                Item.BLOOD_COUNT,
                "Haemoglobin and platelets",
                "Anaemia and few platelets change the risk of the puncture.",
                validity.held(oldest),
                BleedingValues.calculation(on, sheet));
    }

    private static void potassium(Occasion on, Sheet sheet) {
        var potassium = on.lab(LabTest.POTASSIUM);
        if (potassiumHigh(on)) {
            var value = potassium.map(LatestLab::value).orElseThrow();
            sheet.need(
                    Item.POTASSIUM,
                    Sentence.of(
                            "Potassium %.1f mmol/L is %s: correct it before elective work, and repeat it",
                            value, band(value, on)),
                    "A high potassium can stop the heart on the table. Severe: today, in hospital.");
            return;
        }
        sheet.dated(
                Item.POTASSIUM,
                "Potassium",
                "A potassium that is off is put right before elective work.",
                Validity.days(on.policy().validity().bloodCount()).held(potassium.flatMap(LatestLab::taken)));
    }

    static boolean potassiumHigh(Occasion on) {
        return on.lab(LabTest.POTASSIUM)
                .map(potassium -> potassium.value() >= on.limits().of(Limit.POTASSIUM_HIGH_AT_LEAST))
                .orElse(false);
    }

    private static String band(double potassium, Occasion on) {
        if (potassium >= on.limits().of(Limit.POTASSIUM_SEVERE_AT_LEAST)) {
            return "severely raised";
        }
        return potassium >= on.limits().of(Limit.POTASSIUM_MODERATE_AT_LEAST) ? "moderately raised" : "mildly raised";
    }

    private static void inr(Occasion on, Sheet sheet) {
        var reasons = new ArrayList<String>();
        if (on.takes(Substances::isVitaminKAntagonist)) {
            reasons.add("A vitamin K antagonist is on the list of medicines.");
        }
        if (on.history().bleedingDisorder().orElse(false)) {
            reasons.add("A bleeding disorder is on record.");
        }
        if (!reasons.isEmpty()) {
            sheet.dated(
                    Item.INR,
                    "INR within a day of the procedure",
                    String.join(" ", reasons),
                    Validity.days(on.policy().validity().inr())
                            .held(on.lab(LabTest.INR).flatMap(LatestLab::taken)));
        }
        BleedingValues.propose(on, sheet);
    }

    private static void hba1c(Occasion on, Sheet sheet) {
        if (!on.history().diabetes().orElse(false)) {
            return;
        }
        var held = on.lab(LabTest.HBA1C);
        var high = held.map(lab -> aboveElectiveTarget(lab, on)).orElse(false);
        sheet.dated(
                Item.HBA1C,
                high ? "HbA1c above the target of elective work: ask who treats the diabetes" : "HbA1c",
                "Diabetes; a high value never delays a threatened limb.",
                Validity.months(on.limits().whole(Limit.HBA1C_VALID_MONTHS)).held(held.flatMap(LatestLab::taken)));
    }

    /** Of a value without unit the more serious reading counts. */
    private static boolean aboveElectiveTarget(LatestLab hba1c, Occasion on) {
        return hba1c.unit().equals(Optional.of("mmol/mol"))
                ? hba1c.value() >= on.limits().of(Limit.HBA1C_MMOL_PER_MOL_AT_LEAST)
                : hba1c.value() >= on.limits().of(Limit.HBA1C_PERCENT_AT_LEAST);
    }

    /** Whether a value without unit is high in one unit and not in the other. */
    static boolean unitOfHba1cMatters(LatestLab hba1c, Occasion on) {
        return hba1c.unit().isEmpty()
                && hba1c.value() >= on.limits().of(Limit.HBA1C_PERCENT_AT_LEAST)
                && hba1c.value() < on.limits().of(Limit.HBA1C_MMOL_PER_MOL_AT_LEAST);
    }

    private static void pregnancy(Occasion on, Sheet sheet) {
        if (on.history().pregnant().orElse(false)) {
            sheet.need(
                    Item.PREGNANCY_TEST,
                    "Decide on X-rays and contrast in pregnancy before anything is booked",
                    "The patient is pregnant: ultrasound first, no gadolinium, contrast with iodine only if it must be.");
        } else if (couldBePregnant(on)) {
            sheet.need(
                    Item.PREGNANCY_TEST, "Ask about pregnancy, and test where it is possible", "X-rays and contrast.");
        }
    }

    static boolean couldBePregnant(Occasion on) {
        return !on.document().patient().sex().equals(Optional.of(Sex.MALE))
                && on.history().pregnant().isEmpty()
                && on.age()
                        .map(years -> years >= on.limits().whole(Limit.PREGNANCY_POSSIBLE_FROM_AGE)
                                && years <= on.limits().whole(Limit.PREGNANCY_POSSIBLE_TO_AGE))
                        .orElse(false);
    }
}
