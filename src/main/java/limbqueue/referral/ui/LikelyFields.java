package limbqueue.referral.ui;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * The fields at which Enter stops: what a referring practice is likely to tell on the telephone. Every other field is
 * reached with Tab, from the list of parts, or by the question that asks for it. What is likely is common practice, no
 * source; it moves the cursor and nothing else.
 */
final class LikelyFields {

    private static final String ALWAYS = "";

    /** Conditions as {@code frontend/lq-form.js} reads them, by the field's path. */
    private static final Map<String, String> WAYS = ways();

    private LikelyFields() {}

    /** When Enter stops at the field at {@code path}, for the browser to judge; empty if it never does. */
    static Optional<String> way(String path) {
        var side = path.contains(".left") ? "left" : "right";
        var pattern = path.replaceFirst("^(legs|armPressures)\\.(left|right)", "$1." + "{side}");
        return Optional.ofNullable(WAYS.get(pattern)).map(way -> way.replace(FormField.SIDE, side));
    }

    private static Map<String, String> ways() {
        var ways = new HashMap<String, String>();
        put(ways, ALWAYS, "patient.family", "patient.given", "patient.born", "patient.sex", "patient.phone");
        put(ways, ALWAYS, "referrer.name", "asked.priority", "asked.expedite", "asked.reason");
        put(ways, "referrer.name=*", "referrer.organisation", "referrer.phone");
        put(ways, "asked.expedite=yes", "asked.expediteGrounds");

        put(ways, ALWAYS, leg("acute.present"));
        put(
                ways,
                leg("acute.present=yes"),
                leg("acute.onset"),
                leg("acute.pain"),
                leg("acute.pale"),
                leg("acute.cold"),
                leg("acute.sensory"),
                leg("acute.motor"));

        put(ways, ALWAYS, leg("wound.ulcer"), leg("wound.gangrene"));
        var wound = leg("wound.ulcer=shallow|deep|extensive") + ";" + leg("wound.gangrene=digits|extensive");
        put(ways, wound, leg("wound.site"), leg("wound.exposes"), leg("wound.sinceDays"), leg("wound.spreading"));
        put(ways, wound, leg("infection.localSigns"), leg("infection.deep"));

        put(ways, ALWAYS, leg("restPain.present"));
        put(
                ways,
                leg("restPain.present=yes"),
                leg("restPain.sinceDays"),
                leg("restPain.needsOpioid"),
                leg("restPain.easedByHanging"));

        put(ways, ALWAYS, leg("claudication.present"));
        put(
                ways,
                leg("claudication.present=yes"),
                leg("claudication.distanceMetres"),
                leg("claudication.sinceDays"),
                leg("claudication.course"),
                leg("claudication.site"),
                leg("claudication.relief"),
                leg("claudication.limitsLife"));

        put(ways, ALWAYS, "armPressures.{side}");
        put(ways, ALWAYS, leg("pressures.dorsalisPedis"), leg("pressures.posteriorTibial"), leg("pressures.toe"));
        put(ways, leg("pressures.dorsalisPedis="), leg("abi"));
        put(
                ways,
                ALWAYS,
                leg("pulses.femoral"),
                leg("pulses.popliteal"),
                leg("pulses.dorsalisPedis"),
                leg("pulses.posteriorTibial"));

        put(ways, ALWAYS, "imaging", "procedures");
        put(
                ways,
                ALWAYS,
                "history.diabetes",
                "history.dialysis",
                "history.smoking",
                "history.heartFailure",
                "history.stroke",
                "history.atrialFibrillation",
                "history.bleedingDisorder",
                "history.walksIndependently",
                "history.careHome");
        put(ways, ALWAYS, "medicines", "allergies");
        return Map.copyOf(ways);
    }

    private static String leg(String field) {
        return "legs." + FormField.SIDE + "." + field;
    }

    private static void put(Map<String, String> ways, String way, String... paths) {
        for (var path : paths) {
            ways.put(path, way);
        }
    }
}
