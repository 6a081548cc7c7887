package limbqueue.triage.workup;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.Quantity.Days;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Course;
import limbqueue.triage.ReferralDocument.Imaging;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.finding.IliacDisease;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Entries;
import limbqueue.triage.threshold.Limit;

/** Pictures of the arteries, and measurements of the flow. */
final class Pictures {

    static final Set<ImagingKind> DUPLEX = Set.of(ImagingKind.DUPLEX);
    static final Set<ImagingKind> OF_THE_INFLOW = Set.of(ImagingKind.CTA, ImagingKind.MRA);

    private static final Set<Segment> BELOW_THE_KNEE = Set.of(
            Segment.TIBIOPERONEAL_TRUNK,
            Segment.ANTERIOR_TIBIAL,
            Segment.POSTERIOR_TIBIAL,
            Segment.PERONEAL,
            Segment.PEDAL);

    private Pictures() {}

    static void propose(Occasion on, Sheet sheet) {
        var validity = Validity.months(on.policy().validity().imagingMonths());
        sheet.dated(
                Item.DUPLEX,
                "Duplex ultrasound of the leg arteries",
                "The first picture for every candidate." + worse(on),
                validity.held(latest(on, DUPLEX)));
        if (inflowWanted(on)) {
            sheet.dated(
                    Item.CTA_OR_MRA,
                    "CTA or MRA of the inflow",
                    "Iliac disease is shown or likely; kidney function first." + limitsOfCta(on) + worse(on),
                    validity.held(latest(on, OF_THE_INFLOW)));
        }
        measurements(on, sheet);
        if (on.vesselMayRupture()) {
            sheet.need(
                    Item.COVERED_STENT_STOCK,
                    "A covered stent that fits the vessel, in the room before the case starts",
                    "An iliac occlusion or a calcified iliac stenosis can rupture.");
        }
    }

    static boolean inflowWanted(Occasion on) {
        return on.referral().tier().moreUrgentThan(Tier.WITHIN_18_WEEKS)
                && !IliacDisease.evidence(on.referral()).isEmpty();
    }

    private static String limitsOfCta(Occasion on) {
        var history = on.history();
        var limits = new StringBuilder();
        if (history.spinalHardware().orElse(false)
                || history.hipOrPelvicHardware().orElse(false)) {
            limits.append(" Metal in spine, hip or pelvis spoils CTA, and leaves gaps in MRA.");
        }
        if (Entries.any(
                on.document().lesions().orElse(List.of()),
                lesion -> lesion.segment().map(BELOW_THE_KNEE::contains).orElse(false)
                        && lesion.calcification().equals(Optional.of(Calcification.SEVERE)))) {
            limits.append(" Heavy calcium spoils CTA below the knee.");
        }
        if (on.kidney()
                .map(kidney -> kidney.egfr() < on.limits().of(Limit.KIDNEY_RISK_EGFR_LESS_THAN))
                .orElse(false)) {
            limits.append(" With low kidney function gadolinium of group II only, by local protocol.");
        }
        return limits.toString();
    }

    /** Nobody writes down on which day walking became worse. */
    private static String worse(Occasion on) {
        return on.anyLeg(leg -> leg.leg().claudication().course().equals(Optional.of(Course.WORSE)))
                ? " Walking has become worse: a picture from before that is repeated."
                : "";
    }

    private static void measurements(Occasion on, Sheet sheet) {
        if (on.anyLeg(leg -> toePressureWanted(leg, on))) {
            sheet.need(
                    Item.TOE_PRESSURE,
                    "Toe pressure",
                    "Diabetes, dialysis, tissue loss or arteries that cannot be compressed: the ankle figures can"
                            + " mislead.");
        }
        if (on.anyLeg(Pictures::exerciseIndexWanted)) {
            sheet.need(
                    Item.EXERCISE_ABI,
                    "Ankle-brachial index after exercise",
                    "Pain on walking with a normal or borderline index at rest.");
        }
    }

    private static boolean toePressureWanted(LegPicture leg, Occasion on) {
        if (leg.facts().figures().distalKnown() || leg.facts().footGone()) {
            return false;
        }
        return leg.tissueLoss()
                || leg.facts().figures().noncompressible()
                || (leg.symptoms() && (on.history().diabetes().orElse(false) || on.dialysis()));
    }

    private static boolean exerciseIndexWanted(LegPicture leg) {
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

    /** The day of the latest picture of one of {@code kinds}, unless symptoms have changed since. */
    static Optional<LocalDate> latest(Occasion on, Set<ImagingKind> kinds) {
        var latest = LocalDate.MIN;
        for (var image : on.document().imaging().orElse(List.of())) {
            if (of(image, kinds)
                    && image.date().isPresent()
                    && image.date().get().isAfter(latest)) {
                latest = image.date().get();
            }
        }
        return latest.equals(LocalDate.MIN) || changedSince(latest, on) ? Optional.empty() : Optional.of(latest);
    }

    static boolean of(Imaging image, Set<ImagingKind> kinds) {
        return image.kind().map(kinds::contains).orElse(false);
    }

    static boolean changedSince(LocalDate date, Occasion on) {
        return on.anyLeg(leg -> changedSince(date, leg, on));
    }

    private static boolean changedSince(LocalDate date, LegPicture leg, Occasion on) {
        var acute = leg.leg().acute().onset().map(onset -> onset.isAfter(date)).orElse(leg.acute());
        var claudication = leg.leg().claudication();
        var sudden = claudication.course().equals(Optional.of(Course.SUDDEN))
                && claudication.sinceDays().map(since -> began(since, date, on)).orElse(true);
        var restPain = leg.restPain()
                && leg.leg()
                        .restPain()
                        .sinceDays()
                        .map(since -> began(since, date, on))
                        .orElse(false);
        var wound = leg.tissueLoss()
                && leg.leg()
                        .wound()
                        .sinceDays()
                        .map(since -> began(since, date, on))
                        .orElse(false);
        return acute || sudden || restPain || wound;
    }

    private static boolean began(Days since, LocalDate date, Occasion on) {
        return on.asOf().minusDays(since.days()).isAfter(date);
    }
}
