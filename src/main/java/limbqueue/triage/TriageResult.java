package limbqueue.triage;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * What triage proposes for one referral. The components stand in the order in which the public format prints them, and
 * bear its names. Fields of the referral are named by their path, as {@code legs.left.wound.ulcer} or
 * {@code procedures[0].reportHeld}.
 *
 * @param policy id of the policy
 * @param ruleBook id of the rule book
 * @param notice the sentence that must stand beside every proposal
 * @param anatomy one entry for each side and region of which a lesion is reported
 * @param contradictions answers that cannot all be true; the more serious reading was acted on
 * @param procedurePlan empty where only advice is proposed
 */
public record TriageResult(
        Optional<String> reference,
        LocalDate asOf,
        String policy,
        String ruleBook,
        String notice,
        LegResults legs,
        List<Anatomy> anatomy,
        Urgency urgency,
        List<RedFlag> redFlags,
        List<Contradiction> contradictions,
        List<Question> questions,
        List<WorkUpItem> workUp,
        Optional<ProcedurePlan> procedurePlan,
        List<Reason> reasons) {

    /** The sentence that every screen, output and letter with a proposal carries. */
    public static final String NOTICE =
            "This is a proposal. A licensed clinician decides, and local protocol prevails.";

    public record LegResults(LegResult left, LegResult right) {

        public LegResult of(Side side) {
            return side == Side.LEFT ? left : right;
        }
    }

    /**
     * @param wifi empty when the leg is amputated above the ankle
     * @param tier the tier that this leg alone calls for
     * @param chronicLimbThreatening the value to act on
     */
    public record LegResult(
            Optional<AnkleBrachialIndex> abi,
            Optional<ToeBrachialIndex> tbi,
            FontaineGrade fontaine,
            RutherfordGrade rutherford,
            Optional<Wifi> wifi,
            Answer chronicLimbThreatening,
            List<Answer> chronicLimbThreateningPossible,
            Tier tier) {}

    public enum Answer {
        YES,
        NO,
        CANNOT_SAY
    }

    public enum AbiBand {
        ABNORMAL,
        BORDERLINE,
        NORMAL,
        NONCOMPRESSIBLE
    }

    public enum TbiBand {
        ABNORMAL,
        NORMAL
    }

    /** Where an index came from: computed from raw pressures, or as the referrer reported it. */
    public enum IndexOrigin {
        PRESSURES,
        REPORTED
    }

    /** @param value two decimals */
    public record AnkleBrachialIndex(double value, AbiBand band, IndexOrigin from) {}

    /** @param value two decimals */
    public record ToeBrachialIndex(double value, TbiBand band, IndexOrigin from) {}

    public enum Fontaine {
        I("I"),
        IIA("IIa"),
        IIB("IIb"),
        III("III"),
        IV("IV");

        private final String label;

        Fontaine(String label) {
            this.label = label;
        }

        /** As printed: {@code I}, {@code IIa}, {@code IIb}, {@code III}, {@code IV}. */
        public String label() {
            return label;
        }
    }

    public record FontaineGrade(Fontaine grade, List<Fontaine> possible) {}

    public enum RutherfordScale {
        CHRONIC,
        ACUTE
    }

    /** Rutherford categories, chronic 0 to 6 and acute I to III, in rising order of severity within each scale. */
    public enum Rutherford {
        CHRONIC_0(RutherfordScale.CHRONIC, "0", "no symptoms"),
        CHRONIC_1(RutherfordScale.CHRONIC, "1", "mild claudication"),
        CHRONIC_2(RutherfordScale.CHRONIC, "2", "moderate claudication"),
        CHRONIC_3(RutherfordScale.CHRONIC, "3", "severe claudication"),
        CHRONIC_4(RutherfordScale.CHRONIC, "4", "ischaemic rest pain"),
        CHRONIC_5(RutherfordScale.CHRONIC, "5", "minor tissue loss"),
        CHRONIC_6(RutherfordScale.CHRONIC, "6", "major tissue loss"),
        ACUTE_I(RutherfordScale.ACUTE, "I", "viable"),
        ACUTE_IIA(RutherfordScale.ACUTE, "IIa", "marginally threatened"),
        ACUTE_IIB(RutherfordScale.ACUTE, "IIb", "immediately threatened"),
        ACUTE_III(RutherfordScale.ACUTE, "III", "irreversible");

        private final RutherfordScale scale;
        private final String label;
        private final String description;

        Rutherford(RutherfordScale scale, String label, String description) {
            this.scale = scale;
            this.label = label;
            this.description = description;
        }

        public RutherfordScale scale() {
            return scale;
        }

        /** As printed: {@code 0} to {@code 6}, or {@code I}, {@code IIa}, {@code IIb}, {@code III}. */
        public String label() {
            return label;
        }

        /** The clinical description of the category (rutherford-1997). */
        public String description() {
            return description;
        }
    }

    /** @param possible every category that the unknowns still allow, of both scales */
    public record RutherfordGrade(Rutherford category, List<Rutherford> possible) {

        public RutherfordScale scale() {
            return category.scale();
        }
    }

    /** The likelihood that revascularisation is needed or helps; shown, and never driving urgency. */
    public enum Benefit {
        VERY_LOW,
        LOW,
        MODERATE,
        HIGH
    }

    /**
     * @param wound 0 to 3
     * @param ischaemia 0 to 3
     * @param infection 0 to 3
     * @param stage 1 to 4, the risk of amputation within a year
     */
    public record Wifi(
            int wound, int ischaemia, int infection, int stage, Benefit benefit, List<Integer> possibleStages) {}

    /** The regions in which anatomy is classified. */
    public enum Region {
        AORTO_ILIAC,
        FEMOROPOPLITEAL,
        INFRAPOPLITEAL
    }

    /** TASC II types, in rising order of severity; {@code NONE} where no printed type is met. */
    public enum Tasc {
        NONE("none"),
        A("A"),
        B("B"),
        C("C"),
        D("D");

        private final String label;

        Tasc(String label) {
            this.label = label;
        }

        /** As printed: {@code A} to {@code D}, or {@code none}. */
        public String label() {
            return label;
        }

        /** The more serious of this type and {@code other}. */
        public Tasc orWorse(Tasc other) {
            return compareTo(other) >= 0 ? this : other;
        }
    }

    /**
     * What the reported lesions of one region on one side amount to (tasc-2007; GLASS of gvg-2019, seen in secondary
     * copies only). GLASS stands in the entry of the femoro-popliteal region, or in that of the infra-popliteal region
     * where no lesion above it is reported.
     *
     * @param tasc the type to act on; empty when no printed type is met
     * @param possible every type that the unknown fields of the reported lesions allow, {@code NONE} among them
     * @param glass stage 1 to 3 to act on; empty when nothing is narrowed, and for aorto-iliac disease
     * @param glassPossible every stage that the unknowns allow, 0 where nothing might be narrowed; empty for aorto-iliac
     *     disease
     * @param glassFemoropopliteal grade 0 to 4 to act on
     * @param glassInfrapopliteal grade 0 to 4 to act on
     * @param because paths of the lesions on which it rests
     * @param text which printed row is met, in plain words
     */
    public record Anatomy(
            Region region,
            Side side,
            Optional<Tasc> tasc,
            List<Tasc> possible,
            Optional<Integer> glass,
            List<Integer> glassPossible,
            Optional<Integer> glassFemoropopliteal,
            Optional<Integer> glassInfrapopliteal,
            List<String> because,
            String text) {}

    public enum FhirPriority {
        ROUTINE,
        URGENT,
        ASAP,
        STAT
    }

    /**
     * @param targetDate the day by which the referral should be dealt with, counted from the day it was received;
     *     empty for advice only
     * @param waitingSince the day from which the patient has waited: the day of reception, or the earlier day on which
     *     another hospital put treatment off
     * @param because the sentence that explains the tier
     */
    public record Urgency(
            Tier tier,
            List<Tier> possible,
            Optional<LocalDate> targetDate,
            LocalDate waitingSince,
            FhirPriority fhirPriority,
            String because) {}

    /** @param evidence paths of the fields on which the flag rests */
    public record RedFlag(String code, String text, List<String> evidence, String source) {}

    /**
     * @param rule id of the rule that found it
     * @param fields paths of the answers that cannot all be true
     */
    public record Contradiction(String rule, List<String> fields, String text) {}

    /**
     * @param ask the question, as it can be asked on the phone
     * @param field path of the field that the answer fills
     * @param couldReveal the most urgent tier that an answer could bring
     * @param askBy the day by which it must be asked
     * @param couldChange what an answer could change: {@code urgency}, {@code fontaine}, {@code rutherford},
     *     {@code wifi}, {@code chronicLimbThreatening}, {@code anatomy}, {@code redFlags}, {@code workUp},
     *     {@code procedurePlan}
     */
    public record Question(String ask, String field, Tier couldReveal, LocalDate askBy, List<String> couldChange) {}

    /** Who does an item of the work-up. */
    public enum Who {
        COORDINATOR("practice's coordinator"),
        REFERRING_DOCTOR("referring doctor"),
        PHYSICIAN("physician of the practice"),
        PRESCRIBER("prescriber of the drug"),
        LABORATORY("laboratory"),
        VASCULAR_LABORATORY("vascular laboratory"),
        RADIOLOGY("radiology"),
        WOUND_CARE("wound care"),
        EXERCISE_PROGRAMME("exercise programme"),
        PROCEDURE_ROOM("procedure room");

        private final String words;

        Who(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * A figure worked out for an item of the work-up; a range where something is unknown.
     *
     * @param what name of the figure
     * @param value the figure in words, with its unit
     */
    public record Calculation(String what, String value, String source) {}

    /**
     * What must be known or done before a procedure.
     *
     * @param validUntil the last day on which a result already held may be used; empty when none is held
     * @param validFor how long a result may be used, in words; empty where that does not run out
     * @param expires whether a result is held today that will run out before the day of the procedure
     * @param unlocks codes of the items that wait for this one, and {@code access-plan} or {@code procedure} where the
     *     plan of the case or the case itself does
     */
    public record WorkUpItem(
            String code,
            String text,
            String why,
            boolean needed,
            Optional<LocalDate> validUntil,
            String source,
            Who who,
            Optional<String> validFor,
            boolean expires,
            List<String> unlocks,
            List<Calculation> calculations) {}

    /** @param because paths of the fields on which the conclusion rests */
    public record Reason(String rule, List<String> because, String text, String source) {}
}
