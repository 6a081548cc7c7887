package limbqueue.triage.workup;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Course;
import limbqueue.triage.ReferralDocument.Imaging;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.Lab;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Sex;
import limbqueue.triage.ReferralDocument.Smoking;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.anatomy.LesionFacts;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.IliacDisease;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.MehranScore;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.Firings;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;

/**
 * What must be known or done before a procedure. An item that is already held and stays valid until the target date is
 * listed as not needed, with the last day of its validity.
 */
public final class WorkUp {

    private final Case referral;
    private final Policy.Validity validity;
    private final RuleBook book;
    private final Set<String> flags;
    private final List<WorkUpItem> items = new ArrayList<>();

    private WorkUp(Case referral, Policy policy, RuleBook book, Set<String> flags) {
        this.referral = referral;
        this.validity = policy.validity();
        this.book = book;
        this.flags = flags;
    }

    /** @param flags codes of the red flags raised */
    public static List<WorkUpItem> of(Case referral, Policy policy, RuleBook book, Set<String> flags) {
        var workUp = new WorkUp(referral, policy, book, flags);
        workUp.safetyCalls();
        if (referral.tier() != Tier.ADVICE_ONLY) {
            workUp.laboratory();
            workUp.imaging();
            workUp.outsideRecords();
            workUp.drugsAndRisks();
        }
        workUp.lastingCare();
        return List.copyOf(workUp.items);
    }

    private ReferralDocument document() {
        return referral.document();
    }

    private void safetyCalls() {
        if (flags.contains("diabetic-foot-emergency")) {
            need(
                    "foot-service-call",
                    "Call the hospital's foot service today",
                    "Diabetes with a foot in danger; the call does not wait for the procedure.");
        }
        if (anyLeg(LegPicture::tissueLoss)) {
            need(
                    "wound-assessment",
                    "Photograph and measure the wound, probe it to bone",
                    "Depth, exposed bone and infection set the grade of the wound.");
        }
    }

    private void laboratory() {
        kidney();
        dated(
                "blood-count",
                "Haemoglobin and platelets",
                "Anaemia and few platelets change the risk of the puncture.",
                oldestOf(LabTest.HAEMOGLOBIN, LabTest.PLATELETS).map(taken -> taken.plusDays(validity.bloodCount())));
        dated(
                "potassium",
                "Potassium",
                "A potassium that is off is put right before elective work.",
                oldestOf(LabTest.POTASSIUM).map(taken -> taken.plusDays(validity.bloodCount())));
        if (takes(Substances::isVitaminKAntagonist)) {
            dated(
                    "inr",
                    "INR within a day of the procedure",
                    "A vitamin K antagonist is on the list of medicines.",
                    oldestOf(LabTest.INR).map(taken -> taken.plusDays(validity.inr())));
        }
        if (known(document().history().diabetes())) {
            item(
                    "hba1c",
                    "HbA1c",
                    "Diabetes; a high value never delays a threatened limb.",
                    lab(LabTest.HBA1C).isEmpty(),
                    Optional.empty());
        }
        if (known(document().history().thyroidDisease())) {
            item(
                    "thyroid-function",
                    "Thyroid function (TSH)",
                    "Thyroid disease, and contrast carries iodine.",
                    lab(LabTest.TSH).isEmpty(),
                    Optional.empty());
        }
        if (couldBePregnant()) {
            need("pregnancy-test", "Ask about pregnancy, and test where it is possible", "X-rays and contrast.");
        }
    }

    private void kidney() {
        var kidney = KidneyFunction.latest(document(), referral.asOf());
        var impaired = kidney.map(
                        value -> value.egfr() < referral.limits().of(Limit.KIDNEY_SHORT_VALIDITY_EGFR_LESS_THAN))
                .orElse(false);
        dated(
                "kidney-function",
                "Creatinine and eGFR",
                kidney.map(value -> Sentence.of(
                                "Last eGFR %.0f; contrast is given into an artery, and CTA waits for it.",
                                value.egfr()))
                        .orElse("No kidney function held; contrast is given into an artery, and CTA waits for it."),
                kidney.flatMap(KidneyFunction::taken)
                        .map(taken ->
                                taken.plusDays(impaired ? validity.creatinineWhenImpaired() : validity.creatinine())));
        if (flags.contains("kidney-risk")) {
            need(
                    "kidney-protection",
                    "Consider protection of the kidneys, and carbon dioxide instead of contrast",
                    mehran().map(score -> "Low kidney function. " + score).orElse("Low kidney function."));
        }
    }

    private Optional<String> mehran() {
        return MehranScore.of(document(), referral.asOf(), referral.limits())
                .map(score -> score.sentence(referral.limits()));
    }

    private void imaging() {
        dated(
                "duplex",
                "Duplex ultrasound of the leg arteries",
                "The first picture for every candidate.",
                latestImaging(Set.of(ImagingKind.DUPLEX)));
        if (referral.tier().moreUrgentThan(Tier.WITHIN_18_WEEKS)
                && !IliacDisease.evidence(referral).isEmpty()) {
            dated(
                    "cta-or-mra",
                    "CTA or MRA of the inflow",
                    "Iliac disease is shown or likely; kidney function first.",
                    latestImaging(Set.of(ImagingKind.CTA, ImagingKind.MRA)));
        }
        if (anyLeg(this::toePressureWanted)) {
            need(
                    "toe-pressure",
                    "Toe pressure",
                    "Diabetes, dialysis, tissue loss or arteries that cannot be compressed: the ankle figures can mislead.");
        }
        if (anyLeg(this::exerciseIndexWanted)) {
            need(
                    "exercise-abi",
                    "Ankle-brachial index after exercise",
                    "Pain on walking with a normal or borderline index at rest.");
        }
        var lesions = LesionFacts.placed(document().lesions().orElse(List.of()), referral.limits());
        if (lesions.stream().anyMatch(IliacDisease::canRupture)) {
            need(
                    "covered-stent-stock",
                    "A covered stent that fits the vessel, in the room before the case starts",
                    "An iliac occlusion or a calcified iliac stenosis can rupture.");
        }
    }

    private boolean toePressureWanted(LegPicture leg) {
        if (leg.facts().figures().distalKnown() || leg.facts().footGone()) {
            return false;
        }
        var history = document().history();
        return leg.tissueLoss()
                || leg.facts().figures().noncompressible()
                || (leg.symptoms() && (known(history.diabetes()) || known(history.dialysis())));
    }

    private boolean exerciseIndexWanted(LegPicture leg) {
        return leg.claudication()
                && !leg.threatening()
                && leg.leg().abiAfterExercise().isEmpty()
                && leg.leg().pressures().ankleAfterExercise().isEmpty()
                && leg.facts()
                        .figures()
                        .abi()
                        .map(abi -> abi.band() == AbiBand.NORMAL || abi.band() == AbiBand.BORDERLINE)
                        .orElse(false);
    }

    private void outsideRecords() {
        if (elsewhere(ReferralDocument.Procedure::reportHeld, Imaging::reportHeld)) {
            need(
                    "outside-report",
                    "Ask for the report of every earlier procedure and picture",
                    "An earlier procedure or picture exists, and its report is not here.");
        }
        if (elsewhere(ReferralDocument.Procedure::imagesHeld, Imaging::imagesHeld)) {
            need(
                    "outside-images",
                    "Ask for the images of every earlier procedure and picture",
                    "An earlier procedure or picture exists, and its images are not here.");
        }
        if (flags.contains("possible-undisclosed-attempt") || flags.contains("failed-attempt")) {
            need(
                    "operator-conversation",
                    "A word with the operator of the earlier procedure",
                    "What was seen and tried decides the next plan.");
        }
    }

    private void drugsAndRisks() {
        if (takes(Substances::isMetformin)) {
            need(
                    "metformin",
                    "Settle metformin before contrast into an artery",
                    "The drug label holds it at or before contrast into an artery and rechecks kidney function after 48"
                            + " hours; the contrast manual holds it only at low kidney function or when emboli may reach"
                            + " the kidneys. Local policy chooses.");
        }
        if (flags.contains("contrast-allergy")) {
            need(
                    "contrast-allergy",
                    "Settle premedication, another agent or carbon dioxide",
                    "An earlier reaction to contrast medium.");
        }
        if (takes(Substances::isAnticoagulant)) {
            need(
                    "anticoagulant",
                    "Settle the anticoagulant with its prescriber",
                    "Whether, when and how long it is held is the prescriber's decision.");
        }
        if (cardiacRisk()) {
            need(
                    "cardiac-risk",
                    "Weigh the risk to the heart",
                    "The history carries a factor of the revised cardiac risk index.");
        }
        if (anyLeg(LegPicture::threatening) && flags.contains("failed-attempt")) {
            need(
                    "vein-mapping",
                    "Map the veins for a bypass",
                    "A threatened limb after a failed attempt: bypass may be next.");
        }
        var elective = referral.tier() == Tier.WITHIN_18_WEEKS;
        if (elective) {
            exerciseTherapy();
        }
    }

    private void lastingCare() {
        if (!anyLeg(LegPicture::symptoms)) {
            return;
        }
        if (!known(document().history().antiplatelet()) && !takes(Substances::isAntiplatelet)) {
            need("antiplatelet", "Consider an antiplatelet", "None is on record.");
        }
        if (!known(document().history().statin()) && !takes(Substances::isStatin)) {
            need("statin", "Consider a statin", "None is on record.");
        }
        if (document().history().smoking().equals(Optional.of(Smoking.CURRENT))) {
            need("smoking", "Offer help to stop smoking", "The patient smokes.");
        }
        if (referral.tier() == Tier.ADVICE_ONLY) {
            exerciseTherapy();
        }
    }

    private void exerciseTherapy() {
        var wanted = referral.limits().of(Limit.EXERCISE_PROGRAMME_WEEKS);
        var done = document().history().exerciseProgrammeWeeks().orElse(0.0);
        if (anyLeg(LegPicture::claudication) && done < wanted) {
            need(
                    "exercise-therapy",
                    Sentence.of("Supervised exercise for %.0f weeks", wanted),
                    "Exercise comes before an elective procedure for claudication.");
        }
    }

    private boolean cardiacRisk() {
        var history = document().history();
        return known(history.coronaryBypass())
                || known(history.heartFailure())
                || known(history.stroke())
                || history.recentMyocardialInfarctionDays().isPresent()
                || takes(Substances::isInsulin)
                || lab(LabTest.CREATININE)
                        .flatMap(KidneyFunction::creatinine)
                        .map(mgPerDl -> mgPerDl > referral.limits().of(Limit.CARDIAC_RISK_CREATININE_MORE_THAN))
                        .orElse(false);
    }

    private boolean couldBePregnant() {
        var patient = document().patient();
        var age = patient.born().map(born -> ChronoUnit.YEARS.between(born, referral.asOf()));
        return !patient.sex().equals(Optional.of(Sex.MALE))
                && document().history().pregnant().isEmpty()
                && age.map(years -> years >= referral.limits().whole(Limit.PREGNANCY_POSSIBLE_FROM_AGE)
                                && years <= referral.limits().whole(Limit.PREGNANCY_POSSIBLE_TO_AGE))
                        .orElse(false);
    }

    private boolean elsewhere(
            java.util.function.Function<ReferralDocument.Procedure, Optional<Boolean>> ofProcedure,
            java.util.function.Function<Imaging, Optional<Boolean>> ofImaging) {
        return Stream.concat(
                        document().procedures().orElse(List.of()).stream().map(ofProcedure),
                        document().imaging().orElse(List.of()).stream().map(ofImaging))
                .anyMatch(held -> !held.orElse(false));
    }

    /** The last day on which the latest picture of one of {@code kinds} may be used, if symptoms have not changed since. */
    private Optional<LocalDate> latestImaging(Set<ImagingKind> kinds) {
        return document().imaging().orElse(List.of()).stream()
                .filter(image -> image.kind().map(kinds::contains).orElse(false))
                .flatMap(image -> image.date().stream())
                .max(Comparator.naturalOrder())
                .filter(date -> !changedSince(date))
                .map(date -> date.plusMonths(validity.imagingMonths()));
    }

    private boolean changedSince(LocalDate date) {
        return Arrays.stream(Side.values()).map(referral::leg).anyMatch(leg -> {
            var acute =
                    leg.leg().acute().onset().map(onset -> onset.isAfter(date)).orElse(leg.acute());
            var claudication = leg.leg().claudication();
            var sudden = claudication.course().equals(Optional.of(Course.SUDDEN))
                    && claudication
                            .sinceDays()
                            .map(since ->
                                    referral.asOf().minusDays(since.days()).isAfter(date))
                            .orElse(true);
            return acute || sudden;
        });
    }

    private Optional<Lab> lab(LabTest test) {
        var labs = document().labs().orElse(List.of());
        if (labs.isEmpty()) {
            return Optional.empty();
        }
        return labs.stream()
                .filter(lab ->
                        lab.test().equals(Optional.of(test)) && lab.value().isPresent())
                .max(Comparator.comparing((Lab lab) -> lab.taken().orElse(LocalDate.MIN))
                        .thenComparing(lab -> lab.value().orElse(0.0)));
    }

    /** The day of the oldest among the latest results of {@code tests}; empty when one of them is not held. */
    private Optional<LocalDate> oldestOf(LabTest... tests) {
        var oldest = LocalDate.MAX;
        for (var test : tests) {
            var taken = lab(test).flatMap(Lab::taken);
            if (taken.isEmpty()) {
                return Optional.empty();
            }
            oldest = taken.get().isBefore(oldest) ? taken.get() : oldest;
        }
        return Optional.of(oldest);
    }

    private boolean takes(Predicate<String> substance) {
        for (var medicine : document().medicines().orElse(List.of())) {
            if (medicine.name().map(substance::test).orElse(false)) {
                return true;
            }
        }
        return false;
    }

    private boolean anyLeg(Predicate<LegPicture> condition) {
        return referral.anyLeg(condition);
    }

    private static boolean known(Optional<Boolean> fact) {
        return fact.orElse(false);
    }

    /** An item that a result still valid on the target date satisfies. */
    private void dated(String code, String text, String why, Optional<LocalDate> validUntil) {
        var lastDay = referral.targetDate().orElse(referral.asOf());
        var neededOn = lastDay.isBefore(referral.asOf()) ? referral.asOf() : lastDay;
        var enough = validUntil.map(until -> !until.isBefore(neededOn)).orElse(false);
        item(code, text, why, !enough, validUntil);
    }

    private void need(String code, String text, String why) {
        item(code, text, why, true, Optional.empty());
    }

    private void item(String code, String text, String why, boolean needed, Optional<LocalDate> validUntil) {
        items.add(new WorkUpItem(code, text, why, needed, validUntil, book.sourceOf(Firings.WORK_UP + code)));
    }
}
