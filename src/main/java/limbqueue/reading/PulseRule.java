package limbqueue.reading;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Pulses that were felt or not. Signals that were heard are no pulses. */
final class PulseRule implements Rule {

    private static final String VESSEL = "(?:femoral|popliteal|pedal|dp|postib)s?";
    private static final String NO_PULSE_BEHIND =
            "(?! (?:aneurysm|stenos|occlu|disease|lesion|arter|bypass|stent|pressure|graft|oedema|arch))";
    private static final String FELT_FOR_SURE =
            "(?:(?:isn't |not |non[- ]?|im|un)?palpable|absent|present|felt|faint|weak|diminished|bounding|[1-4]\\+|nil|good|ok|fine|full|strong|grand)";
    private static final String FELT_BY_SIGN = "(?:[0-4]/[1-4](?!/)|0(?!\\d|\\.\\d|/\\d)|[1-4]\\+|\\+|-(?=[ ,;]|$))";
    /** What may stand between an artery and what was felt there. */
    private static final String FILLER =
            "(?: ?(?:[:=,]|and|or|nor|&|/|\\+|pulses?|is|are|was|were|all|both|on|in|the|his|her|leg|foot|side|left|right|bilateral|just|only|easily|barely|readily|clearly|very|rather|quite|be|can|could|to|equally|well|"
                    + VESSEL + ")(?![a-z']))*+ ?";

    /** Words that tell without the word pulse that pulses are meant. */
    private static final Pattern VESSEL_FELT =
            Pattern.compile("\\b" + VESSEL + "(?![a-z])" + NO_PULSE_BEHIND + FILLER + "(?:"
                    + FELT_FOR_SURE + "\\b|cannot be (?:felt|found)|" + FELT_BY_SIGN + ")"
                    + "|\\b" + VESSEL + " (?:\\+|-(?=[ ,;]|$))"
                    + "|\\bpedals?(?![a-z])" + NO_PULSE_BEHIND + FILLER + "normal\\b"
                    + "|\\b(?:" + FELT_FOR_SURE + "|0|[1-4]\\+|no)(?: left| right| palpable)? " + VESSEL + "\\b"
                    + NO_PULSE_BEHIND);

    private static final Pattern FEELING = Pattern.compile(
            "\\b(?:nothing|anything|none|nil)\\b[^.;]{0,20}\\b(?:palpable|felt)\\b[^.;]{0,15}\\bbelow\\b"
                    + "|\\bneither (?:is |was )?(?:palpable|felt)\\b"
                    + "|\\b(?:feel|find|palpate) (?:the |his |her |a |any |both |either )?(?:left |right |bilateral |rather |faint |good )*"
                    + VESSEL + "\\b" + NO_PULSE_BEHIND);

    /** The number of a pulse rate, without a word of where it was felt. */
    private static final Pattern RATE_ONLY =
            Pattern.compile("(?s)(?:.*\\b(?:hr|bp|temp\\w*|vitals)\\b.*)?pulse ?[:=]? ?\\d{2,3}\\b[^a-z]*");

    private static final Pattern GOES_ON = Pattern.compile(
            "\\b(?:feel|felt|palpable|impalpable|nothing|nil|none)\\b|^(?:on the |in the |the )?(?:left|right|bilateral)(?: leg| foot| side| ones?)? ?[:=-]? ?(?:(?:are|were|is|was|both|all) )*(?:all|\\d\\+|\\+|-|0|present|absent|normal|weak|good)");

    /** A sentence that tells only a side and what was felt there: "On the left I can feel both." */
    private static final Pattern OTHER_SIDE = Pattern.compile(
            "(?:[*-] ?)?(?:on |in |but |and |those )*(?:the |his |her )?(?<side>left|right|bilateral)(?: leg| foot| side| ones?| pulses?)*,? ?[:=-]? ?"
                    + "(?:(?:i|we|they|it|are|is|were|was|both|the|easily|also|pulses?) )*"
                    + "(?<felt>(?:can|could|cannot|could not) (?:be )?(?:feel|felt)|isn't (?:palpable|felt)|[a-z-]+|not [a-z]+|[0-4]\\+?|\\+{1,3}|-)"
                    + "(?: (?:both|either|them))*[ .,;]*");

    private static final Pattern NO_PULSE = Pattern.compile(
            "\\b(?:doppler|waveform|monophasic|biphasic|triphasic|audible|graft|stent|occlusion|stenosis|bruit|aneurysm|mmhg|pressure|"
                    + "stenosed|oximeter|duplex|cta|mra|angiogram)\\b");

    /** "All pulses palpable except the left dorsalis pedis." */
    private static final Pattern ALL_EXCEPT = Pattern.compile(
            "^(?:all |both )?(?:(?:of )?(?:his|her|the|peripheral|leg|limb|lower) )*(?<foot>(?:pedal|foot) )?pulses ?:? ?(?:(?:are|were|all|is) )*(?:palpable|present|felt|good|normal|intact)"
                    + "(?: (?:throughout|bilateral|everywhere))?,? (?:except|apart from|bar|other than|excluding|but not|save)(?: for)? (?:the |his |her )?(?:(?<side>left|right) )?(?<vessel>femoral|popliteal|dp|postib|pedal)s?(?: pulses?)?[ .]*$");

    private static final Pattern EXCEPT = Pattern.compile(
            "\\b(?:except|apart from|bar|other than|excluding|save)(?: for)? (?:the |his |her )?(?:(?:left|right|bilateral) )?(?:"
                    + VESSEL + ")\\b");

    private static final Pattern HEDGED = Pattern.compile(
            "^,? ?\\(?(?:(?:with|because of|due to|owing to|through) (?:the |his |her )?(?:\\w+ )?(?:oedema|swelling)|(?:so |but |rather )?(?:uncertain|doubtful)|oedema|i think|i believe|i suspect|perhaps|maybe|possibly|\\?|but (?:i am |i'm )?not (?:sure|certain))");

    /** Arteries of which a leg has one, in the plural. */
    private static final Pattern OF_TWO_LEGS = Pattern.compile(
            "(?i)\\b(?:fems|femorals|femoral(?: and popliteal)? pulses|pops|popliteals|(?:dp|pt)s|(?:posterior|post)\\.? tib(?:ial)?s)\\b");

    /** "Fem/pop/DP/PT R 2/2/0/0": nobody writes the arteries so but for their pulses. */
    private static final Pattern PLACES_BY_SLASH = Pattern.compile("\\b" + VESSEL + "(?: ?/ ?" + VESSEL
            + ")+ ?:? ?(?:left|right|bilateral)\\b ?:? ?[0-4]\\+? ?/ ?[0-4](?!\\d)");

    @Override
    public void read(Page page, Findings findings) {
        var last = -5;
        var places = List.<String>of();
        var order = Optional.<Side>empty();
        var paragraph = -1;
        for (var sentence : page.sentences) {
            if (sentence.paragraph != paragraph) {
                order = Optional.empty();
                paragraph = sentence.paragraph;
            }
            if (sentence.plain.contains("pulse") && sentence.plain.endsWith(":")) {
                order = PulseGrid.order(sentence.plain);
            }
            if (speaksOfPulses(sentence, sentence.number - last <= 2)) {
                var except = ALL_EXCEPT.matcher(sentence.plain);
                if (except.find()) {
                    allExcept(sentence, except, findings);
                    last = sentence.number;
                    places = List.of();
                    continue;
                }
                if (EXCEPT.matcher(sentence.plain).find()) {
                    // What is excepted from what, nobody could tell for sure.
                    continue;
                }
                var other = sentence.number - last <= 1 ? otherSide(sentence, places) : List.<PulsePairing.Group>of();
                var groups = other.isEmpty() ? groups(sentence, page.legs, order) : other;
                groups.forEach(group -> put(page, sentence, group, findings));
                last = sentence.number;
                places = groups.stream()
                        .filter(group -> group.sides.equals(groups.getLast().sides))
                        .flatMap(group -> group.places.stream())
                        .distinct()
                        .toList();
            }
        }
    }

    private static void allExcept(Sentence sentence, Matcher except, Findings findings) {
        var named = except.group("side");
        var words = sentence.span(except);
        for (var side : Side.both()) {
            for (var site : except.group("foot") == null ? PulseWords.ALL : PulseWords.FOOT) {
                var excepted = switch (except.group("vessel")) {
                    case "femoral", "popliteal" -> site.equals(except.group("vessel"));
                    case "dp" -> site.equals("dorsalisPedis");
                    case "postib" -> site.equals("posteriorTibial");
                    default -> site.equals("dorsalisPedis") || site.equals("posteriorTibial");
                };
                var absent = excepted && (named == null || named.equals(side.word));
                findings.put(side.leg("pulses." + site), absent ? "absent" : "present", words, Findings.Ground.WORDS);
            }
        }
    }

    private static List<PulsePairing.Group> groups(Sentence sentence, Legs legs, Optional<Side> order) {
        return PulseGrid.of(sentence.plain, order)
                .map(cells -> cells.stream()
                        .map(cell -> new PulsePairing.Group(
                                cell.places(),
                                cell.value(),
                                cell.sides(),
                                cell.sides().isPresent(),
                                cell.start(),
                                cell.end()))
                        .toList())
                .orElseGet(() -> new PulsePairing(sentence, legs).groups());
    }

    /** What was felt on another side at {@code places}, which the sentence before has named. */
    private static List<PulsePairing.Group> otherSide(Sentence sentence, List<String> places) {
        var match = OTHER_SIDE.matcher(sentence.plain);
        if (places.isEmpty() || !match.matches()) {
            return List.of();
        }
        var word = match.group("side");
        var sides = word.equals("bilateral") ? Side.both() : EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT);
        return PulseWords.felt(match.group("felt"))
                .map(value -> List.of(new PulsePairing.Group(
                        places, value, Optional.of(sides), true, match.start("side"), match.end("felt"))))
                .orElse(List.of());
    }

    /** A sentence that names more arteries than this is no sentence. */
    private static final int MOST = 40;

    private static final Pattern ARTERY = Pattern.compile("\\b" + VESSEL + "\\b|\\bpulses?\\b");

    private static boolean speaksOfPulses(Sentence sentence, boolean before) {
        var plain = sentence.plain;
        if (ARTERY.matcher(plain).results().limit(MOST + 1).count() > MOST) {
            return false;
        }
        return plain.contains("pulse") && !RATE_ONLY.matcher(plain).matches()
                || VESSEL_FELT.matcher(plain).find()
                || FEELING.matcher(plain).find()
                || PLACES_BY_SLASH.matcher(plain).find()
                || before && GOES_ON.matcher(plain).find();
    }

    private static void put(Page page, Sentence sentence, PulsePairing.Group group, Findings findings) {
        var plain = sentence.plain;
        var around = plain.substring(
                sentence.pieceStart(group.start), Math.min(sentence.pieceEnd(group.end), group.end + 15));
        if (Polarity.isOthers(sentence, group.start, group.end)
                || Polarity.isOpen(sentence, group.start)
                || NO_PULSE.matcher(around).find()
                || HEDGED.matcher(plain.substring(group.end)).find()) {
            return;
        }
        var place = group.sides
                .map(sides -> new Legs.Place(sides, group.own ? Findings.Ground.WORDS : Findings.Ground.SENTENCE))
                .orElseGet(() -> unsaid(page, sentence, group));
        var words = sentence.span(group.start, group.end);
        for (var side : place.sides()) {
            for (var site : group.places) {
                findings.put(side.leg("pulses." + site), group.value, words, place.ground());
            }
        }
    }

    /** The leg of a pulse whose side is not named with it: "femorals good" are two. */
    private static Legs.Place unsaid(Page page, Sentence sentence, PulsePairing.Group group) {
        if (OF_TWO_LEGS
                .matcher(page.original(sentence.span(group.start, group.end)))
                .find()) {
            return new Legs.Place(Side.both(), Findings.Ground.SENTENCE);
        }
        var alone = page.legs.mentions(sentence).isEmpty();
        if (alone
                && (OF_TWO_LEGS.matcher(page.original(sentence.whole)).find()
                        || Fit.matches(
                                sentence.plain.substring(0, group.start), "(?s).*\\ball (?:of )?(?:his|her) "))) {
            return new Legs.Place(Side.both(), Findings.Ground.CARRIED);
        }
        if (!alone) {
            return page.legs.of(sentence, group.start, group.end);
        }
        var carried = page.legs.carriedTo(sentence);
        return !carried.known() && Fit.matches(sentence.plain, "(?s).*\\ball\\b.*")
                ? new Legs.Place(EnumSet.copyOf(Side.both()), Findings.Ground.CARRIED)
                : carried;
    }
}
