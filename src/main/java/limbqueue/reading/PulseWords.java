package limbqueue.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words of a sentence that tell pulses: sides, places, what was felt there, and what holds the sentence together. */
final class PulseWords {

    /** The places from the groin to the foot. */
    static final List<String> ALL = List.of("femoral", "popliteal", "dorsalisPedis", "posteriorTibial");

    static final List<String> FOOT = ALL.subList(2, 4);

    enum Kind {
        SIDE,
        /** "Both", of which the sentence must tell whether it means legs or places. */
        BOTH,
        PLACE,
        /** "All", of all places or of those that are named. */
        EVERY,
        /** "The other pulses". */
        REST,
        /** "Nothing below the knee". */
        BELOW,
        /** "Pulses present down to the knee": places and what was felt in one. */
        DOWN_TO,
        /** "Neither popliteal": of two legs. */
        NEITHER,
        FELT,
        BORDER
    }

    /**
     * @param sides of a side
     * @param places of a place; of {@code BELOW} those below the level that it names, none where it names none
     * @param value of what was felt: present, weak or absent
     */
    record Word(Kind kind, int start, int end, Set<Side> sides, List<String> places, String value) {}

    private static final String ARTICLE = "(?:the |his |her |their |a |an )?";
    private static final String LEVEL =
            "(?:femorals?|groins?|inguinal(?: ligament)?|cfa|knees?|popliteals?|ankles?)(?: pulses?| level)?";

    private static final Pattern BELOW =
            Pattern.compile("\\b(?:below|distal to|beyond|distally|further down|lower down)"
                    + "(?! knee amp| knee bypass)(?: " + ARTICLE
                    + "(?:level of (?:the )?)?(?:left |right |bilateral )?(?<level>"
                    + LEVEL + ")\\b| (?:it|that|this|there|them)\\b)?(?! (?:on|in) \\d)");

    /** "Nothing distal", of a leg whose upper pulse was told. */
    private static final Pattern NOTHING_BELOW = Pattern.compile(
            "(?<=\\b(?:nothing|none|nil) )(?:palpable |felt )?(?:more )?distal(?:ly)?\\b(?! (?:to|pulses?)\\b)");

    /** "Present down to the popliteal": there and above. */
    private static final Pattern DOWN_TO = Pattern.compile(
            "\\bpulses? (?:are |were )?(?:all )?(?:easily )?(?:present|palpable|felt|good|intact) (?:down |as far as )?(?:to )?"
                    + "(?:the )?(?:level of (?:the )?)?(?<level>femoral|groin|popliteal|knee)s?(?: level)?\\b");

    private static final String NO_PULSE =
            "(?! ?(?:aneurysm|arch|oedema|bypass|graft|stent|stenos|occlu|disease|lesion|arter|vessel|vein|approach|access|"
                    + "puncture|endart|nerve|fracture|hernia|canal|entrap|thromb|anast|segment|run|pressure|waveform|doppler|"
                    + "velocit|flow|signal|bruit|cutdown|ulcer|wound|sore|pain|patent|in-stent|restenos|amput|replace|fossa))";
    private static final String PLACES =
            "(?:femorals?|cfa|groins?)(?<f>)|(?:popliteals?|(?<!below )(?<!above )(?<!through )knees?)(?<p>)"
                    + "|dp(?<dp>)|postib(?<pt>)"
                    + "|(?:pedal|(?:foot|ankle|tibial|distal|peripheral foot)(?= pulse)|peripheral(?= pulses?(?: \\w+){0,3} (?:in|of) (?:the |his |her )?(?:left |right )?foot)|pulses? (?:of|in|at) (?:either |any |"
                    + "bilateral |" + ARTICLE + "(?:left |right |same |bilateral )?)(?:foot|ankle)"
                    + "|(?<=pulses left |pulses right |pulses bilateral |pulses |nothing |nil |no |absent |or |and |in the |"
                    + "in left |in right |in his |in her |\\+ )foot|foot(?= (?:nil|nothing|none|absent|impalpable)\\b)"
                    + "|foot(?= ?[:-]? ?(?:(?:both|neither)(?: pulses?)? (?:is |are |was |were )?(?:absent|palpable|felt|present|impalpable|not|weak)|no pulses?|pulseless)\\b))(?<foot>)";
    private static final Pattern PLACE = Pattern.compile("\\b(?:" + PLACES + ")\\b" + NO_PULSE);
    /** "No pulses felt in the right foot", "I cannot feel anything in either foot". */
    private static final Pattern FOOT_FELT = Pattern.compile(
            "(?<=\\b(?:felt|palpable|present|found|detectable|absent|anything|nothing|any) (?:in|at|on) )"
                    + "(?:either |" + ARTICLE + ")(?:left |right |bilateral )?(?:foot|ankle)\\b");

    /** "The left foot is cold with absent pulses". */
    private static final Pattern PULSES_OF_FOOT = Pattern.compile(
            "(?<=\\bfoot\\b[^.;]{0,45}\\b(?:palpable|good|normal|strong|absent|impalpable|weak) )pulses?(?= ?(?:[.,;)]|$))"
                    + "|(?<=\\bfoot\\b[^.;]{0,45}[ ,])pulses?(?= (?:(?:are|were|is|was) )?(?:both )?(?:isn't |not )?(?:palpable|absent|impalpable|present|weak|good)\\b)");

    private static final Pattern FEELS_FOR_PULSES = Pattern.compile(
            "\\bpulses?\\b|\\b(?:i|we) (?:cannot|can't|can|could|could not) (?:\\w+ )?feel\\b|\\bnothing (?:is |was )?(?:felt|palpable)\\b");

    /** "All pulses, femoral to foot". */
    private static final String FROM_GROIN_TO_FOOT =
            "all (?:of )?(?:the |his |her )?(?:peripheral |leg |lower limb )?pulses,? (?:from )?(?:the )?(?:femorals?|groins?) "
                    + "(?:down |through )?to (?:the )?(?:foot|pedal|ankle|dp|toe)s?\\b,?";

    private static final Pattern WHOLE_LEG =
            Pattern.compile("\\b(?:" + FROM_GROIN_TO_FOOT + "|all (?:of )?(?:the |his |her )?pulses (?:of|in) "
                    + "(?:the |his |her )?(?:left |right |bilateral )leg|full (?:set|complement) of (?:leg |peripheral )?pulses|"
                    + "pulses(?= (?:are |were )?(?:all )?(?:full|normal|intact|palpable|present|good|felt) (?:throughout|all the way|to the foot|down to))|"
                    + "full (?:leg |lower limb |peripheral )?pulses)\\b");
    private static final Pattern EVERY = Pattern.compile(
            "\\ball(?: of)?(?: the)?(?: \\d(?![+/]))?(?: (?:leg|peripheral|lower limb|lower))?(?: pulses)?\\b");
    private static final Pattern REST = Pattern.compile(
            "\\b(?:(?:the )?(?:rest|others?|remainder|remaining)(?: of (?:the |his |her )?)?(?: ?pulses?)?|everything else|(?<=nothing )else)\\b"
                    + "(?! (?:leg|foot|side|limb|pain|is well))");

    private static final String NEITHER_LEG =
            "\\bneither (?=(?:of the )?(?:femoral|popliteal|dp|postib)s?(?: pulses?)?(?! ?(?:nor|or|and|/|,)))";
    private static final Pattern NEITHER =
            Pattern.compile(NEITHER_LEG + "|\\bneither (?:is |are |was |were |could be |can be )?(?:palpable|felt)\\b");

    private static final String FEEL =
            "(?:felt|palpa(?:ble|ted)|present|detect(?:ed|able)|found|located|discernible|there|made out)";
    private static final String ABSENT = "(?:isn't|not|could not be|cannot be|can't be|never|no longer) "
            + "(?:readily |easily |clearly |convincingly |really |reliably |at all |be )*" + FEEL
            + "|non[- ]?palpable|nonpalpable|impalpable|unpalpable|unfelt"
            + "|cannot (?:really |be able to )?(?:feel|find|palpate|detect|get|locate)(?: (?:any|a|the|either))?"
            + "|(?:failed|not able|unable|impossible) to (?:feel|find|palpate|detect|be felt)(?: (?:any|a|the))?"
            + "|absent|(?<=foot )pulseless|missing|lost|gone|pulseless(?= below)|not(?= ?(?:[.,;)]|$))|not(?= (?:on |in )?(?:the )?(?:left|right)(?: leg| side| foot)? ?(?:[.,;)]|$))|isn't(?= ?(?:[.,;)]|$))|not(?= (?:the |his |her |a |any )?(?:left |right |bilateral )?(?:femoral|popliteal|dp|postib|pedal)\\b)|nil|nothing|none|neither|no|0(?:/[1-4])?(?![\\d/+]|\\.\\d| ?mmhg)";
    private static final String WEAK =
            "(?:almost|nearly|virtually|all but) (?:absent|gone|lost|impalpable|imperceptible)|(?:very |rather |quite |only )?(?:weak(?:er|ly|ened)?|diminished|faint(?:ly)?|reduced|"
                    + "feeble|thready|poor(?:ly)?|decreased|trace|dampened|attenuated|barely|scarcely|just about|just|hardly)"
                    + "(?: (?:felt|palpable|present|there))?|(?:difficult|hard) to (?:feel|find|palpate)|1\\+|1/[234](?!/)|tr";
    private static final String PRESENT =
            "(?:has|there is|there was|there's) (?:a|an)(?= (?:good |palpable |strong |left |right )*(?:femoral|popliteal|dp|postib|pedal) pulse)|"
                    + "(?:easily |readily |clearly |strongly |well |still )?(?:palpable|present|felt|palpated)|"
                    + "(?:can|could) (?:easily |just |readily |clearly |still )?(?:feel|palpate|be felt)|easy to (?:find|feel)|easily found|"
                    + "good|full|strong(?:ly)?|bounding|brisk|excellent|(?<!skin )intact|fine|ok|okay|(?:are|is|were) (?:all |both )?there|"
                    + "normal|grand|lovely|the only (?:palpable )?pulse|(?<=(?:pulse|dp|postib|femoral|popliteal) )only(?= ?(?:[.,;)]|$))|[234]\\+|[234]/[34](?!/)";
    private static final Pattern FELT =
            Pattern.compile("\\b(?:(?<absent>" + ABSENT + ")|(?<weak>" + WEAK + ")|(?<present>"
                    + PRESENT + "))(?![a-z\\d])"
                    + "|(?<minus>(?<=(?:femoral|popliteal|pedal|dp|postib|pulse|left|right) )-(?= ?(?:[,;./]|left|right|on the |in the |$))|(?<=(?:femoral|popliteal|pedal|dp|postib|pulse) )-(?= ?(?:dp|postib|popliteal|femoral|pedal)\\b)|(?<=(?:left|right))-(?= ?(?:dp|postib|popliteal|femoral|pedal)\\b)|(?<=[a-z])-(?=[,; ]|$)(?! \\d)|(?<=[:=] ?)-ve)"
                    + "|(?<doubtful>(?<=[ (:=a-z])\\+/-)"
                    + "|(?<plus>(?<=[ (:=a-z])\\+(?:ve\\b)?(?: ?\\+){0,2}(?![/\\d-]))");

    private PulseWords() {}

    /** The words in their order; none lies within another. */
    static List<Word> of(Sentence sentence, Legs legs) {
        var words = new ArrayList<Word>();
        for (var mention : legs.mentions(sentence)) {
            words.add(new Word(Kind.SIDE, mention.start(), mention.end(), mention.sides(), List.of(), ""));
        }
        var plain = sentence.plain;
        var sides = List.copyOf(words);
        words.clear();
        downTo(plain, words);
        below(plain, words);
        find(WHOLE_LEG, plain, words, match -> word(Kind.PLACE, match, ALL, ""));
        find(PLACE, plain, words, match -> word(Kind.PLACE, match, places(match), ""));
        if (FEELS_FOR_PULSES.matcher(plain).find()) {
            find(FOOT_FELT, plain, words, match -> word(Kind.PLACE, match, FOOT, ""));
        }
        if (words.stream().noneMatch(word -> word.kind() == Kind.PLACE)) {
            find(PULSES_OF_FOOT, plain, words, match -> word(Kind.PLACE, match, FOOT, ""));
        }
        find(Fit.of("\\bboth\\b"), plain, words, match -> word(Kind.BOTH, match, List.of(), ""));
        find(NEITHER, plain, words, match -> word(Kind.NEITHER, match, List.of(), "absent"));
        find(REST, plain, words, match -> word(Kind.REST, match, List.of(), ""));
        find(EVERY, plain, words, match -> word(Kind.EVERY, match, List.of(), ""));
        find(FELT, plain, words, match -> word(Kind.FELT, match, List.of(), value(match)));
        find(Fit.of(";"), plain, words, match -> word(Kind.BORDER, match, List.of(), ""));
        sides.forEach(side -> addSide(side, words));
        words.sort(Comparator.comparingInt(Word::start));
        return signsThatJoin(plain, words);
    }

    /** A side within a place, as in "the pulses of the left foot", stands before it. */
    private static void addSide(Word side, List<Word> words) {
        for (var i = 0; i < words.size(); i++) {
            var word = words.get(i);
            if (word.start() <= side.start() && side.end() <= word.end()) {
                words.add(i, new Word(Kind.SIDE, word.start(), word.start(), side.sides(), List.of(), ""));
                return;
            }
        }
        words.add(side);
    }

    /** What a word for a pulse says: present, weak or absent; empty for other words. */
    static Optional<String> felt(String words) {
        var match = FELT.matcher(words);
        return match.matches() ? Optional.of(value(match)) : Optional.empty();
    }

    private interface Reading {
        Word of(Matcher match);
    }

    private static void find(Pattern pattern, String plain, List<Word> words, Reading reading) {
        var match = pattern.matcher(plain);
        while (match.find()) {
            var start = match.start();
            var end = match.end();
            if (words.stream().noneMatch(word -> word.start() < end && start < word.end())) {
                words.add(reading.of(match));
            }
        }
    }

    private static Word word(Kind kind, Matcher match, List<String> places, String value) {
        return new Word(kind, match.start(), match.end(), EnumSet.noneOf(Side.class), places, value);
    }

    private static List<String> places(Matcher match) {
        return match.group("f") != null
                ? ALL.subList(0, 1)
                : match.group("p") != null
                        ? ALL.subList(1, 2)
                        : match.group("dp") != null
                                ? ALL.subList(2, 3)
                                : match.group("pt") != null ? ALL.subList(3, 4) : FOOT;
    }

    private static void downTo(String plain, List<Word> words) {
        find(
                DOWN_TO,
                plain,
                words,
                match -> word(
                        Kind.DOWN_TO,
                        match,
                        ALL.subList(0, Fit.matches(match.group("level"), "popliteal|knee") ? 2 : 1),
                        "present"));
    }

    private static void below(String plain, List<Word> words) {
        find(NOTHING_BELOW, plain, words, match -> word(Kind.BELOW, match, List.of(), ""));
        find(BELOW, plain, words, match -> {
            var level = match.group("level");
            return word(
                    Kind.BELOW,
                    match,
                    level == null
                            ? List.of()
                            : Fit.matches(level, "(?:knee|popliteal|ankle).*") ? FOOT : ALL.subList(1, 4),
                    level != null && Fit.matches(level, "(?:femoral|groin|inguinal|cfa).*")
                            ? "femoral"
                            : level != null && level.startsWith("popliteal") ? "popliteal" : "");
        });
    }

    private static String value(Matcher match) {
        if (match.group("absent") != null || match.group("minus") != null) {
            return "absent";
        }
        return match.group("weak") != null || match.group("doubtful") != null ? "weak" : "present";
    }

    /**
     * "DP + PT weak" joins two places, "fem + pop - DP -" tells what was felt: a lone plus between two places is a sign of
     * what was felt only where other signs are given that way.
     */
    private static List<Word> signsThatJoin(String plain, List<Word> words) {
        var signs = words.stream()
                .anyMatch(word -> word.kind() == Kind.FELT
                        && (plain.charAt(word.start()) == '-' || plain.charAt(word.start()) == '0'));
        if (signs) {
            return words;
        }
        var left = new ArrayList<Word>();
        for (var i = 0; i < words.size(); i++) {
            var word = words.get(i);
            var joins = word.kind() == Kind.FELT
                    && plain.substring(word.start(), word.end()).equals("+")
                    && plain.charAt(word.start() - 1) == ' '
                    && i > 0
                    && words.get(i - 1).kind() == Kind.PLACE
                    && i + 1 < words.size()
                    && words.get(i + 1).kind() == Kind.PLACE
                    && plain.substring(word.end(), words.get(i + 1).start()).isBlank();
            if (!joins) {
                left.add(word);
            }
        }
        return left;
    }
}
