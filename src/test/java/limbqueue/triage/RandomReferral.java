package limbqueue.triage;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.random.RandomGenerator;

/** Referrals drawn at random: each field known or not, its value one of those that stand on either side of a limit. */
final class RandomReferral {

    /** The answers of a leg's fields, worst last where one answer is worse than another. */
    static final Map<String, List<Object>> LEG = new LinkedHashMap<>();

    private static final Map<String, List<Object>> PATIENT = new LinkedHashMap<>();
    private static final Map<String, List<Object>> PROCEDURE = new LinkedHashMap<>();
    private static final Map<String, List<Object>> LESION = new LinkedHashMap<>();
    private static final Map<String, List<Object>> IMAGING = new LinkedHashMap<>();
    private static final Map<String, List<Object>> LAB = new LinkedHashMap<>();

    static {
        LEG.put("claudication.present", List.of(false, true));
        LEG.put("claudication.distanceMetres", List.of(500, 201, 200, 199, 51, 50, 49, 0));
        LEG.put("claudication.sinceDays", List.of(400, 15, 14, 3));
        LEG.put("claudication.course", List.of("stable", "worse", "sudden"));
        LEG.put("claudication.site", List.of("calf", "buttock"));
        LEG.put("claudication.relief", List.of("standing", "sitting"));
        LEG.put("claudication.limitsLife", List.of(false, true));
        LEG.put("restPain.present", List.of(false, true));
        LEG.put("restPain.sinceDays", List.of(5, 14, 15, 60));
        LEG.put("restPain.needsOpioid", List.of(false, true));
        LEG.put("restPain.easedByHanging", List.of(false, true));
        LEG.put("wound.ulcer", List.of("none", "shallow", "deep", "extensive"));
        LEG.put("wound.gangrene", List.of("none", "digits", "extensive"));
        LEG.put("wound.site", List.of("leg", "toe", "forefoot", "midfoot", "heel"));
        LEG.put("wound.exposes", List.of("nothing", "distalPhalanx", "boneJointOrTendon", "calcaneus"));
        LEG.put("wound.sinceDays", List.of(5, 13, 14, 60));
        LEG.put("wound.spreading", List.of(false, true));
        LEG.put("infection.localSigns", List.of(0, 1, 2, 5));
        LEG.put("infection.rednessMm", List.of(0, 5, 6, 20, 21, 60));
        LEG.put("infection.deep", List.of(false, true));
        LEG.put("infection.temperatureC", List.of(37, 38, 38.1, 40));
        LEG.put("infection.heartRate", List.of(70, 90, 91, 130));
        LEG.put("infection.respiratoryRate", List.of(14, 20, 21, 30));
        LEG.put("infection.paco2", List.of(40, 32, 31));
        LEG.put("infection.whiteCellsPerMicrolitre", List.of(8000, 12000, 12001, 20000));
        LEG.put("acute.present", List.of(false, true));
        LEG.put("acute.onset", List.of("2026-01-05", "2026-02-15", "2026-02-16", "2026-03-01"));
        LEG.put("acute.sensory", List.of("none", "toes", "beyondToes", "complete"));
        LEG.put("acute.motor", List.of("none", "mild", "paralysis"));
        LEG.put("acute.arterialDoppler", List.of("audible", "inaudible"));
        LEG.put("acute.venousDoppler", List.of("audible", "inaudible"));
        LEG.put("acute.pain", List.of(false, true));
        LEG.put("acute.pale", List.of(false, true));
        LEG.put("acute.cold", List.of(false, true));
        LEG.put("pressures.dorsalisPedis", List.of(230, 150, 101, 100, 71, 70, 69, 50, 49, 20));
        LEG.put("pressures.posteriorTibial", List.of(230, 150, 101, 100, 71, 70, 69, 50, 49, 20));
        LEG.put("pressures.toe", List.of(90, 60, 59, 40, 39, 30, 29, 5));
        LEG.put("pressures.ankleAfterExercise", List.of(90, 51, 50, 49));
        LEG.put("pressures.tcpo2", List.of(60, 59, 40, 39, 30, 29));
        LEG.put("pressures.waveform", List.of("triphasic", "biphasic", "monophasic", "flat"));
        LEG.put("abi", List.of(1.8, 1.41, 1.40, 1.0, 0.99, 0.91, 0.9, 0.8, 0.79, 0.6, 0.59, 0.4, 0.39, 0.2));
        LEG.put("tbi", List.of(0.9, 0.71, 0.7, 0.4, 0.2));
        LEG.put("abiAfterExercise", List.of(1.0, 0.7, 0.3));
        LEG.put("pulses.femoral", List.of("present", "weak", "absent"));
        LEG.put("pulses.popliteal", List.of("present", "weak", "absent"));
        LEG.put("pulses.dorsalisPedis", List.of("present", "weak", "absent"));
        LEG.put("pulses.posteriorTibial", List.of("present", "weak", "absent"));

        PATIENT.put("received", List.of("2026-01-10", "2026-03-01", "2026-03-02"));
        PATIENT.put("patient.born", List.of("1940-02-28", "1996-05-01"));
        PATIENT.put("patient.sex", List.of("female", "male", "other"));
        PATIENT.put("patient.leavesArea", List.of("2026-03-05", "2026-04-01", "2026-12-01"));
        PATIENT.put("patient.returnsToArea", List.of("2026-12-20"));
        PATIENT.put("asked.priority", List.of("routine", "urgent", "asap", "stat"));
        PATIENT.put("asked.expedite", List.of(false, true));
        PATIENT.put("asked.expediteGrounds", List.of("clinical", "personal", "travel"));
        PATIENT.put("armPressures.left", List.of(110, 125, 140));
        PATIENT.put("armPressures.right", List.of(110, 125, 140));
        PATIENT.put("deferredElsewhere.days", List.of(13, 14, 60));
        for (var condition : List.of(
                "diabetes",
                "dialysis",
                "coronaryBypass",
                "heartFailure",
                "stroke",
                "spinalHardware",
                "hipOrPelvicHardware",
                "spinalStenosis",
                "poplitealAneurysm",
                "aorticAneurysm",
                "pregnant",
                "bleedingDisorder",
                "thyroidDisease",
                "statin",
                "antiplatelet")) {
            PATIENT.put("history." + condition, List.of(false, true));
        }
        PATIENT.put("history.exerciseProgrammeWeeks", List.of(0, 11, 12));
        PATIENT.put("history.smoking", List.of("never", "current"));
        PATIENT.put("medicines[0].name", List.of("apixaban", "metformin", "atorvastatin"));
        PATIENT.put("allergies[0].to", List.of("iodinated contrast", "shellfish"));

        PROCEDURE.put("kind", List.of("angiogram", "angioplasty", "stent", "bypass", "amputation"));
        PROCEDURE.put("side", List.of("left", "right"));
        PROCEDURE.put("date", List.of("2025-06-01", "2025-12-01"));
        PROCEDURE.put("intent", List.of("diagnostic", "treatment"));
        PROCEDURE.put("outcome", List.of("completed", "incomplete", "failed"));
        PROCEDURE.put("complication", List.of("none", "thrombosis", "contrastReaction"));
        PROCEDURE.put("reportHeld", List.of(false, true));
        PROCEDURE.put("imagesHeld", List.of(false, true));
        LESION.put("side", List.of("left", "right"));
        LESION.put(
                "segment",
                List.of("popliteal", "commonIliac", "superficialFemoral", "externalIliac", "anteriorTibial"));
        LESION.put("lengthMm", List.of(20, 90, 160, 220));
        LESION.put("ostial", List.of(false, true));
        LESION.put("stenosisPercent", List.of(60, 99, 100));
        LESION.put("inStent", List.of(false, true));
        LESION.put("aneurysm", List.of(false, true));
        LESION.put("diameterMm", List.of(19, 20, 31));
        LESION.put("calcification", List.of("none", "severe"));
        IMAGING.put("kind", List.of("duplex", "cta", "angiogram"));
        IMAGING.put("side", List.of("left", "right"));
        IMAGING.put("date", List.of("2025-05-01", "2026-02-01"));
        IMAGING.put("reportHeld", List.of(false, true));
        IMAGING.put("imagesHeld", List.of(false, true));
        LAB.put("test", List.of("egfr", "haemoglobin"));
        LAB.put("value", List.of(22, 29, 30, 60));
        LAB.put("taken", List.of("2025-06-01", "2026-02-20", "2026-03-01"));
    }

    private RandomReferral() {}

    /** @param known the share of fields that are known, 0 to 1 */
    static Facts draw(RandomGenerator random, double known) {
        var values = new TreeMap<String, Object>();
        for (var side : List.of("left", "right")) {
            if (random.nextInt(12) == 0) {
                values.put(
                        "legs." + side + ".amputation", pick(random, List.of("none", "toe", "belowKnee", "aboveKnee")));
            }
            // Few patients have everything at once: whole complaints are left out, or denied, as often as not.
            var acute = random.nextInt(4) == 0;
            var infected = random.nextBoolean();
            LEG.forEach((field, answers) -> {
                if (random.nextDouble() < known
                        && (acute || !field.startsWith("acute"))
                        && (infected || !field.startsWith("infection"))) {
                    values.put("legs." + side + "." + field, pick(random, answers));
                }
            });
            if (!acute && random.nextDouble() < known) {
                values.put("legs." + side + ".acute.present", false);
            }
            if (!infected && random.nextDouble() < known) {
                values.put("legs." + side + ".infection.localSigns", 0);
                values.put("legs." + side + ".infection.deep", false);
            }
        }
        PATIENT.forEach((path, answers) -> {
            if (random.nextDouble() < known) {
                values.put(path, pick(random, answers));
            }
        });
        list(random, known, "procedures", PROCEDURE, values);
        list(random, known, "lesions", LESION, values);
        list(random, known, "imaging", IMAGING, values);
        list(random, known, "labs", LAB, values);
        return new Facts(values);
    }

    private static void list(
            RandomGenerator random,
            double known,
            String list,
            Map<String, List<Object>> fields,
            Map<String, Object> values) {
        if (random.nextDouble() >= known) {
            return;
        }
        var size = random.nextInt(4);
        if (size == 0) {
            values.put(list, List.of());
        }
        for (var i = 0; i < size; i++) {
            var entry = list + "[" + i + "].";
            fields.forEach((field, answers) -> {
                if (random.nextDouble() < Math.max(known, 0.7)) {
                    values.put(entry + field, pick(random, answers));
                }
            });
        }
    }

    static <T> T pick(RandomGenerator random, List<T> answers) {
        return answers.get(random.nextInt(answers.size()));
    }

    /** The same referral with left and right exchanged. */
    static Facts mirrored(Facts facts) {
        var values = new TreeMap<String, Object>();
        facts.values()
                .forEach((path, value) ->
                        values.put(exchanged(path), path.endsWith(".side") ? exchanged(String.valueOf(value)) : value));
        return new Facts(values);
    }

    static String exchanged(String text) {
        return text.replace("left", "\0").replace("right", "left").replace("\0", "right");
    }

    /** The same referral with the entries of every list in another order. */
    static Facts shuffled(Facts facts) {
        var values = new TreeMap<String, Object>();
        for (var entry : facts.values().entrySet()) {
            var path = entry.getKey();
            var open = path.indexOf('[');
            if (open < 0) {
                values.put(path, entry.getValue());
                continue;
            }
            var list = path.substring(0, open);
            var size = new ArrayList<>(facts.values().keySet())
                    .stream()
                            .filter(other -> other.startsWith(list + "["))
                            .mapToInt(other -> Integer.parseInt(other.substring(open + 1, other.indexOf(']'))))
                            .max()
                            .orElse(0);
            var index = Integer.parseInt(path.substring(open + 1, path.indexOf(']')));
            values.put(list + "[" + (size - index) + path.substring(path.indexOf(']')), entry.getValue());
        }
        return new Facts(values);
    }
}
