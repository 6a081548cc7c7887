package limbqueue.triage.workup;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.ReferralDocument.Imaging;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Sex;
import limbqueue.triage.finding.Creatinine;
import limbqueue.triage.finding.CreatinineClearance;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.LatestLab;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;

/** What is not known and would change an item of the work-up or a figure in it. */
final class OpenInputs {

    private final Occasion on;
    private final List<OpenInput> open = new ArrayList<>();

    private OpenInputs(Occasion on) {
        this.on = on;
    }

    static List<OpenInput> of(Occasion on) {
        var inputs = new OpenInputs(on);
        if (on.procedureAhead()) {
            inputs.medicines();
            inputs.allergies();
            inputs.laboratory();
            inputs.patient();
            inputs.history();
            inputs.imaging();
        }
        inputs.lastingCare();
        return List.copyOf(inputs.open);
    }

    private void ask(boolean unknown, String field, String ask) {
        if (unknown) {
            open.add(new OpenInput(ask, field));
        }
    }

    private void medicines() {
        var medicines = on.document().medicines();
        ask(
                medicines.isEmpty(),
                "medicines",
                "Which medicines does the patient take, above all against clots and for diabetes?");
        var list = medicines.orElse(List.of());
        for (var i = 0; i < list.size(); i++) {
            var medicine = list.get(i);
            ask(
                    medicine.name().isEmpty(),
                    "medicines[" + i + "].name",
                    "What is the generic name of the medicine that is listed without one?");
            ask(
                    medicine.name().flatMap(Substances::anticoagulant).equals(Optional.of("rivaroxaban"))
                            && medicine.dose().isEmpty()
                            && !DrugPlan.lowDose(medicine),
                    "medicines[" + i + "].dose",
                    "Is the rivaroxaban the low dose given with aspirin for the arteries, or a full dose?");
        }
    }

    private void allergies() {
        var allergies = on.document().allergies();
        ask(allergies.isEmpty(), "allergies", "Has the patient ever reacted to contrast medium or to anything else?");
        var list = allergies.orElse(List.of());
        for (var i = 0; i < list.size(); i++) {
            ask(
                    list.get(i).reaction().isEmpty()
                            && list.get(i)
                                    .to()
                                    .map(Substances::isContrastMedium)
                                    .orElse(false),
                    "allergies[" + i + "].reaction",
                    "How severe was the reaction to contrast medium?");
        }
    }

    private void laboratory() {
        LatestLab.of(on.document(), LabTest.CREATININE, lab -> lab.unit().isEmpty())
                .filter(this::laterThanAnyThatCounts)
                .ifPresent(lab -> ask(true, lab.path("unit"), unit("creatinine", lab, "mg/dL or umol/L")));
        if (on.history().diabetes().orElse(false)) {
            on.lab(LabTest.HBA1C)
                    .filter(lab -> LaboratoryTests.unitOfHba1cMatters(lab, on))
                    .ifPresent(lab -> ask(true, lab.path("unit"), unit("HbA1c", lab, "% or mmol/mol")));
            day(LabTest.HBA1C, "HbA1c");
        }
        on.kidney()
                .filter(kidney -> kidney.taken().isEmpty())
                .map(KidneyFunction::evidence)
                .ifPresent(value -> ask(
                        true,
                        value.replace(".value", ".taken"),
                        "On which day was the blood taken for the kidney function?"));
        // One without the other is no blood count, whenever it was taken.
        if (on.lab(LabTest.HAEMOGLOBIN).isPresent() && on.lab(LabTest.PLATELETS).isPresent()) {
            day(LabTest.HAEMOGLOBIN, "haemoglobin");
            day(LabTest.PLATELETS, "platelets");
        }
        if (!LaboratoryTests.potassiumHigh(on)) {
            day(LabTest.POTASSIUM, "potassium");
        }
        if (on.takes(Substances::isVitaminKAntagonist)) {
            day(LabTest.INR, "INR");
        }
    }

    private boolean laterThanAnyThatCounts(LatestLab creatinine) {
        return Creatinine.latest(on.document())
                .map(counted -> day(creatinine.taken()).isAfter(day(counted.taken())))
                .orElse(true);
    }

    private static LocalDate day(Optional<LocalDate> taken) {
        return taken.orElse(LocalDate.MIN);
    }

    private static String unit(String test, LatestLab lab, String units) {
        return Sentence.of("In which unit is the %s of %s given, %s?", test, lab.value(), units);
    }

    private void day(LabTest test, String words) {
        on.lab(test)
                .filter(lab -> lab.taken().isEmpty())
                .ifPresent(lab -> ask(
                        true, lab.path("taken"), Sentence.of("On which day was the blood taken for the %s?", words)));
    }

    private void patient() {
        var patient = on.document().patient();
        var couldBePregnant = !patient.sex().equals(Optional.of(Sex.MALE))
                && on.history().pregnant().isEmpty();
        ask(
                patient.born().isEmpty() && (couldBePregnant || clearanceMatters() || creatinineIsLatest()),
                "patient.born",
                "When was the patient born?");
        ask(
                patient.sex().isEmpty() && (LaboratoryTests.couldBePregnant(on) || kidneysAreARange()),
                "patient.sex",
                "Is the patient a woman or a man?");
        ask(LaboratoryTests.couldBePregnant(on), "history.pregnant", "Is the patient pregnant?");
        ask(on.document().weightKg().isEmpty() && clearanceMatters(), "weightKg", "What does the patient weigh?");
    }

    private boolean clearanceMatters() {
        return on.takes(Substances::isAnticoagulant) && !on.dialysis();
    }

    /** Whether kidney function would rest on the creatinine, were only the age known. */
    private boolean creatinineIsLatest() {
        return Creatinine.latest(on.document())
                .map(creatinine -> on.kidney()
                        .map(kidney -> !day(creatinine.taken()).isBefore(day(kidney.taken())))
                        .orElse(true))
                .orElse(false);
    }

    private boolean kidneysAreARange() {
        return on.kidney().map(kidney -> kidney.most() > kidney.egfr()).orElse(false)
                || (clearanceMatters()
                        && CreatinineClearance.of(on.document(), on.asOf())
                                .map(span -> span.most() > span.least())
                                .orElse(false));
    }

    private void history() {
        var history = on.history();
        ask(history.diabetes().isEmpty(), "history.diabetes", "Has the patient diabetes?");
        ask(history.dialysis().isEmpty(), "history.dialysis", "Is the patient on dialysis?");
        ask(history.heartFailure().isEmpty(), "history.heartFailure", "Has the patient cardiac insufficiency?");
        ask(history.stroke().isEmpty(), "history.stroke", "Has the patient had a stroke?");
        ask(
                history.coronaryBypass().isEmpty()
                        && history.recentMyocardialInfarctionDays().isEmpty(),
                "history.coronaryBypass",
                "Has the patient had a coronary bypass?");
        ask(history.thyroidDisease().isEmpty(), "history.thyroidDisease", "Has the patient a disease of the thyroid?");
        ask(history.bleedingDisorder().isEmpty(), "history.bleedingDisorder", "Is a disorder of clotting known?");
    }

    private void imaging() {
        ask(
                on.document().imaging().isEmpty()
                        && (!Pictures.changedSince(on.asOf(), on) || !OutsideRecords.reportMissing(on)),
                "imaging",
                "Which pictures of the leg arteries have been made, and when?");
        undated(Pictures.DUPLEX, "duplex ultrasound");
        if (Pictures.inflowWanted(on)) {
            undated(Pictures.OF_THE_INFLOW, "CTA or MRA");
        }
    }

    /** The day of a picture matters while none of its kind has one, unless symptoms changed too recently for any. */
    private void undated(Set<ImagingKind> kinds, String words) {
        var pictures = on.document().imaging().orElse(List.of());
        if (Entries.any(
                        pictures,
                        image -> Pictures.of(image, kinds) && image.date().isPresent())
                || Pictures.changedSince(on.asOf(), on)) {
            return;
        }
        for (var i = 0; i < pictures.size(); i++) {
            Imaging picture = pictures.get(i);
            if (Pictures.of(picture, kinds)) {
                ask(true, "imaging[" + i + "].date", Sentence.of("On which day was the %s made?", words));
                return;
            }
        }
    }

    private void lastingCare() {
        ask(
                on.history().smoking().isEmpty() && on.anyLeg(LegPicture::symptoms),
                "history.smoking",
                "Does the patient smoke?");
        ask(
                on.history().exerciseProgrammeWeeks().isEmpty() && LastingCare.exerciseFirst(on),
                "history.exerciseProgrammeWeeks",
                "How many weeks of supervised exercise has the patient done?");
    }
}
