package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Finds which indices and pressures a sentence names, and which of them were taken after exercise. */
final class Measures {

    enum Measure {
        ABI("abi"),
        TBI("tbi"),
        EXERCISE_ABI("abiAfterExercise"),
        DORSALIS_PEDIS("pressures.dorsalisPedis"),
        POSTERIOR_TIBIAL("pressures.posteriorTibial"),
        TOE("pressures.toe"),
        OXYGEN("pressures.tcpo2"),
        EXERCISE_ANKLE("pressures.ankleAfterExercise"),
        ARM("");

        final String field;

        Measure(String field) {
            this.field = field;
        }

        boolean index() {
            return this == ABI || this == TBI || this == EXERCISE_ABI;
        }
    }

    /** A measure and where it is named. */
    record Key(int start, int end, Measure measure) {}

    private enum Name {
        EXERCISE,
        ABI,
        TBI,
        TOE,
        DP,
        PT,
        OXYGEN,
        ANKLE,
        ARM
    }

    private record Named(int start, int end, Name name) {}

    /** A sentence with more of them is no sentence. */
    private static final int MOST = 30;

    private static final String EFFORT =
            "(?:exercise|exertion|treadmill|walking|marching|heel raises?|toe raises?|tiptoe\\w*|stress|ex)";
    private static final String EXERCISE =
            "(?:post|after|following|on|with)[ -]?(?:(?:a|the|\\d+|minutes?'?|mins?|of) )*" + EFFORT
                    + "(?: (?:test\\w*|exercise|walk|on the spot|challenge))*|(?:exercise|stress)(?= abi| ankle)|post[ -]?ex(?:ertional)?\\b";
    private static final String TOE =
            "toe pressure|pressure (?:in|at|of) the (?:left |right )?(?:great )?toe|(?:great )?toe(?="
                    + " ?(?:is |was |of |[:=] ?)?\\d{2,3} ?mmhg|[:=] ?\\d{2,3}\\b|,? \\d{2,3}(?:[,.;)]|$| on )"
                    + "| (?:left|right) ?[:=]? ?\\d{2,3}(?: ?mmhg)? ?(?:[,;]|tbi|left|right|$))";
    private static final String ARM = "(?:arm|brachial)s?(?: systolics?| bps?| blood pressures?| pressure)*";
    private static final Pattern NAMES =
            Pattern.compile("\\b(?:(?<EXERCISE>" + EXERCISE + ")|(?<ABI>abi|(?<!mass )(?<!body )(?<!cardiac )"
                    + "(?<!resistive )(?<!therapeutic )index(?=[a-z ,:=]{1,35}\\d\\.\\d))|(?<TBI>tbi)|(?<TOE>" + TOE
                    + ")|(?<DP>dp)|(?<PT>postib)|(?<OXYGEN>tcpo2)|(?<ANKLE>ankle(?: systolic)?(?: pressure)?)|(?<ARM>"
                    + ARM + "))\\b");

    private static final Pattern FILLER = Pattern.compile(
            "[ ,:(-]*(?:(?:the|his|her|resting|left|right|a|of|at|foot|leg|is|was|\\d{2,3} ?mmhg)[ ,:(-]*)*");
    private static final Pattern INDEX = Pattern.compile("(?<![\\d.])[01]\\.\\d{1,2}(?!\\d)");
    private static final Pattern INDEX_JUST_BEFORE = Pattern.compile("[01]\\.\\d{1,2}\\)? (?:\\w+ ){0,2}$");

    /** "After treadmill 0.32/0.88": the figure of the effort stands behind it. */
    private static final Pattern INDEX_JUST_BEHIND =
            Pattern.compile("^ ?(?:tests? )?[:=(]? ?(?:(?:was|is|to|left|right) ){0,2}[01]\\.\\d");

    private Measures() {}

    /** The measures in their order. */
    static List<Key> in(String plain) {
        var named = new ArrayList<Named>();
        var match = NAMES.matcher(plain);
        while (match.find() && named.size() < MOST) {
            for (var name : Name.values()) {
                if (match.group(name.name()) != null) {
                    named.add(new Named(match.start(), match.end(), name));
                }
            }
        }
        var keys = new ArrayList<Key>();
        var exercised = false;
        for (var i = 0; i < named.size(); i++) {
            exercised |= named.get(i).name() == Name.EXERCISE;
            measure(plain, named, i, exercised).ifPresent(keys::add);
        }
        return keys;
    }

    private static Optional<Key> measure(String plain, List<Named> named, int i, boolean exercised) {
        var it = named.get(i);
        var measure = switch (it.name()) {
            case EXERCISE -> standsAlone(plain, named, i) ? Measure.EXERCISE_ABI : null;
            case ABI -> beside(plain, named, i) ? Measure.EXERCISE_ABI : Measure.ABI;
            case ANKLE -> exercised || beside(plain, named, i) ? Measure.EXERCISE_ANKLE : null;
            case TBI -> Measure.TBI;
            case TOE -> Measure.TOE;
            case DP -> Measure.DORSALIS_PEDIS;
            case PT -> Measure.POSTERIOR_TIBIAL;
            case OXYGEN -> Measure.OXYGEN;
            case ARM -> Measure.ARM;
        };
        return Optional.ofNullable(measure).map(found -> new Key(it.start(), it.end(), found));
    }

    /** Whether words for exercise stand beside the measure, as in "post-exercise ABI" and "ABI after exercise". */
    private static boolean beside(String plain, List<Named> named, int i) {
        return i > 0 && named.get(i - 1).name() == Name.EXERCISE && adjoin(plain, named.get(i - 1), named.get(i))
                || i + 1 < named.size()
                        && named.get(i + 1).name() == Name.EXERCISE
                        && adjoin(plain, named.get(i), named.get(i + 1));
    }

    private static boolean adjoin(String plain, Named one, Named two) {
        return FILLER.matcher(plain.substring(one.end(), two.start())).matches();
    }

    /** "After exercise the left falls to 0.71": an index is told although none is named. */
    private static boolean standsAlone(String plain, List<Named> named, int i) {
        var it = named.get(i);
        var nextIsNear = i + 1 < named.size() && adjoin(plain, it, named.get(i + 1));
        var lastIsNear = i > 0 && named.get(i - 1).name() != Name.EXERCISE && adjoin(plain, named.get(i - 1), it);
        var to = Math.min(plain.length(), it.end() + 60);
        var next = i + 1 < named.size() ? Math.min(to, named.get(i + 1).start()) : to;
        return !nextIsNear
                && !lastIsNear
                && (!INDEX_JUST_BEFORE.matcher(plain.substring(0, it.start())).find()
                        || INDEX_JUST_BEHIND.matcher(plain.substring(it.end())).find())
                && INDEX.matcher(plain.substring(it.end(), next)).find();
    }
}
