package limbqueue.triage.grade;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
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
import limbqueue.triage.grade.LegTopics.AfterExercise;
import limbqueue.triage.grade.LegTopics.Walking;
import limbqueue.triage.perfusion.Perfusion;
import limbqueue.triage.perfusion.PerfusionFigures;
import limbqueue.triage.perfusion.Supply;
import limbqueue.triage.question.Diagram;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Fact;
import limbqueue.triage.question.Facts;
import limbqueue.triage.question.Topic;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/** What is known, or could be asked, about one leg, as the grades need it. */
public final class LegFacts {

    private static final String REDNESS = "infection.rednessMm";
    private static final String ASK_REDNESS =
            "How far, in millimetres, does the redness reach around the sore of the %s?";

    private final Side side;
    private final Leg leg;
    private final ReferralDocument document;
    private final LocalDate asOf;
    private final Limits limits;
    private final PerfusionFigures figures;
    private final String place;
    private final boolean footGone;
    private final String words;
    private final Supply supply;
    private final Facts facts = LegTopics.nothingKnown();

    /** @param infection the rules that grade an infection */
    public LegFacts(Side side, ReferralDocument document, LocalDate asOf, Limits limits, Diagram<Infection> infection) {
        this.side = side;
        this.leg = document.legs().of(side);
        this.document = document;
        this.asOf = asOf;
        this.limits = limits;
        this.figures = new PerfusionFigures(leg, document.armPressures(), limits);
        this.place = side.path() + ".";
        this.words = side.leg();
        this.footGone = leg.amputation().map(Amputation::aboveAnkle).orElse(false);
        var measured = figures.supply(side.path(), words);
        this.supply = footGone ? measured.settled() : measured;
        askAcute();
        askSensory();
        askMotor();
        askArterialDoppler();
        askVenousDoppler();
        askGangrene();
        askUlcer();
        askWoundSite();
        askExposes();
        askSpreading();
        askUlcerLasting();
        askRestPainLasting();
        askRestPain();
        askClaudication();
        askDistance();
        askLimitsLife();
        askWorsening();
        askDeepInfection();
        askLocallyInfected();
        askWidelyRed();
        askTemperatureOff();
        askHeartRateHigh();
        askBreathingFast();
        askWhiteCellsOff();
        note(Fact.known(LegTopics.LATE_AFTER_SUDDEN_ONSET, lateAfterSuddenOnset()));
        note(Fact.known(LegTopics.AFTER_EXERCISE, afterExercise()));
        note(supply.ofTissue(LegTopics.SUPPLY_OF_TISSUE));
        note(supply.atRest(LegTopics.SUPPLY_AT_REST));
        note(supply.low(LegTopics.LOW_AT_ANKLE));
        note(supply.ischaemia(LegTopics.ISCHAEMIA));
        note(Fact.concluded(LegTopics.INFECTION, infection.read(facts)));
    }

    private void note(Fact<?> fact) {
        facts.note(fact);
    }

    /** What is known, or could be asked, by topic. */
    public Facts byTopic() {
        return facts;
    }

    /** What is acted on about {@code topic}. */
    public <T> T acting(Topic<T> topic) {
        return facts.of(topic).acting();
    }

    /** The supply that is acted on. */
    public Perfusion supply() {
        return supply.acting();
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
        return place + field;
    }

    /** {@code left leg} or {@code right leg}. */
    public String words() {
        return words;
    }

    /** Nothing is left of the foot: questions about it are not asked. */
    public boolean footGone() {
        return footGone;
    }

    /**
     * Whether there is new limb ischaemia: sudden, 14 days old or less. A finding counts as the complaint being there; an
     * onset, or walking that became worse suddenly, is acted on as if it were, until every finding is denied.
     */
    private void askAcute() {
        asked(
                LegTopics.ACUTE,
                leg.acute().present().isEmpty() ? "acute.present" : findingNotTold(),
                acuteKnown(),
                recentOnset().orElse(false) || suddenlyWorse().orElse(false),
                "In the last two weeks, has the %s suddenly become painful, pale, cold, numb or weak? If so, on which day?");
    }

    private Optional<Boolean> acuteKnown() {
        var stated = leg.acute().present();
        var recent = recentOnset();
        if (recent.equals(Optional.of(false))) {
            return recent;
        }
        if (acuteFinding() || stated.equals(Optional.of(true))) {
            return Optional.of(true);
        }
        if (everyAcuteFindingDenied()) {
            return Optional.of(false);
        }
        if (recent.isPresent()) {
            return Optional.empty();
        }
        var walking = leg.claudication().course();
        return stated.or(() -> walking.equals(Optional.of(Course.STABLE))
                ? Optional.of(false)
                : suddenlyWorse().filter(within -> !within));
    }

    /** The first finding of new ischaemia of which nothing is said. */
    private String findingNotTold() {
        var acute = leg.acute();
        if (acute.pain().isEmpty()) {
            return "acute.pain";
        }
        if (acute.pale().isEmpty()) {
            return "acute.pale";
        }
        if (acute.cold().isEmpty()) {
            return "acute.cold";
        }
        return acute.sensory().isEmpty() ? "acute.sensory" : "acute.motor";
    }

    /** Whether new ischaemia began recently enough to be acute; empty while nothing is said of its beginning. */
    private Optional<Boolean> recentOnset() {
        return leg.acute()
                .onset()
                .map(onset -> ChronoUnit.DAYS.between(onset, asOf) <= limits.whole(Limit.ACUTE_AT_MOST));
    }

    /** Whether a sudden change of walking is recent enough; empty where there is none, or its day is not known. */
    private Optional<Boolean> suddenlyWorse() {
        var claudication = leg.claudication();
        return claudication.course().equals(Optional.of(Course.SUDDEN))
                ? claudication.sinceDays().map(since -> since.days() <= limits.whole(Limit.ACUTE_AT_MOST))
                : Optional.empty();
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
    private void askSensory() {
        asked(
                LegTopics.SENSORY,
                "acute.sensory",
                leg.acute().sensory(),
                Sensory.NONE,
                "Can the patient feel touch on the %s: everywhere, not at the toes, not further up, nowhere?");
    }

    private void askMotor() {
        asked(
                LegTopics.MOTOR,
                "acute.motor",
                leg.acute().motor(),
                Motor.NONE,
                "Can the patient move the toes and the foot of the %s: normally, weakly, not at all?");
    }

    private void askArterialDoppler() {
        asked(
                LegTopics.ARTERIAL_DOPPLER,
                "acute.arterialDoppler",
                leg.acute().arterialDoppler(),
                Doppler.AUDIBLE,
                "Is an arterial Doppler signal audible at the %s?");
    }

    private void askVenousDoppler() {
        asked(
                LegTopics.VENOUS_DOPPLER,
                "acute.venousDoppler",
                leg.acute().venousDoppler(),
                Doppler.AUDIBLE,
                "Is a venous Doppler signal audible at the %s?");
    }

    private void askGangrene() {
        asked(
                LegTopics.GANGRENE,
                "wound.gangrene",
                leg.wound().gangrene(),
                Gangrene.NONE,
                "Is any part of the foot of the %s black or dead: none, toes only, more than toes?");
    }

    private void askUlcer() {
        asked(
                LegTopics.ULCER,
                "wound.ulcer",
                leg.wound().ulcer().map(this::asDeepAsWhatIsExposed),
                leastUlcer(),
                exposed()
                        ? Entries.those(LegTopics.ULCER.answers(), ulcer -> ulcer.compareTo(leastUlcer()) >= 0)
                        : LegTopics.ULCER.answers(),
                "Is there an open sore on the %s or its foot: none, shallow, deep, extensive?");
    }

    private boolean exposed() {
        return leg.wound().exposes().map(exposes -> exposes != Exposes.NOTHING).orElse(false);
    }

    /** What is exposed in it says how deep an ulcer is at least, whatever it was called. */
    private Ulcer asDeepAsWhatIsExposed(Ulcer stated) {
        return exposed() && stated.compareTo(leastUlcer()) < 0 ? leastUlcer() : stated;
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
    private void askWoundSite() {
        asked(
                LegTopics.WOUND_SITE,
                "wound.site",
                leg.wound()
                        .site()
                        .map(site -> LegTopics.WOUND_SITE.answers().contains(site) ? site : WoundSite.FOREFOOT),
                WoundSite.FOREFOOT,
                "Where on the %s is the sore: leg, toe, forefoot, midfoot or heel?");
    }

    private void askExposes() {
        asked(
                LegTopics.EXPOSES,
                "wound.exposes",
                leg.wound().exposes().map(exposes -> exposes == Exposes.DISTAL_PHALANX ? Exposes.NOTHING : exposes),
                Exposes.NOTHING,
                "Can bone, joint or tendon be seen or probed in the sore of the %s?");
    }

    private void askSpreading() {
        asked(
                LegTopics.SPREADING,
                "wound.spreading",
                leg.wound().spreading(),
                false,
                "Has the sore or the black area of the %s grown in the last days?");
    }

    /** Whether the ulcer is old enough; an age not stated is not reassuring. */
    private void askUlcerLasting() {
        asked(
                LegTopics.ULCER_LASTING,
                "wound.sinceDays",
                leg.wound().sinceDays().map(since -> since.days() >= limits.whole(Limit.ULCER_LASTING_AT_LEAST)),
                true,
                "Since when has there been a sore on the %s?");
    }

    private void askRestPainLasting() {
        asked(
                LegTopics.REST_PAIN_LASTING,
                "restPain.sinceDays",
                leg.restPain().sinceDays().map(since -> since.days() > limits.whole(Limit.REST_PAIN_LASTING_MORE_THAN)),
                true,
                "Since when does the foot of the %s hurt at rest?");
    }

    private void askRestPain() {
        asked(
                LegTopics.REST_PAIN,
                "restPain.present",
                restPainKnown(),
                false,
                "Does the foot of the %s hurt at night or at rest, better when it hangs down?");
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

    private void askClaudication() {
        asked(
                LegTopics.CLAUDICATION,
                "claudication.present",
                claudicationKnown(),
                false,
                "Does walking bring on pain in the %s that stops within minutes of standing still?");
    }

    /** Pain-free walking distance in metres; unknown, it is acted on as the shortest. */
    private void askDistance() {
        asked(
                LegTopics.WALKING,
                "claudication.distanceMetres",
                leg.claudication().distanceMetres().map(this::walking),
                Walking.SHORT,
                "How many metres can the patient walk on the flat before the %s hurts?");
    }

    private Walking walking(Metres distance) {
        if (distance.value() < limits.of(Limit.CLAUDICATION_SHORT_LESS_THAN)) {
            return Walking.SHORT;
        }
        return distance.value() <= limits.of(Limit.FONTAINE_IIB_AT_MOST) ? Walking.FONTAINE_IIB : Walking.FONTAINE_IIA;
    }

    private AfterExercise afterExercise() {
        return leg.pressures()
                .ankleAfterExercise()
                .map(pressure -> pressure.value() < limits.of(Limit.EXERCISE_SEVERE_ANKLE_LESS_THAN)
                        ? AfterExercise.SEVERE
                        : AfterExercise.NOT_SEVERE)
                .orElse(AfterExercise.NOT_MEASURED);
    }

    private void askLimitsLife() {
        asked(
                LegTopics.LIMITS_LIFE,
                "claudication.limitsLife",
                leg.claudication().limitsLife(),
                false,
                "Does the pain on walking in the %s keep the patient from work or from what matters to them?");
    }

    private void askWorsening() {
        asked(
                LegTopics.WORSENING,
                "claudication.course",
                leg.claudication().course().map(course -> course != Course.STABLE),
                false,
                "Has the walking distance of the %s become shorter lately, slowly or suddenly?");
    }

    private void askDeepInfection() {
        asked(
                LegTopics.DEEP_INFECTION,
                "infection.deep",
                leg.infection().deep(),
                false,
                "Is there an abscess, infected bone or joint, or infection below the skin in the foot of the %s?");
    }

    /** Redness that reaches far enough is acted on as an infection while the other signs are not known. */
    private void askLocallyInfected() {
        var signs =
                leg.infection().localSigns().map(count -> count >= limits.whole(Limit.INFECTION_LOCAL_SIGNS_AT_LEAST));
        if (onlyRednessTells()) {
            asked(LegTopics.LOCALLY_INFECTED, REDNESS, Optional.empty(), false, ASK_REDNESS);
            return;
        }
        var wide = redness()
                .map(reach -> reach.value() > limits.of(Limit.INFECTION_REDNESS_MODERATE_MORE_THAN))
                .orElse(false);
        asked(
                LegTopics.LOCALLY_INFECTED,
                "infection.localSigns",
                wide ? Optional.of(true) : signs,
                redness()
                        .map(reach -> reach.value() > limits.of(Limit.INFECTION_REDNESS_MILD_MORE_THAN))
                        .orElse(false),
                "How many of these has the foot of the %s: swelling, redness, pain on touch, warmth, pus? A photograph helps.");
    }

    /** Too few local signs for an infection, but some: if redness is one of them, and wide, it is an infection all the same. */
    private boolean onlyRednessTells() {
        return redness().isEmpty()
                && leg.infection()
                        .localSigns()
                        .map(count -> count > 0 && count < limits.whole(Limit.INFECTION_LOCAL_SIGNS_AT_LEAST))
                        .orElse(false);
    }

    private Optional<Millimetres> redness() {
        return leg.infection().rednessMm();
    }

    /** Reach of the redness; a measurement, so unknown it is acted on as wide. */
    private void askWidelyRed() {
        asked(
                LegTopics.WIDELY_RED,
                REDNESS,
                onlyRednessTells()
                        ? Optional.of(true)
                        : redness().map(reach -> reach.value() > limits.of(Limit.INFECTION_REDNESS_MODERATE_MORE_THAN)),
                true,
                ASK_REDNESS);
    }

    private void askTemperatureOff() {
        asked(
                LegTopics.TEMPERATURE_OFF,
                "infection.temperatureC",
                ofPatient(ReferralDocument.Infection::temperatureC)
                        .map(value -> outside(
                                value, Limit.SYSTEMIC_TEMPERATURE_LESS_THAN, Limit.SYSTEMIC_TEMPERATURE_MORE_THAN)),
                false,
                "What is the patient's temperature?");
    }

    private void askHeartRateHigh() {
        asked(
                LegTopics.HEART_RATE_HIGH,
                "infection.heartRate",
                ofPatient(ReferralDocument.Infection::heartRate)
                        .map(value -> value.value() > limits.of(Limit.SYSTEMIC_HEART_RATE_MORE_THAN)),
                false,
                "What is the patient's heart rate?");
    }

    private void askBreathingFast() {
        var rate = ofPatient(ReferralDocument.Infection::respiratoryRate)
                .map(value -> value.value() > limits.of(Limit.SYSTEMIC_RESPIRATORY_RATE_MORE_THAN));
        var gas = ofPatient(ReferralDocument.Infection::paco2)
                .map(value -> value.value() < limits.of(Limit.SYSTEMIC_PACO2_LESS_THAN));
        asked(
                LegTopics.BREATHING_FAST,
                "infection.respiratoryRate",
                rate.filter(Boolean::booleanValue)
                        .or(() -> gas.filter(Boolean::booleanValue))
                        .or(() -> rate),
                false,
                "What is the patient's breathing rate?");
    }

    private void askWhiteCellsOff() {
        asked(
                LegTopics.WHITE_CELLS_OFF,
                "infection.whiteCellsPerMicrolitre",
                ofPatient(ReferralDocument.Infection::whiteCellsPerMicrolitre)
                        .or(() -> WhiteCells.recent(document, asOf, limits))
                        .map(value -> outside(
                                value, Limit.SYSTEMIC_WHITE_CELLS_LESS_THAN, Limit.SYSTEMIC_WHITE_CELLS_MORE_THAN)),
                false,
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

    private <T> void asked(Topic<T> topic, String field, Optional<T> known, T actOn, String ask) {
        asked(topic, field, known, actOn, topic.answers(), ask);
    }

    private <T> void asked(Topic<T> topic, String field, Optional<T> known, T actOn, List<T> choices, String ask) {
        if (known.isEmpty() && footGone) {
            note(Fact.known(topic, actOn));
        } else {
            note(Fact.of(topic, place, field, known, actOn, choices, ask, words));
        }
    }
}
