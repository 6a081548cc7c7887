package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import limbqueue.referral.ui.FieldKind.Amount;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.Day;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.Given;
import limbqueue.referral.ui.FieldKind.Text;
import limbqueue.referral.ui.FieldKind.YesNo;

/** Every field of the referral document, in the order in which the office is asked for it. Its words are said here only. */
final class ReferralFields {

    private static final FieldKind YES_NO = new YesNo();
    private static final FieldKind DAY = new Day(false);
    private static final FieldKind LINE = new Text(1);

    private static final FieldKind SIDES = choice("left", "Left", "right", "Right");

    private static final FieldKind SEGMENTS = choice(
            "infrarenalAorta", "Infrarenal aorta",
            "commonIliac", "Common iliac",
            "externalIliac", "External iliac",
            "internalIliac", "Internal iliac",
            "commonFemoral", "Common femoral",
            "profundaFemoris", "Profunda femoris",
            "superficialFemoral", "Superficial femoral",
            "popliteal", "Popliteal",
            "tibioperonealTrunk", "Tibioperoneal trunk",
            "anteriorTibial", "Anterior tibial",
            "posteriorTibial", "Posterior tibial",
            "peroneal", "Peroneal",
            "pedal", "Pedal");

    private static final FieldKind PULSE = choice("present", "Present", "weak", "Weak", "absent", "Absent");

    private static final FieldKind DOPPLER = choice("audible", "Audible", "inaudible", "Inaudible");

    static final List<FormSection> SECTIONS = List.of(
            new FormSection(
                    "patient",
                    "Patient",
                    List.of(
                            field("patient.family", "Family name", "family name", LINE),
                            field("patient.given", "Given name", "given name", LINE),
                            field("patient.born", "Date of birth", "date of birth", DAY),
                            field(
                                    "patient.sex",
                                    "Sex",
                                    "sex",
                                    choice(
                                            "female", "Female",
                                            "male", "Male",
                                            "other", "Other",
                                            "unknown", "Not stated")),
                            field("patient.phone", "Telephone", "patient's telephone", LINE),
                            field("patient.address", "Address", "patient's address", new Text(2)),
                            field(
                                    "patient.identifiers",
                                    "Identifiers",
                                    "identifiers",
                                    new Entries(
                                            "identifier",
                                            "None",
                                            List.of(
                                                    field("system", "Kind of number", "kind of number", LINE),
                                                    field("value", "Number", "number", LINE)))),
                            field(
                                    "patient.unavailable",
                                    "Cannot come",
                                    "days the patient cannot come",
                                    new Entries(
                                            "absence",
                                            "Can always come",
                                            List.of(
                                                    field("from", "From", "first day", DAY),
                                                    field("to", "Until, included", "last day", DAY)))),
                            field("patient.leavesArea", "Leaves the area on", "day of leaving the area", DAY),
                            field("patient.returnsToArea", "Returns on", "day of return to the area", DAY))),
            new FormSection(
                    "referrer",
                    "Referring doctor",
                    List.of(
                            field("referrer.name", "Name", "name of the referring doctor", LINE),
                            field("referrer.organisation", "Practice or hospital", "referring practice", LINE),
                            field("referrer.address", "Address", "referring doctor's address", new Text(2)),
                            field("referrer.phone", "Telephone", "referring doctor's telephone", LINE),
                            field("referrer.fax", "Fax", "referring doctor's fax", LINE),
                            field("referrer.email", "E-mail", "referring doctor's e-mail", LINE),
                            field(
                                    "referrer.prefers",
                                    "Prefers letters by",
                                    "way the referring doctor prefers letters",
                                    choice("post", "Post", "fax", "Fax", "email", "E-mail")))),
            new FormSection(
                    "asked",
                    "The referral",
                    List.of(
                            field("received", "Received", "received", DAY),
                            field("reference", "Reference", "reference", new Given()),
                            field(
                                    "asked.priority",
                                    "Priority asked for",
                                    "priority asked for",
                                    choice("routine", "Routine", "urgent", "Urgent", "asap", "ASAP", "stat", "Stat"),
                                    "As the referring doctor wrote it; it never moves the proposal"),
                            field("asked.expedite", "Asked to be faster", "asked to be faster", YES_NO),
                            field(
                                    "asked.expediteGrounds",
                                    "On what grounds",
                                    "grounds for asking to be faster",
                                    choice(
                                            "clinical", "Clinical",
                                            "personal", "Personal",
                                            "travel", "Travel",
                                            "unknown", "Not stated")),
                            field("asked.reason", "Reason in their words", "reason for referral", new Text(2)))),
            new FormSection(
                    "acute",
                    "Sudden change",
                    List.of(
                            field(
                                    "legs.{side}.acute.present",
                                    "Suddenly painful, pale, cold, numb or weak",
                                    "sudden change in the last two weeks",
                                    YES_NO,
                                    "Within the last two weeks"),
                            field("legs.{side}.acute.onset", "Began on", "day the sudden change began", new Day(true)),
                            field("legs.{side}.acute.pain", "New pain", "new pain", YES_NO),
                            field("legs.{side}.acute.pale", "Pale", "pale", YES_NO),
                            field("legs.{side}.acute.cold", "Cold", "cold", YES_NO),
                            field(
                                    "legs.{side}.acute.sensory",
                                    "Loss of feeling",
                                    "loss of feeling",
                                    choice(
                                            "none", "None",
                                            "toes", "Toes",
                                            "beyondToes", "Beyond toes",
                                            "complete", "Complete"),
                                    "Not known when it cannot be assessed"),
                            field(
                                    "legs.{side}.acute.motor",
                                    "Loss of movement",
                                    "loss of movement",
                                    choice("none", "None", "mild", "Mild", "paralysis", "Paralysis"),
                                    "Not known when it cannot be assessed"),
                            field("legs.{side}.acute.arterialDoppler", "Arterial Doppler", "arterial Doppler", DOPPLER),
                            field("legs.{side}.acute.venousDoppler", "Venous Doppler", "venous Doppler", DOPPLER))),
            new FormSection(
                    "wound",
                    "Wound",
                    List.of(
                            field(
                                    "legs.{side}.wound.ulcer",
                                    "Ulcer",
                                    "ulcer",
                                    choice(
                                            "none", "None",
                                            "shallow", "Shallow",
                                            "deep", "Deep",
                                            "extensive", "Extensive")),
                            field(
                                    "legs.{side}.wound.gangrene",
                                    "Gangrene",
                                    "gangrene",
                                    choice("none", "None", "digits", "Toes only", "extensive", "Extensive")),
                            field(
                                    "legs.{side}.wound.site",
                                    "Where",
                                    "site of the wound",
                                    choice(
                                            "leg", "Leg",
                                            "toe", "Toe",
                                            "forefoot", "Forefoot",
                                            "midfoot", "Midfoot",
                                            "heel", "Heel")),
                            field(
                                    "legs.{side}.wound.exposes",
                                    "What lies bare",
                                    "what lies bare in the wound",
                                    choice(
                                            "nothing", "Nothing",
                                            "distalPhalanx", "Tip of toe bone",
                                            "boneJointOrTendon", "Bone, joint or tendon",
                                            "calcaneus", "Heel bone")),
                            field(
                                    "legs.{side}.wound.sinceDays",
                                    "How long",
                                    "duration of the wound",
                                    new Amount("days")),
                            field("legs.{side}.wound.spreading", "Spreading", "wound spreading", YES_NO))),
            new FormSection(
                    "infection",
                    "Infection",
                    List.of(
                            field(
                                    "legs.{side}.infection.localSigns",
                                    "Local signs",
                                    "local signs of infection",
                                    new Amount("of 5"),
                                    "How many of: swelling, redness, tenderness, warmth, pus"),
                            field(
                                    "legs.{side}.infection.rednessMm",
                                    "Redness around the wound",
                                    "redness around the wound",
                                    new Amount("mm")),
                            field(
                                    "legs.{side}.infection.deep",
                                    "Deep infection",
                                    "deep infection",
                                    YES_NO,
                                    "Abscess, bone, joint or fascia"),
                            field("legs.{side}.infection.temperatureC", "Temperature", "temperature", new Amount("°C")),
                            field("legs.{side}.infection.heartRate", "Heart rate", "heart rate", new Amount("/min")),
                            field(
                                    "legs.{side}.infection.respiratoryRate",
                                    "Breaths",
                                    "breaths a minute",
                                    new Amount("/min")),
                            field("legs.{side}.infection.paco2", "PaCO₂", "PaCO₂", new Amount("mmHg")),
                            field(
                                    "legs.{side}.infection.whiteCellsPerMicrolitre",
                                    "White cells",
                                    "white cells",
                                    new Amount("/µL")))),
            new FormSection(
                    "rest-pain",
                    "Pain at rest",
                    List.of(
                            field("legs.{side}.restPain.present", "Pain at rest", "pain at rest", YES_NO),
                            field(
                                    "legs.{side}.restPain.sinceDays",
                                    "How long",
                                    "duration of the pain at rest",
                                    new Amount("days")),
                            field(
                                    "legs.{side}.restPain.needsOpioid",
                                    "Needs an opioid",
                                    "opioid for pain at rest",
                                    YES_NO),
                            field(
                                    "legs.{side}.restPain.easedByHanging",
                                    "Eased by hanging the leg down",
                                    "pain eased by hanging the leg down",
                                    YES_NO))),
            new FormSection(
                    "claudication",
                    "Pain on walking",
                    List.of(
                            field("legs.{side}.claudication.present", "Pain on walking", "pain on walking", YES_NO),
                            field(
                                    "legs.{side}.claudication.distanceMetres",
                                    "Walks without pain",
                                    "pain-free walking distance",
                                    new Amount("m")),
                            field(
                                    "legs.{side}.claudication.sinceDays",
                                    "How long",
                                    "duration of the pain on walking",
                                    new Amount("days")),
                            field(
                                    "legs.{side}.claudication.course",
                                    "Course",
                                    "course of the pain on walking",
                                    choice("stable", "Stable", "worse", "Worse", "sudden", "Sudden")),
                            field(
                                    "legs.{side}.claudication.site",
                                    "Where",
                                    "site of the pain on walking",
                                    choice(
                                            "buttock", "Buttock",
                                            "thigh", "Thigh",
                                            "calf", "Calf",
                                            "foot", "Foot")),
                            field(
                                    "legs.{side}.claudication.relief",
                                    "Goes away by",
                                    "what relieves the pain on walking",
                                    choice("standing", "Standing still", "sitting", "Sitting down")),
                            field(
                                    "legs.{side}.claudication.limitsLife",
                                    "Limits work or daily life",
                                    "pain on walking limits life",
                                    YES_NO))),
            new FormSection(
                    "arms",
                    "Arm pressures",
                    List.of(field("armPressures.{side}", "Arm, systolic", "arm pressure", new Amount("mmHg")))),
            new FormSection(
                    "pressures",
                    "Leg pressures",
                    List.of(
                            field(
                                    "legs.{side}.pressures.dorsalisPedis",
                                    "Ankle: dorsalis pedis",
                                    "ankle pressure, dorsalis pedis",
                                    new Amount("mmHg")),
                            field(
                                    "legs.{side}.pressures.posteriorTibial",
                                    "Ankle: posterior tibial",
                                    "ankle pressure, posterior tibial",
                                    new Amount("mmHg")),
                            field("legs.{side}.pressures.toe", "Toe pressure", "toe pressure", new Amount("mmHg")),
                            field(
                                    "legs.{side}.pressures.ankleAfterExercise",
                                    "Ankle after exercise",
                                    "ankle pressure after exercise",
                                    new Amount("mmHg")),
                            field("legs.{side}.pressures.tcpo2", "TcPO₂", "TcPO₂", new Amount("mmHg")),
                            field(
                                    "legs.{side}.pressures.waveform",
                                    "Doppler waveform",
                                    "Doppler waveform",
                                    choice(
                                            "triphasic", "Triphasic",
                                            "biphasic", "Biphasic",
                                            "monophasic", "Monophasic",
                                            "flat", "Flat")),
                            field(
                                    "legs.{side}.abi",
                                    "ABI as reported",
                                    "reported ABI",
                                    new Amount(""),
                                    "When the pressures behind it are not given"),
                            field("legs.{side}.tbi", "TBI as reported", "reported TBI", new Amount("")),
                            field(
                                    "legs.{side}.abiAfterExercise",
                                    "ABI after exercise, as reported",
                                    "reported ABI after exercise",
                                    new Amount("")))),
            new FormSection(
                    "pulses",
                    "Pulses and amputation",
                    List.of(
                            field("legs.{side}.pulses.femoral", "Femoral pulse", "femoral pulse", PULSE),
                            field("legs.{side}.pulses.popliteal", "Popliteal pulse", "popliteal pulse", PULSE),
                            field(
                                    "legs.{side}.pulses.dorsalisPedis",
                                    "Dorsalis pedis pulse",
                                    "dorsalis pedis pulse",
                                    PULSE),
                            field(
                                    "legs.{side}.pulses.posteriorTibial",
                                    "Posterior tibial pulse",
                                    "posterior tibial pulse",
                                    PULSE),
                            field(
                                    "legs.{side}.amputation",
                                    "Amputation",
                                    "amputation",
                                    choice(
                                            "none", "None",
                                            "toe", "Toe",
                                            "forefoot", "Forefoot",
                                            "belowKnee", "Below knee",
                                            "aboveKnee", "Above knee")))),
            new FormSection(
                    "imaging",
                    "Imaging",
                    List.of(field(
                            "imaging",
                            "Imaging",
                            "imaging",
                            new Entries(
                                    "examination",
                                    "None done",
                                    List.of(
                                            field(
                                                    "kind",
                                                    "Kind",
                                                    "kind",
                                                    choice(
                                                            "duplex", "Duplex",
                                                            "cta", "CT angiogram",
                                                            "mra", "MR angiogram",
                                                            "angiogram", "Angiogram",
                                                            "radiograph", "Radiograph")),
                                            field("side", "Side", "side", SIDES),
                                            field("date", "Date", "date", DAY),
                                            field("where", "Where", "where", LINE),
                                            field("reportHeld", "Report held", "report held", YES_NO),
                                            field("imagesHeld", "Images held", "images held", YES_NO),
                                            field("findings", "Findings", "findings", new Text(2))))))),
            new FormSection(
                    "lesions",
                    "Lesions",
                    List.of(field(
                            "lesions",
                            "Lesions",
                            "lesions",
                            new Entries(
                                    "lesion",
                                    "None found",
                                    List.of(
                                            field("side", "Side", "side", SIDES, "The infrarenal aorta has none"),
                                            field("segment", "Segment", "segment", SEGMENTS),
                                            field(
                                                    "stenosisPercent",
                                                    "Stenosis",
                                                    "stenosis",
                                                    new Amount("%"),
                                                    "100 for an occlusion"),
                                            field("lengthMm", "Length", "length", new Amount("mm")),
                                            field("diameterMm", "Vessel diameter", "vessel diameter", new Amount("mm")),
                                            field(
                                                    "calcification",
                                                    "Calcification",
                                                    "calcification",
                                                    choice("none", "None", "moderate", "Moderate", "severe", "Severe")),
                                            field("ostial", "At the origin", "at the origin", YES_NO),
                                            field("inStent", "In a stent", "in a stent", YES_NO),
                                            field("aneurysm", "Aneurysm", "aneurysm", YES_NO),
                                            field("ageMonths", "Age", "age", new Amount("months")),
                                            field(
                                                    "source",
                                                    "Seen on",
                                                    "seen on",
                                                    choice(
                                                            "duplex", "Duplex",
                                                            "cta", "CT angiogram",
                                                            "mra", "MR angiogram",
                                                            "angiogram", "Angiogram"))))))),
            new FormSection(
                    "procedures",
                    "Earlier procedures",
                    List.of(field(
                            "procedures",
                            "Earlier procedures",
                            "earlier procedures",
                            new Entries(
                                    "procedure",
                                    "None done",
                                    List.of(
                                            field(
                                                    "kind",
                                                    "Kind",
                                                    "kind",
                                                    choice(
                                                            "angiogram", "Angiogram",
                                                            "angioplasty", "Angioplasty",
                                                            "stent", "Stent",
                                                            "thrombectomy", "Thrombectomy",
                                                            "bypass", "Bypass",
                                                            "endarterectomy", "Endarterectomy",
                                                            "amputation", "Amputation",
                                                            "aneurysmRepair", "Aneurysm repair")),
                                            field("side", "Side", "side", SIDES),
                                            field("segment", "Segment", "segment", SEGMENTS),
                                            field("date", "Date", "date", DAY),
                                            field("where", "Where", "where", LINE),
                                            field(
                                                    "intent",
                                                    "Intent",
                                                    "intent",
                                                    choice("diagnostic", "Diagnostic", "treatment", "Treatment")),
                                            field(
                                                    "outcome",
                                                    "Outcome",
                                                    "outcome",
                                                    choice(
                                                            "completed", "Completed",
                                                            "incomplete", "Incomplete",
                                                            "failed", "Failed",
                                                            "unknown", "Not stated")),
                                            field(
                                                    "complication",
                                                    "Complication",
                                                    "complication",
                                                    choice(
                                                            "none", "None",
                                                            "perforation", "Perforation",
                                                            "dissection", "Dissection",
                                                            "embolism", "Embolism",
                                                            "thrombosis", "Thrombosis",
                                                            "bleeding", "Bleeding",
                                                            "contrastReaction", "Contrast reaction",
                                                            "kidneyInjury", "Kidney injury",
                                                            "other", "Other")),
                                            field("accessSite", "Access site", "access site", LINE),
                                            field("reportHeld", "Report held", "report held", YES_NO),
                                            field("imagesHeld", "Images held", "images held", YES_NO),
                                            field("reason", "Reason given", "reason given", LINE)))))),
            new FormSection(
                    "deferred",
                    "Put off elsewhere",
                    List.of(
                            field("deferredElsewhere.where", "Where", "hospital that put treatment off", LINE),
                            field(
                                    "deferredElsewhere.days",
                                    "For how long",
                                    "time treatment was put off",
                                    new Amount("days")),
                            field("deferredElsewhere.reason", "Reason given", "reason for putting off", LINE))),
            new FormSection(
                    "history",
                    "History",
                    List.of(
                            field("history.diabetes", "Diabetes", "diabetes", YES_NO),
                            field("history.dialysis", "Dialysis", "dialysis", YES_NO),
                            field(
                                    "history.smoking",
                                    "Smoking",
                                    "smoking",
                                    choice("never", "Never", "former", "Former", "current", "Current")),
                            field("history.packYears", "Pack-years", "pack-years", new Amount("years")),
                            field("history.heartFailure", "Heart failure", "heart failure", YES_NO),
                            field(
                                    "history.recentMyocardialInfarctionDays",
                                    "Heart attack, days ago",
                                    "days since a heart attack",
                                    new Amount("days")),
                            field("history.coronaryBypass", "Coronary bypass", "coronary bypass", YES_NO),
                            field(
                                    "history.leftInternalMammaryGraft",
                                    "Left internal mammary graft",
                                    "left internal mammary graft",
                                    YES_NO),
                            field("history.stroke", "Stroke", "stroke", YES_NO),
                            field("history.atrialFibrillation", "Atrial fibrillation", "atrial fibrillation", YES_NO),
                            field("history.poplitealAneurysm", "Popliteal aneurysm", "popliteal aneurysm", YES_NO),
                            field("history.aorticAneurysm", "Aortic aneurysm", "aortic aneurysm", YES_NO),
                            field("history.spinalStenosis", "Spinal stenosis", "spinal stenosis", YES_NO),
                            field("history.spinalHardware", "Metal in the spine", "metal in the spine", YES_NO),
                            field(
                                    "history.hipOrPelvicHardware",
                                    "Metal in hip or pelvis",
                                    "metal in hip or pelvis",
                                    YES_NO),
                            field("history.bleedingDisorder", "Bleeding disorder", "bleeding disorder", YES_NO),
                            field("history.thyroidDisease", "Thyroid disease", "thyroid disease", YES_NO),
                            field("history.pregnant", "Pregnant", "pregnant", YES_NO),
                            field("history.statin", "Takes a statin", "takes a statin", YES_NO),
                            field("history.antiplatelet", "Takes an antiplatelet", "takes an antiplatelet", YES_NO),
                            field(
                                    "history.exerciseProgrammeWeeks",
                                    "Exercise programme",
                                    "exercise programme done",
                                    new Amount("weeks")),
                            field("history.walksIndependently", "Walks independently", "walks independently", YES_NO),
                            field("history.careHome", "Lives in a care home", "lives in a care home", YES_NO))),
            new FormSection(
                    "medicines",
                    "Medicines and allergies",
                    List.of(
                            field(
                                    "medicines",
                                    "Medicines",
                                    "medicines",
                                    new Entries(
                                            "medicine",
                                            "Takes none",
                                            List.of(
                                                    field("name", "Generic name", "generic name", LINE),
                                                    field("dose", "Dose", "dose", LINE)))),
                            field(
                                    "allergies",
                                    "Allergies",
                                    "allergies",
                                    new Entries(
                                            "allergy",
                                            "Has none",
                                            List.of(
                                                    field("to", "To", "to", LINE),
                                                    field(
                                                            "reaction",
                                                            "Reaction",
                                                            "reaction",
                                                            choice(
                                                                    "mild", "Mild",
                                                                    "moderate", "Moderate",
                                                                    "severe", "Severe",
                                                                    "unknown", "Not stated"))))))),
            new FormSection(
                    "labs",
                    "Laboratory and size",
                    List.of(
                            field(
                                    "labs",
                                    "Laboratory results",
                                    "laboratory results",
                                    new Entries(
                                            "result",
                                            "None held",
                                            List.of(
                                                    field(
                                                            "test",
                                                            "Test",
                                                            "test",
                                                            choice(
                                                                    "creatinine", "Creatinine",
                                                                    "egfr", "eGFR",
                                                                    "haemoglobin", "Haemoglobin",
                                                                    "platelets", "Platelets",
                                                                    "inr", "INR",
                                                                    "potassium", "Potassium",
                                                                    "hba1c", "HbA1c",
                                                                    "whiteCells", "White cells",
                                                                    "crp", "CRP",
                                                                    "tsh", "TSH")),
                                                    field("value", "Value", "value", new Amount("")),
                                                    field("unit", "Unit", "unit", LINE, "UCUM, as umol/L"),
                                                    field("taken", "Taken on", "day taken", DAY)))),
                            field("heightCm", "Height", "height", new Amount("cm")),
                            field("weightKg", "Weight", "weight", new Amount("kg")))),
            new FormSection(
                    "letter",
                    "Letter",
                    List.of(field("letterText", "The letter as it came", "text of the letter", new Text(12)))));

    private ReferralFields() {}

    /** Every field that is not within a list entry; a field with two sides once. */
    static List<FormField> all() {
        return SECTIONS.stream().flatMap(section -> section.fields().stream()).toList();
    }

    private static FormField field(String path, String label, String words, FieldKind kind) {
        return field(path, label, words, kind, "");
    }

    private static FormField field(String path, String label, String words, FieldKind kind, String hint) {
        return new FormField(path, label, words, kind, hint);
    }

    /** @param codesAndLabels code and label in turns */
    private static Choice choice(String... codesAndLabels) {
        var options = new ArrayList<Choice.Option>();
        for (var i = 0; i < codesAndLabels.length; i += 2) {
            options.add(new Choice.Option(codesAndLabels[i], codesAndLabels[i + 1]));
        }
        return new Choice(options);
    }
}
