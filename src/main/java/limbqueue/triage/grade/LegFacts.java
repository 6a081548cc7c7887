package limbqueue.triage.grade;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import limbqueue.triage.Quantity;
import limbqueue.triage.Quantity.Metres;
import limbqueue.triage.Quantity.Millimetres;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Course;
import limbqueue.triage.ReferralDocument.Doppler;
import limbqueue.triage.ReferralDocument.Exposes;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Leg;
import limbqueue.triage.ReferralDocument.Motor;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.Side;
import limbqueue.triage.grade.InfectionGrade.Infection;
import limbqueue.triage.perfusion.Perfusion;
import limbqueue.triage.perfusion.PerfusionFigures;
import limbqueue.triage.question.Fact;
import limbqueue.triage.question.Part;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/** What is known, or could be asked, about one leg, as the grades need it. */
public final class LegFacts {

    private final Side side;
    private final Leg leg;
    private final ReferralDocument document;
    private final LocalDate asOf;
    private final Limits limits;
    private final PerfusionFigures figures;
    private final String path;
    private final String words;
    private final Part<Infection> infection;
    private final Fact<Boolean> acute;
    private final Fact<Sensory> sensory;
    private final Fact<Motor> motor;
    private final Fact<Doppler> arterialDoppler;
    private final Fact<Doppler> venousDoppler;
    private final Fact<Gangrene> gangrene;
    private final Fact<Ulcer> ulcer;
    private final Fact<WoundSite> woundSite;
    private final Fact<Exposes> exposes;
    private final Fact<Boolean> spreading;
    private final Fact<Boolean> ulcerLasting;
    private final Fact<Boolean> restPainLasting;
    private final Fact<Boolean> restPain;
    private final Fact<Boolean> claudication;
    private final Fact<Metres> distance;
    private final Fact<Boolean> limitsLife;
    private final Fact<Boolean> worsening;
    private final Fact<Boolean> deepInfection;
    private final Fact<Boolean> locallyInfected;
    private final Fact<Boolean> widelyRed;
    private final Fact<Boolean> temperatureOff;
    private final Fact<Boolean> heartRateHigh;
    private final Fact<Boolean> breathingFast;
    private final Fact<Boolean> whiteCellsOff;
    private final Fact<Perfusion> perfusion;
    private final Fact<Perfusion> supplyOfTissue;

    public LegFacts(Side side, ReferralDocument document, LocalDate asOf, Limits limits) {
        this.side = side;
        this.leg = document.legs().of(side);
        this.document = document;
        this.asOf = asOf;
        this.limits = limits;
        this.figures = new PerfusionFigures(leg, document.armPressures(), limits);
        this.path = "legs." + side.name().toLowerCase(Locale.ROOT);
        this.words = side.name().toLowerCase(Locale.ROOT) + " leg";
        this.infection = new Part<>(answers -> InfectionGrade.of(this, answers));
        this.acute = askAcute();
        this.sensory = askSensory();
        this.motor = askMotor();
        this.arterialDoppler = askArterialDoppler();
        this.venousDoppler = askVenousDoppler();
        this.gangrene = askGangrene();
        this.ulcer = askUlcer();
        this.woundSite = askWoundSite();
        this.exposes = askExposes();
        this.spreading = askSpreading();
        this.ulcerLasting = askUlcerLasting();
        this.restPainLasting = askRestPainLasting();
        this.restPain = askRestPain();
        this.claudication = askClaudication();
        this.distance = askDistance();
        this.limitsLife = askLimitsLife();
        this.worsening = askWorsening();
        this.deepInfection = askDeepInfection();
        this.locallyInfected = askLocallyInfected();
        this.widelyRed = askWidelyRed();
        this.temperatureOff = askTemperatureOff();
        this.heartRateHigh = askHeartRateHigh();
        this.breathingFast = askBreathingFast();
        this.whiteCellsOff = askWhiteCellsOff();
        this.perfusion = askPerfusion();
        this.supplyOfTissue = withoutPain(perfusion);
    }

    public Side side() {
        return side;
    }

    public Leg leg() {
        return leg;
    }

    public Limits limits() {
        return limits;
    }

    public PerfusionFigures figures() {
        return figures;
    }

    /** The path of a field of this leg. */
    public String path(String field) {
        return path + "." + field;
    }

    /** {@code left leg} or {@code right leg}. */
    public String words() {
        return words;
    }

    public Fact<Boolean> acute() {
        return acute;
    }

    public Fact<Sensory> sensory() {
        return sensory;
    }

    public Fact<Motor> motor() {
        return motor;
    }

    public Fact<Doppler> arterialDoppler() {
        return arterialDoppler;
    }

    public Fact<Doppler> venousDoppler() {
        return venousDoppler;
    }

    public Fact<Gangrene> gangrene() {
        return gangrene;
    }

    public Fact<Ulcer> ulcer() {
        return ulcer;
    }

    public Fact<WoundSite> woundSite() {
        return woundSite;
    }

    public Fact<Exposes> exposes() {
        return exposes;
    }

    public Fact<Boolean> spreading() {
        return spreading;
    }

    public Fact<Boolean> ulcerLasting() {
        return ulcerLasting;
    }

    public Fact<Boolean> restPainLasting() {
        return restPainLasting;
    }

    public Fact<Boolean> restPain() {
        return restPain;
    }

    public Fact<Boolean> claudication() {
        return claudication;
    }

    public Fact<Metres> distance() {
        return distance;
    }

    public Fact<Boolean> limitsLife() {
        return limitsLife;
    }

    public Fact<Boolean> worsening() {
        return worsening;
    }

    public Fact<Boolean> deepInfection() {
        return deepInfection;
    }

    public Fact<Boolean> locallyInfected() {
        return locallyInfected;
    }

    public Fact<Boolean> widelyRed() {
        return widelyRed;
    }

    public Fact<Boolean> temperatureOff() {
        return temperatureOff;
    }

    public Fact<Boolean> heartRateHigh() {
        return heartRateHigh;
    }

    public Fact<Boolean> breathingFast() {
        return breathingFast;
    }

    public Fact<Boolean> whiteCellsOff() {
        return whiteCellsOff;
    }

    public Fact<Perfusion> perfusion() {
        return perfusion;
    }

    /**
     * The same as {@link #perfusion()} for rules about wounds, which look at its grade alone: fewer answers differ. No
     * rule looks at both on one way.
     */
    public Fact<Perfusion> supplyOfTissue() {
        return supplyOfTissue;
    }

    private static Fact<Perfusion> withoutPain(Fact<Perfusion> perfusion) {
        return new Fact<>(
                perfusion.path(),
                perfusion.known(),
                perfusion.actOn(),
                perfusion.choices().stream()
                        .map(choice -> new Perfusion(choice.ischaemia(), false, false, choice.distal()))
                        .distinct()
                        .toList(),
                perfusion.ask());
    }

    /** The infection of the foot, from facts that nothing else looks at. */
    public Part<Infection> infection() {
        return infection;
    }

    /** Nothing is left of the foot: questions about it are not asked. */
    public boolean footGone() {
        return leg.amputation().map(Amputation::aboveAnkle).orElse(false);
    }

    /**
     * Whether there is new limb ischaemia: sudden, 14 days old or less. A finding, or an onset with no finding denied,
     * counts as the complaint being there.
     */
    private Fact<Boolean> askAcute() {
        return asked(
                "acute.present",
                acuteKnown(),
                false,
                List.of(false, true),
                "In the last two weeks, has the " + words
                        + " suddenly become painful, pale, cold, numb or weak? If so, on which day?");
    }

    private Optional<Boolean> acuteKnown() {
        var acute = leg.acute();
        var recent =
                acute.onset().map(onset -> ChronoUnit.DAYS.between(onset, asOf) <= limits.whole(Limit.ACUTE_AT_MOST));
        if (recent.equals(Optional.of(false))) {
            return Optional.of(false);
        }
        if (acuteFinding()) {
            return Optional.of(true);
        }
        if (recent.isPresent() || acute.present().equals(Optional.of(true))) {
            return Optional.of(!everyAcuteFindingDenied() || acute.present().equals(Optional.of(true)));
        }
        if (acute.present().isPresent() || everyAcuteFindingDenied()) {
            return Optional.of(false);
        }
        var claudication = leg.claudication();
        if (claudication.course().equals(Optional.of(Course.SUDDEN))) {
            return claudication.sinceDays().map(since -> since.days() <= limits.whole(Limit.ACUTE_AT_MOST));
        }
        return claudication.course().equals(Optional.of(Course.STABLE)) ? Optional.of(false) : Optional.empty();
    }

    /** Signs of a sudden loss of blood flow that began longer ago than acute ischaemia does. */
    public boolean lateAfterSuddenOnset() {
        var acute = leg.acute();
        return acute.onset()
                .filter(onset -> ChronoUnit.DAYS.between(onset, asOf) > limits.whole(Limit.ACUTE_AT_MOST))
                .map(onset -> acuteFinding() || acute.present().orElse(false))
                .orElse(false);
    }

    private boolean acuteFinding() {
        var acute = leg.acute();
        return acute.pain().orElse(false)
                || acute.pale().orElse(false)
                || acute.cold().orElse(false)
                || acute.sensory().map(loss -> loss != Sensory.NONE).orElse(false)
                || acute.motor().map(loss -> loss != Motor.NONE).orElse(false);
    }

    private boolean everyAcuteFindingDenied() {
        var acute = leg.acute();
        return acute.pain().isPresent()
                && acute.pale().isPresent()
                && acute.cold().isPresent()
                && acute.sensory().isPresent()
                && acute.motor().isPresent()
                && !acuteFinding();
    }

    /** Sensation that cannot be assessed is unknown, not intact. */
    private Fact<Sensory> askSensory() {
        return asked(
                "acute.sensory",
                leg.acute().sensory(),
                Sensory.NONE,
                List.of(Sensory.values()),
                "Can the patient feel touch on the " + words
                        + ": everywhere, not at the toes, not further up, nowhere?");
    }

    private Fact<Motor> askMotor() {
        return asked(
                "acute.motor",
                leg.acute().motor(),
                Motor.NONE,
                List.of(Motor.values()),
                "Can the patient move the toes and the foot of the " + words + ": normally, weakly, not at all?");
    }

    private Fact<Doppler> askArterialDoppler() {
        return asked(
                "acute.arterialDoppler",
                leg.acute().arterialDoppler(),
                Doppler.AUDIBLE,
                List.of(Doppler.values()),
                "Is an arterial Doppler signal audible at the " + words + "?");
    }

    private Fact<Doppler> askVenousDoppler() {
        return asked(
                "acute.venousDoppler",
                leg.acute().venousDoppler(),
                Doppler.AUDIBLE,
                List.of(Doppler.values()),
                "Is a venous Doppler signal audible at the " + words + "?");
    }

    private Fact<Gangrene> askGangrene() {
        return asked(
                "wound.gangrene",
                leg.wound().gangrene(),
                Gangrene.NONE,
                List.of(Gangrene.values()),
                "Is any part of the foot of the " + words + " black or dead: none, toes only, more than toes?");
    }

    private Fact<Ulcer> askUlcer() {
        return asked(
                "wound.ulcer",
                leg.wound()
                        .ulcer()
                        .filter(stated -> stated != Ulcer.NONE || !exposed())
                        .or(this::ulcerExposed),
                leastUlcer(),
                Stream.of(Ulcer.values())
                        .filter(ulcer -> !exposed() || ulcer.compareTo(leastUlcer()) >= 0)
                        .toList(),
                "Is there an open sore on the " + words + " or its foot: none, shallow, deep, extensive?");
    }

    private boolean exposed() {
        return leg.wound().exposes().map(exposes -> exposes != Exposes.NOTHING).orElse(false);
    }

    /** An ulcer that was called none, although something is exposed in it; empty while nothing was said of an ulcer. */
    private Optional<Ulcer> ulcerExposed() {
        return leg.wound().ulcer().map(stated -> leastUlcer());
    }

    /** The least ulcer that fits what is said of the wound: none, while nothing is said of a wound. */
    private Ulcer leastUlcer() {
        return switch (leg.wound().exposes().orElse(Exposes.NOTHING)) {
            case BONE_JOINT_OR_TENDON, CALCANEUS -> Ulcer.DEEP;
            case DISTAL_PHALANX -> Ulcer.SHALLOW;
            case NOTHING -> describedWithoutKind() ? Ulcer.SHALLOW : Ulcer.NONE;
        };
    }

    /** A wound has a place, an age or spreads, and is not said to be gangrene: then there is a sore. */
    private boolean describedWithoutKind() {
        var wound = leg.wound();
        return wound.gangrene().orElse(Gangrene.NONE) == Gangrene.NONE
                && (wound.site().isPresent()
                        || wound.sinceDays().isPresent()
                        || wound.spreading().orElse(false));
    }

    /** Where the wound is; forefoot stands for the sites that no rule tells apart from it. */
    private Fact<WoundSite> askWoundSite() {
        return asked(
                "wound.site",
                leg.wound().site(),
                WoundSite.FOREFOOT,
                List.of(WoundSite.FOREFOOT, WoundSite.MIDFOOT, WoundSite.HEEL),
                "Where on the " + words + " is the sore: leg, toe, forefoot, midfoot or heel?");
    }

    private Fact<Exposes> askExposes() {
        return asked(
                "wound.exposes",
                leg.wound().exposes(),
                Exposes.NOTHING,
                List.of(Exposes.NOTHING, Exposes.BONE_JOINT_OR_TENDON, Exposes.CALCANEUS),
                "Can bone, joint or tendon be seen or probed in the sore of the " + words + "?");
    }

    private Fact<Boolean> askSpreading() {
        return asked(
                "wound.spreading",
                leg.wound().spreading(),
                false,
                List.of(false, true),
                "Has the sore or the black area of the " + words + " grown in the last days?");
    }

    /** Whether the ulcer is old enough; an age not stated is not reassuring. */
    private Fact<Boolean> askUlcerLasting() {
        return asked(
                "wound.sinceDays",
                leg.wound().sinceDays().map(since -> since.days() >= limits.whole(Limit.ULCER_LASTING_AT_LEAST)),
                true,
                List.of(true, false),
                "Since when has there been a sore on the " + words + "?");
    }

    private Fact<Boolean> askRestPainLasting() {
        return asked(
                "restPain.sinceDays",
                leg.restPain().sinceDays().map(since -> since.days() > limits.whole(Limit.REST_PAIN_LASTING_MORE_THAN)),
                true,
                List.of(true, false),
                "Since when does the foot of the " + words + " hurt at rest?");
    }

    private Fact<Boolean> askRestPain() {
        return asked(
                "restPain.present",
                restPainKnown(),
                false,
                List.of(false, true),
                "Does the foot of the " + words + " hurt at night or at rest, better when it hangs down?");
    }

    /** What eases the pain says that it is there, even where it was denied; an age says so while it was not. */
    private Optional<Boolean> restPainKnown() {
        var restPain = leg.restPain();
        var eased = restPain.needsOpioid().orElse(false)
                || restPain.easedByHanging().orElse(false);
        return eased
                ? Optional.of(true)
                : restPain.present().or(() -> restPain.sinceDays().map(since -> true));
    }

    /** A distance at which it begins says that the pain is there, even where it was denied. */
    private Optional<Boolean> claudicationKnown() {
        var claudication = leg.claudication();
        if (claudication.distanceMetres().isPresent()) {
            return Optional.of(true);
        }
        var described = claudication.sinceDays().isPresent()
                || claudication.course().isPresent()
                || claudication.site().isPresent()
                || claudication.relief().isPresent()
                || claudication.limitsLife().orElse(false);
        return claudication.present().or(() -> described ? Optional.of(true) : Optional.empty());
    }

    private Fact<Boolean> askClaudication() {
        return asked(
                "claudication.present",
                claudicationKnown(),
                false,
                List.of(false, true),
                "Does walking bring on pain in the " + words + " that stops within minutes of standing still?");
    }

    /** Pain-free walking distance in metres; unknown, it is acted on as the shortest. */
    private Fact<Metres> askDistance() {
        var shortest = new Metres(limits.of(Limit.CLAUDICATION_SHORT_LESS_THAN) - 1);
        return asked(
                "claudication.distanceMetres",
                leg.claudication().distanceMetres(),
                shortest,
                List.of(
                        shortest,
                        new Metres(limits.of(Limit.FONTAINE_IIB_AT_MOST)),
                        new Metres(limits.of(Limit.FONTAINE_IIB_AT_MOST) + 1)),
                "How many metres can the patient walk on the flat before the " + words + " hurts?");
    }

    private Fact<Boolean> askLimitsLife() {
        return asked(
                "claudication.limitsLife",
                leg.claudication().limitsLife(),
                false,
                List.of(false, true),
                "Does the pain on walking in the " + words
                        + " keep the patient from work or from what matters to them?");
    }

    private Fact<Boolean> askWorsening() {
        return asked(
                "claudication.course",
                leg.claudication().course().map(course -> course != Course.STABLE),
                false,
                List.of(false, true),
                "Has the walking distance of the " + words + " become shorter lately, slowly or suddenly?");
    }

    private Fact<Boolean> askDeepInfection() {
        return asked(
                "infection.deep",
                leg.infection().deep(),
                false,
                List.of(false, true),
                "Is there an abscess, infected bone or joint, or infection below the skin in the foot of the " + words
                        + "?");
    }

    private Fact<Boolean> askLocallyInfected() {
        var signs =
                leg.infection().localSigns().map(count -> count >= limits.whole(Limit.INFECTION_LOCAL_SIGNS_AT_LEAST));
        return asked(
                "infection.localSigns",
                signs.filter(Boolean::booleanValue)
                        .or(() -> redness()
                                .filter(reach -> reach.value()
                                        > limits.of(
                                                signs.isPresent()
                                                        ? Limit.INFECTION_REDNESS_MODERATE_MORE_THAN
                                                        : Limit.INFECTION_REDNESS_MILD_MORE_THAN))
                                .map(reach -> true))
                        .or(() -> signs),
                false,
                List.of(false, true),
                "How many of these has the foot of the " + words
                        + ": swelling, redness, pain on touch, warmth, pus? A photograph helps.");
    }

    private Optional<Millimetres> redness() {
        return leg.infection().rednessMm();
    }

    /** Reach of the redness; a measurement, so unknown it is acted on as wide. */
    private Fact<Boolean> askWidelyRed() {
        return asked(
                "infection.rednessMm",
                redness().map(reach -> reach.value() > limits.of(Limit.INFECTION_REDNESS_MODERATE_MORE_THAN)),
                true,
                List.of(false, true),
                "How far, in millimetres, does the redness reach around the sore of the " + words + "?");
    }

    private Fact<Boolean> askTemperatureOff() {
        return asked(
                "infection.temperatureC",
                ofPatient(ReferralDocument.Infection::temperatureC)
                        .map(value -> outside(
                                value, Limit.SYSTEMIC_TEMPERATURE_LESS_THAN, Limit.SYSTEMIC_TEMPERATURE_MORE_THAN)),
                false,
                List.of(false, true),
                "What is the patient's temperature?");
    }

    private Fact<Boolean> askHeartRateHigh() {
        return asked(
                "infection.heartRate",
                ofPatient(ReferralDocument.Infection::heartRate)
                        .map(value -> value.value() > limits.of(Limit.SYSTEMIC_HEART_RATE_MORE_THAN)),
                false,
                List.of(false, true),
                "What is the patient's heart rate?");
    }

    private Fact<Boolean> askBreathingFast() {
        var rate = ofPatient(ReferralDocument.Infection::respiratoryRate)
                .map(value -> value.value() > limits.of(Limit.SYSTEMIC_RESPIRATORY_RATE_MORE_THAN));
        var gas = ofPatient(ReferralDocument.Infection::paco2)
                .map(value -> value.value() < limits.of(Limit.SYSTEMIC_PACO2_LESS_THAN));
        return asked(
                "infection.respiratoryRate",
                rate.filter(Boolean::booleanValue)
                        .or(() -> gas.filter(Boolean::booleanValue))
                        .or(() -> rate),
                false,
                List.of(false, true),
                "What is the patient's breathing rate?");
    }

    private Fact<Boolean> askWhiteCellsOff() {
        return asked(
                "infection.whiteCellsPerMicrolitre",
                ofPatient(ReferralDocument.Infection::whiteCellsPerMicrolitre)
                        .or(() -> WhiteCells.recent(document, asOf, limits))
                        .map(value -> outside(
                                value, Limit.SYSTEMIC_WHITE_CELLS_LESS_THAN, Limit.SYSTEMIC_WHITE_CELLS_MORE_THAN)),
                false,
                List.of(false, true),
                "What is the patient's white cell count?");
    }

    /** Temperature, pulse, breathing and blood belong to the patient, whichever leg they were written down for. */
    private <T> Optional<T> ofPatient(Function<ReferralDocument.Infection, Optional<T>> sign) {
        return sign.apply(leg.infection())
                .or(() -> sign.apply(document.legs().of(side.opposite()).infection()));
    }

    private boolean outside(Quantity value, Limit low, Limit high) {
        return value.value() < limits.of(low) || value.value() > limits.of(high);
    }

    private Fact<Perfusion> askPerfusion() {
        var fact = figures.fact(path, words);
        return footGone()
                ? new Fact<>(fact.path(), Optional.of(fact.actOn()), fact.actOn(), List.of(fact.actOn()), fact.ask())
                : fact;
    }

    private <T> Fact<T> asked(String field, Optional<T> known, T actOn, List<T> choices, String ask) {
        return new Fact<>(path(field), footGone() ? known.or(() -> Optional.of(actOn)) : known, actOn, choices, ask);
    }
}
