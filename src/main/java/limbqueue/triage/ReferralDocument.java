package limbqueue.triage;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Quantity.Celsius;
import limbqueue.triage.Quantity.Days;
import limbqueue.triage.Quantity.Metres;
import limbqueue.triage.Quantity.Millimetres;
import limbqueue.triage.Quantity.MmHg;
import limbqueue.triage.Quantity.PerMicrolitre;
import limbqueue.triage.Quantity.PerMinute;
import limbqueue.triage.Quantity.Percent;
import limbqueue.triage.Quantity.Ratio;

/**
 * One referral, as the public data format has it: every component bears the name of its field. A value that is empty is
 * <em>unknown</em>, which is never the same as no; a nested part of which nothing is known is a record of empty values,
 * and a list that is empty says "none", while a list that is unknown is {@link Optional#empty()}.
 */
public record ReferralDocument(
        Optional<String> reference,
        Optional<LocalDate> received,
        Patient patient,
        Referrer referrer,
        Asked asked,
        ArmPressures armPressures,
        Legs legs,
        Optional<List<Lesion>> lesions,
        Optional<List<Imaging>> imaging,
        Optional<List<Procedure>> procedures,
        DeferredElsewhere deferredElsewhere,
        History history,
        Optional<List<Medicine>> medicines,
        Optional<List<Allergy>> allergies,
        Optional<List<Lab>> labs,
        Optional<Double> heightCm,
        Optional<Double> weightKg,
        Optional<String> letterText) {

    public enum Sex {
        FEMALE,
        MALE,
        OTHER,
        UNKNOWN
    }

    public enum PreferredChannel {
        POST,
        FAX,
        EMAIL
    }

    /** The priority asked for, by the codes of FHIR request-priority. Note that asap outranks urgent. */
    public enum AskedPriority {
        ROUTINE,
        URGENT,
        ASAP,
        STAT
    }

    public enum ExpediteGrounds {
        CLINICAL,
        PERSONAL,
        TRAVEL,
        UNKNOWN
    }

    public enum Course {
        STABLE,
        WORSE,
        SUDDEN
    }

    public enum ClaudicationSite {
        BUTTOCK,
        THIGH,
        CALF,
        FOOT
    }

    public enum Relief {
        STANDING,
        SITTING
    }

    public enum Ulcer {
        NONE,
        SHALLOW,
        DEEP,
        EXTENSIVE
    }

    public enum Gangrene {
        NONE,
        DIGITS,
        EXTENSIVE
    }

    public enum WoundSite {
        LEG,
        TOE,
        FOREFOOT,
        MIDFOOT,
        HEEL
    }

    public enum Exposes {
        NOTHING,
        DISTAL_PHALANX,
        BONE_JOINT_OR_TENDON,
        CALCANEUS
    }

    public enum Sensory {
        NONE,
        TOES,
        BEYOND_TOES,
        COMPLETE
    }

    public enum Motor {
        NONE,
        MILD,
        PARALYSIS
    }

    public enum Doppler {
        AUDIBLE,
        INAUDIBLE
    }

    public enum Waveform {
        TRIPHASIC,
        BIPHASIC,
        MONOPHASIC,
        FLAT
    }

    public enum Pulse {
        PRESENT,
        WEAK,
        ABSENT
    }

    public enum Amputation {
        NONE,
        TOE,
        FOREFOOT,
        BELOW_KNEE,
        ABOVE_KNEE;

        /** Whether the foot is gone: an amputation above the ankle. */
        public boolean aboveAnkle() {
            return this == BELOW_KNEE || this == ABOVE_KNEE;
        }
    }

    public enum Segment {
        INFRARENAL_AORTA,
        COMMON_ILIAC,
        EXTERNAL_ILIAC,
        INTERNAL_ILIAC,
        COMMON_FEMORAL,
        PROFUNDA_FEMORIS,
        SUPERFICIAL_FEMORAL,
        POPLITEAL,
        TIBIOPERONEAL_TRUNK,
        ANTERIOR_TIBIAL,
        POSTERIOR_TIBIAL,
        PERONEAL,
        PEDAL
    }

    public enum Calcification {
        NONE,
        MODERATE,
        SEVERE
    }

    public enum LesionSource {
        DUPLEX,
        CTA,
        MRA,
        ANGIOGRAM
    }

    public enum ImagingKind {
        DUPLEX,
        CTA,
        MRA,
        ANGIOGRAM,
        RADIOGRAPH
    }

    public enum ProcedureKind {
        ANGIOGRAM,
        ANGIOPLASTY,
        STENT,
        THROMBECTOMY,
        BYPASS,
        ENDARTERECTOMY,
        AMPUTATION,
        ANEURYSM_REPAIR
    }

    public enum Intent {
        DIAGNOSTIC,
        TREATMENT
    }

    public enum Outcome {
        COMPLETED,
        INCOMPLETE,
        FAILED,
        UNKNOWN
    }

    public enum Complication {
        NONE,
        PERFORATION,
        DISSECTION,
        EMBOLISM,
        THROMBOSIS,
        BLEEDING,
        CONTRAST_REACTION,
        KIDNEY_INJURY,
        OTHER
    }

    public enum Smoking {
        NEVER,
        FORMER,
        CURRENT
    }

    public enum Reaction {
        MILD,
        MODERATE,
        SEVERE,
        UNKNOWN
    }

    public enum LabTest {
        CREATININE,
        EGFR,
        HAEMOGLOBIN,
        PLATELETS,
        INR,
        POTASSIUM,
        HBA1C,
        WHITE_CELLS,
        CRP,
        TSH
    }

    public record Patient(
            Optional<String> given,
            Optional<String> family,
            Optional<LocalDate> born,
            Optional<Sex> sex,
            Optional<List<Identifier>> identifiers,
            Optional<String> phone,
            Optional<String> address,
            Optional<List<Absence>> unavailable,
            Optional<LocalDate> leavesArea,
            Optional<LocalDate> returnsToArea) {}

    public record Identifier(Optional<String> system, Optional<String> value) {}

    /** Days on which the patient cannot come, both included. */
    public record Absence(Optional<LocalDate> from, Optional<LocalDate> to) {}

    public record Referrer(
            Optional<String> name,
            Optional<String> organisation,
            Optional<String> address,
            Optional<String> phone,
            Optional<String> fax,
            Optional<String> email,
            Optional<PreferredChannel> prefers) {}

    public record Asked(
            Optional<AskedPriority> priority,
            Optional<Boolean> expedite,
            Optional<ExpediteGrounds> expediteGrounds,
            Optional<String> reason) {}

    /** Brachial systolic pressures. */
    public record ArmPressures(Optional<MmHg> left, Optional<MmHg> right) {}

    public record Legs(Leg left, Leg right) {

        public Leg of(Side side) {
            return side == Side.LEFT ? left : right;
        }
    }

    public record Leg(
            Claudication claudication,
            RestPain restPain,
            Wound wound,
            Infection infection,
            Acute acute,
            Pressures pressures,
            Optional<Ratio> abi,
            Optional<Ratio> tbi,
            Optional<Ratio> abiAfterExercise,
            Pulses pulses,
            Optional<Amputation> amputation) {}

    public record Claudication(
            Optional<Boolean> present,
            Optional<Metres> distanceMetres,
            Optional<Days> sinceDays,
            Optional<Course> course,
            Optional<ClaudicationSite> site,
            Optional<Relief> relief,
            Optional<Boolean> limitsLife) {}

    public record RestPain(
            Optional<Boolean> present,
            Optional<Days> sinceDays,
            Optional<Boolean> needsOpioid,
            Optional<Boolean> easedByHanging) {}

    public record Wound(
            Optional<Ulcer> ulcer,
            Optional<Gangrene> gangrene,
            Optional<WoundSite> site,
            Optional<Exposes> exposes,
            Optional<Days> sinceDays,
            Optional<Boolean> spreading) {}

    /**
     * @param localSigns how many (0 to 5) of swelling or induration, redness, tenderness or pain, warmth, pus
     * @param rednessMm reach of the redness around the wound
     * @param deep abscess, osteomyelitis, septic arthritis or fasciitis
     */
    public record Infection(
            Optional<Integer> localSigns,
            Optional<Millimetres> rednessMm,
            Optional<Boolean> deep,
            Optional<Celsius> temperatureC,
            Optional<PerMinute> heartRate,
            Optional<PerMinute> respiratoryRate,
            Optional<MmHg> paco2,
            Optional<PerMicrolitre> whiteCellsPerMicrolitre) {}

    /**
     * New limb ischaemia.
     *
     * @param present whether the leg suddenly became painful, pale, cold, numb or weak in the last two weeks; false
     *     rules new limb ischaemia out
     * @param onset date, or the date of a date-time
     */
    public record Acute(
            Optional<Boolean> present,
            Optional<LocalDate> onset,
            Optional<Sensory> sensory,
            Optional<Motor> motor,
            Optional<Doppler> arterialDoppler,
            Optional<Doppler> venousDoppler,
            Optional<Boolean> pain,
            Optional<Boolean> pale,
            Optional<Boolean> cold) {}

    /** Resting systolic pressures at ankle and toe, the ankle pressure after exercise, and transcutaneous oxygen. */
    public record Pressures(
            Optional<MmHg> dorsalisPedis,
            Optional<MmHg> posteriorTibial,
            Optional<MmHg> toe,
            Optional<MmHg> ankleAfterExercise,
            Optional<MmHg> tcpo2,
            Optional<Waveform> waveform) {}

    public record Pulses(
            Optional<Pulse> femoral,
            Optional<Pulse> popliteal,
            Optional<Pulse> dorsalisPedis,
            Optional<Pulse> posteriorTibial) {}

    /**
     * @param side empty for the infrarenal aorta, which has none
     * @param stenosisPercent 100 is an occlusion
     * @param diameterMm reference diameter of the vessel
     */
    public record Lesion(
            Optional<Side> side,
            Optional<Segment> segment,
            Optional<Percent> stenosisPercent,
            Optional<Millimetres> lengthMm,
            Optional<Boolean> ostial,
            Optional<Calcification> calcification,
            Optional<Boolean> inStent,
            Optional<Integer> ageMonths,
            Optional<Boolean> aneurysm,
            Optional<Millimetres> diameterMm,
            Optional<LesionSource> source) {}

    public record Imaging(
            Optional<ImagingKind> kind,
            Optional<Side> side,
            Optional<LocalDate> date,
            Optional<String> where,
            Optional<Boolean> reportHeld,
            Optional<Boolean> imagesHeld,
            Optional<String> findings) {}

    /** An earlier procedure on any artery. */
    public record Procedure(
            Optional<ProcedureKind> kind,
            Optional<Side> side,
            Optional<Segment> segment,
            Optional<LocalDate> date,
            Optional<String> where,
            Optional<Intent> intent,
            Optional<Outcome> outcome,
            Optional<String> reason,
            Optional<Complication> complication,
            Optional<String> accessSite,
            Optional<Boolean> reportHeld,
            Optional<Boolean> imagesHeld) {}

    /** Treatment that another hospital postponed. */
    public record DeferredElsewhere(Optional<String> where, Optional<Days> days, Optional<String> reason) {}

    public record History(
            Optional<Boolean> diabetes,
            Optional<Boolean> dialysis,
            Optional<Smoking> smoking,
            Optional<Double> packYears,
            Optional<Boolean> coronaryBypass,
            Optional<Boolean> leftInternalMammaryGraft,
            Optional<Boolean> heartFailure,
            Optional<Days> recentMyocardialInfarctionDays,
            Optional<Boolean> stroke,
            Optional<Boolean> atrialFibrillation,
            Optional<Boolean> spinalHardware,
            Optional<Boolean> hipOrPelvicHardware,
            Optional<Boolean> spinalStenosis,
            Optional<Boolean> poplitealAneurysm,
            Optional<Boolean> aorticAneurysm,
            Optional<Boolean> pregnant,
            Optional<Boolean> bleedingDisorder,
            Optional<Boolean> thyroidDisease,
            Optional<Double> exerciseProgrammeWeeks,
            Optional<Boolean> statin,
            Optional<Boolean> antiplatelet,
            Optional<Boolean> walksIndependently,
            Optional<Boolean> careHome) {}

    public record Medicine(Optional<String> name, Optional<String> dose) {}

    public record Allergy(Optional<String> to, Optional<Reaction> reaction) {}

    /** @param unit UCUM code of the unit in which {@code value} is given */
    public record Lab(
            Optional<LabTest> test, Optional<Double> value, Optional<String> unit, Optional<LocalDate> taken) {}
}
