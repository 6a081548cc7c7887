package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Tells which leg words speak of: by the side that stands with them, in their sentence, or in the sentences before. */
final class Legs {

    /** Which legs, and how well that is founded. */
    record Place(Set<Side> sides, Findings.Ground ground) {
        boolean known() {
            return !sides.isEmpty();
        }
    }

    /** A side named in a sentence. */
    record Mention(int start, int end, Set<Side> sides) {
        boolean single() {
            return sides.size() == 1;
        }
    }

    static final Place UNKNOWN = new Place(Set.of(), Findings.Ground.CARRIED);

    private static final Pattern SIDE = Pattern.compile(
            "\\b(?:(bilateral|"
                    + "left(?: (?:leg|side|calf|foot))?,? (?:being |is |are |was |much |rather |slightly |a little )*(?:worse|greater|more severe|more so|more) than (?:on |in )?(?:the )?right|"
                    + "right(?: (?:leg|side|calf|foot))?,? (?:being |is |are |was |much |rather |slightly |a little )*(?:worse|greater|more severe|more so|more) than (?:on |in )?(?:the )?left|"
                    + "left ?(?:and|&|\\+|>|<|=|/|or) ?right|right ?(?:and|&|\\+|>|<|=|/|or) ?left)|contralateral|(left|right))\\b(?!-? ?hand(?:ed)? )");

    private static final Pattern NOT_A_LEG = Pattern.compile(
            "^(?:[ -](?:sided|side|the|of|upper|internal|middle|common|heart|distal|proximal|main|mid|hemi)){0,3}[ -]?(?:[a-z]+ ){0,1}(?:arm|hand|wrist|shoulder|elbow|finger|thumb|radial|brachial|brachio\\w*|subclavian|axilla\\w*|kidney|renal|nephr\\w+|eye|ear|breast|mastectomy|"
                    + "lung|lobe|lobectomy|carotid|ventric\\w*|atri\\w+|hemisphere|hemi\\w+|mca|cva|stroke|tia|mammary|ima|thoracic|coronary|circumflex|jugular|extremity weakness|forearm|face|facial|hip replacement|hip(?! (?:and|or|/) (?:buttock|thigh|calf)| (?:pain|ache|claudication))|knee replacement|tkr|"
                    + "inguinal hernia|hernia|bundle|handed|adrenal|pneumo\\w*|cataract|cerebral|hemicolectomy|colectomy|weakness|limb weakness|main stem|anterior descending|lad|fistula|av fistula|avf|groin (?:access|puncture|approach|hernia)|iliac fossa|flank|chest|vertebral|retina\\w*|testic\\w+|ovar\\w+|ureter\\w*|parotid|clavicle|humerus|ribs?)\\b");

    private static final Pattern WORD_ONLY = Pattern.compile(
            "^ (?:away|now|after|at the|up to|down to|thing|answer|to (?:be|refer|ask|say)|him|her (?:with|in|unable)|without|us|untreated|hospital|message|school|it (?:too|late|alone)|alone|bundle|with (?:a|the)|for (?:the|a|his|her)|handed)\\b");

    /** "More than the left": the other leg only by comparison. */
    private static final Pattern COMPARED = Pattern.compile(
            "\\b(?:than|unlike|compared (?:with|to)|as (?:good|bad|well) as)(?: that)? (?:on |in |of )?(?:the |his |her )?$");

    /** A place or quality that may stand between a side and the finding that the side belongs to. */
    private static final Pattern JOINED = Pattern.compile(
            "(?:[ -]+(?!and\\b|or\\b|but\\b|with\\b|has\\b|had\\b|have\\b|is\\b|was\\b|are\\b|then\\b|no\\b|not\\b|without\\b|denies\\b|than\\b)(?:\\d\\.\\d+|[a-z\\d'/]+)){0,5}[ -]*(?:of )?[( ]*");

    /** The sides of arms whose pressures follow: "arms: right 140, left 146". */
    private static final Pattern OF_ARMS = Pattern.compile(
            "\\b(?:arm|brachial)s?(?: (?:bps?|blood pressures?|pressures?|systolics?))* ?[:=,-]? ?(?:(?:were|was|of|measured|gave) )?"
                    + "(?:(?:on|in) )?(?:the )?(?:(?:left|right) ?[:=]? ?\\d{2,3}(?:/\\d{2,3})?(?: ?mmhg)?[ ,;/]*(?:and )?|\\d{2,3}(?: ?mmhg)?[ ,;/]*(?:and )?(?:on |in )?(?:the )?(?:(?:left|right)[ ,;/]*(?:and )?\\d{2,3} (?:on |in )?(?:the )?)?)?$");

    private static final Pattern SUBJECT = Pattern.compile(
            "^(?:[*#-] ?)?(?:on |in |re |re: |o/e |the |his |her |on the |in the |of the )*(left|right|bilateral)\\b(?: (?:lower )?(?:leg|foot|side|calf|heel|forefoot|toe|limb|great toe|thigh|ankle|lower limb))?(?: ?[:=-] ?| ?, ?| )");

    private final List<Sentence> sentences;
    private final List<List<Mention>> mentions = new ArrayList<>();
    private final List<Set<Side>> carried = new ArrayList<>();
    private final List<Boolean> headed = new ArrayList<>();
    private final Optional<Side> only;

    Legs(List<Sentence> sentences) {
        this.sentences = sentences;
        Set<Side> carry = EnumSet.noneOf(Side.class);
        var all = EnumSet.noneOf(Side.class);
        var heading = EnumSet.noneOf(Side.class);
        var headingParagraph = -1;
        for (var sentence : sentences) {
            if (sentence.paragraph != headingParagraph
                    && headingParagraph >= 0
                    && sentence.paragraph > headingParagraph + 1) {
                heading.clear();
            }
            headed.add(!heading.isEmpty());
            carried.add(heading.isEmpty() ? carry : EnumSet.copyOf(heading));
            var found = find(sentence, carry);
            mentions.add(found);
            var named = EnumSet.noneOf(Side.class);
            found.forEach(mention -> named.addAll(mention.sides()));
            if (!named.isEmpty()) {
                all.addAll(named);
                var split = found.stream().anyMatch(Mention::single) && named.size() == 2;
                var unseen = Fit.matches(
                        sentence.plain,
                        "(?s).*\\b(?:hasn't (?:been )?(?:looked|seen|examined)|not (?:been )?(?:looked|examined|seen)|isn't examined|unremarkable|looks fine|is fine|is normal)\\b.*"
                                + "|(?s).*\\b(?:had|previous(?:ly)?|old|history of)\\b[^.;]*\\b(?:healed|years? ago|(?:19|20)\\d\\d)\\b.*");
                carry = unseen ? carry : split ? last() : named;
            }
            if (Fit.matches(sentence.plain, "(?:[*#-] ?)?(?:left|right|bilateral)(?: leg| foot| limb| side)? ?:?")) {
                heading = EnumSet.copyOf(named.isEmpty() ? EnumSet.noneOf(Side.class) : named);
                headingParagraph = sentence.paragraph;
            } else if (!named.isEmpty()) {
                heading.clear();
            }
        }
        only = all.size() == 1 ? Optional.of(all.iterator().next()) : Optional.empty();
    }

    /** After a sentence about both legs one by one, nothing said later belongs to one of them. */
    private static Set<Side> last() {
        return EnumSet.noneOf(Side.class);
    }

    private static List<Mention> find(Sentence sentence, Set<Side> carry) {
        var plain = sentence.plain;
        var found = new ArrayList<Mention>();
        if (!sentence.hasAny("left", "right", "lateral")) {
            return found;
        }
        var side = SIDE.matcher(plain);
        while (side.find()) {
            var after = plain.substring(side.end(), Math.min(plain.length(), side.end() + 50));
            var before = plain.substring(Math.max(0, side.start() - 40), side.start());
            if (NOT_A_LEG.matcher(after).find()
                    || isWordOnly(before, after, side.group())
                    || COMPARED.matcher(before).find() && !Fit.matches(after, "(?s),? (?:which|where)\\b.*")
                    || (before.contains("arm") || before.contains("brachial"))
                            && OF_ARMS.matcher(before).find()) {
                continue;
            }
            Set<Side> sides;
            if (side.group(1) != null) {
                sides = Side.both();
            } else if (side.group(2) != null) {
                sides = EnumSet.of(side.group(2).equals("left") ? Side.LEFT : Side.RIGHT);
            } else {
                var last = found.isEmpty() ? carry : found.getLast().sides();
                if (last.size() != 1) {
                    continue;
                }
                sides = EnumSet.of(last.iterator().next().other());
            }
            found.add(new Mention(side.start(), side.end(), sides));
        }
        return found;
    }

    private static boolean isWordOnly(String before, String after, String side) {
        if (side.equals("left")) {
            if (Fit.matches(before, "(?s).*\\b(?:the|his|her|on|of|in|and|or|to) ")) {
                return false;
            }
            return WORD_ONLY.matcher(after).find()
                            && (Fit.matches(
                                            before,
                                            "(?s).*\\b(?:he|she|has|have|was|were|been|is|who|they|it|hospital|just|only|had|are) ")
                                    || after.startsWith(" him")
                                    || after.startsWith(" hospital")
                                    || after.startsWith(" untreated"))
                    || Fit.matches(
                                    before,
                                    "(?s).*\\b(?:one|been|has|he|she|they|are|is|years|nothing|little|days|weeks|artery|vessel|options?|leg) ")
                            && Fit.matches(
                                    after,
                                    "(?s)[.,;](?: |$).*|| (?:and|but|so|because|as|with|the|his|her|a|an|to|for|on|in|at|work|home|hospital|us|him|alone|now|today|yesterday)\\b.*")
                            && Fit.matches(before, "(?s).*\\b(?:been|has|he|she|they|nothing|little|one|days|weeks) ");
        }
        if (side.equals("right")) {
            return WORD_ONLY.matcher(after).find()
                    || Fit.matches(before, "(?s).*\\b(?:all|quite|not|put it|that's|alright) ")
                            && Fit.matches(after, "(?s)[.,; ].*|");
        }
        return false;
    }

    List<Mention> mentions(Sentence sentence) {
        return mentions.get(sentence.number);
    }

    /** Where a positive finding belongs. */
    Place of(Sentence sentence, int start, int end) {
        var near = near(sentence, start, end);
        if (near.known()) {
            return near;
        }
        var found = mentions(sentence);
        if (!found.isEmpty()) {
            var sides = EnumSet.noneOf(Side.class);
            found.forEach(mention -> sides.addAll(mention.sides()));
            var before =
                    found.stream().filter(mention -> mention.end() <= start).toList();
            if (!before.isEmpty()) {
                var sidesBefore = EnumSet.noneOf(Side.class);
                before.forEach(mention -> sidesBefore.addAll(mention.sides()));
                if (sidesBefore.size() == 1 || before.size() == 1) {
                    return new Place(before.getLast().sides(), Findings.Ground.SENTENCE);
                }
                return new Place(before.getLast().sides(), Findings.Ground.CARRIED);
            }
            if (found.size() == 1 || sides.size() == 1) {
                return new Place(sides, Findings.Ground.SENTENCE);
            }
            return UNKNOWN;
        }
        return carriedTo(sentence);
    }

    /** The leg that the sentences before speak of. */
    Place carriedTo(Sentence sentence) {
        var before = carried.get(sentence.number);
        if (!before.isEmpty()) {
            return new Place(before, Findings.Ground.CARRIED);
        }
        return only.map(side -> new Place(Set.of(side), Findings.Ground.CARRIED))
                .orElse(UNKNOWN);
    }

    /** The side that stands with the words themselves: inside, just before, or behind in the same piece of the sentence. */
    Place near(Sentence sentence, int start, int end) {
        var plain = sentence.plain;
        var found = mentions(sentence);
        for (var mention : found) {
            if (mention.start() >= start && mention.end() <= end) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        for (var i = found.size() - 1; i >= 0; i--) {
            var mention = found.get(i);
            if (mention.end() <= start
                    && JOINED.matcher(plain.substring(mention.end(), start)).matches()) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        var pieceEnd = sentence.pieceEnd(end);
        for (var mention : found) {
            if (mention.start() >= end && mention.start() < pieceEnd && belongsBehind(sentence, end, mention)) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        var pieceStart = sentence.pieceStart(start);
        for (var i = found.size() - 1; i >= 0; i--) {
            var mention = found.get(i);
            if (mention.end() <= start && mention.start() >= pieceStart) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        return UNKNOWN;
    }

    private static final Pattern LIST_BEFORE_SIDE =
            Pattern.compile("(?s).*\\b(?:and|with|plus|has|is|was|then|also)\\b.*");
    private static final Pattern ADVERBIAL = Pattern.compile(
            "(?s).*\\b(?:on|in|of|to|at|over|from|under)(?: the| his| her| a| each| my)?(?: (?:tip|ball|dorsum|sole|tips|plantar aspect|side|back|outer|inner|lateral|medial|aspect|of|the)){0,4} ?");

    /** Whether a side behind the words belongs to them and not to the next thing that is named. */
    private static boolean belongsBehind(Sentence sentence, int end, Mention mention) {
        var between = sentence.plain.substring(end, mention.start());
        if (between.length() > 70) {
            return false;
        }
        return !LIST_BEFORE_SIDE.matcher(between).matches()
                || ADVERBIAL.matcher(between).matches();
    }

    /** Whose denial this is: one leg's when that is named with it, else both. */
    Place ofDenial(Sentence sentence, int start, int end) {
        var plain = sentence.plain;
        var found = mentions(sentence);
        for (var mention : found) {
            if (mention.start() >= start && mention.end() <= end) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        for (var i = found.size() - 1; i >= 0; i--) {
            var mention = found.get(i);
            if (mention.end() <= start
                    && JOINED.matcher(plain.substring(mention.end(), start)).matches()) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        var pieceEnd = sentence.pieceEnd(end);
        for (var mention : found) {
            if (mention.start() >= end
                    && mention.start() < pieceEnd
                    && ADVERBIAL.matcher(plain.substring(end, mention.start())).matches()) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        for (var mention : found) {
            if (mention.start() >= end
                    && Fit.matches(plain.substring(end, mention.start()), " ?\\(?")
                    && Fit.matches(plain.substring(mention.end()), "(?s)(?: leg| foot| side)?\\)? ?[:=?\\[☐☑☒✔].*")) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        var that = Fit.of("\\b(?:that|this|the same) (?:foot|leg|side|limb|heel|toe)\\b")
                .matcher(plain)
                .region(start, Math.min(plain.length(), end + 30));
        var namedBefore =
                found.stream().filter(mention -> mention.end() <= start).toList();
        if (that.find() && !namedBefore.isEmpty()) {
            return new Place(namedBefore.getLast().sides(), Findings.Ground.WORDS);
        }
        if (that.find(start) && carriedTo(sentence).sides().size() == 1) {
            return new Place(carriedTo(sentence).sides(), Findings.Ground.WORDS);
        }
        var subject = SUBJECT.matcher(plain);
        if (subject.find()
                && subject.end() <= start
                && found.stream().noneMatch(mention -> mention.start() > subject.end(1) && mention.end() <= start)) {
            var named = found.stream()
                    .filter(mention -> mention.start() >= subject.start(1) && mention.start() <= subject.end(1))
                    .findFirst();
            if (named.isPresent()) {
                return new Place(named.get().sides(), Findings.Ground.WORDS);
            }
        }
        if (found.isEmpty() && headed.get(sentence.number)) {
            return new Place(carried.get(sentence.number), Findings.Ground.SENTENCE);
        }
        var pieceStart = sentence.clauseStart(start);
        for (var i = found.size() - 1; i >= 0; i--) {
            var mention = found.get(i);
            if (mention.end() <= start
                    && mention.start() >= pieceStart
                    && mention.start() >= sentence.pieceStart(start)) {
                return new Place(mention.sides(), Findings.Ground.WORDS);
            }
        }
        return new Place(Side.both(), Findings.Ground.GENERAL);
    }

    /** The side behind {@code end} that a finding told before it is said not to have: "left heel, none on the right". */
    private static final Pattern NONE_THERE =
            Pattern.compile("(?:nil|none|nothing) (?:on|in|of) the (?<on>left|right)\\b"
                    + "|(?:, |; |\\(|but |and |whereas |while )(?:the )?(?<has>left|right)(?: leg| foot| side| one)? ?[:=-]? ?"
                    + "(?:nil|none|has none|has not|hasn't|does not|doesn't)(?= ?[.,;)]|$)");

    private static final Pattern MEASURED =
            Pattern.compile("\\b(?:pulses?|palpable|abi|femoral|popliteal|dp|postib|doppler|stent)\\b");

    /** The leg of which the sentence says, behind {@code end}, that it does not have what was just told of the other. */
    Optional<Mention> without(Sentence sentence, int end) {
        var until = Math.min(sentence.plain.length(), end + 90);
        var none = NONE_THERE
                .matcher(sentence.plain)
                .region(end, until)
                .useTransparentBounds(true)
                .useAnchoringBounds(false);
        if (!none.find()
                || MEASURED.matcher(sentence.plain.substring(end, none.start())).find()) {
            return Optional.empty();
        }
        var word = none.group("on") == null ? none.group("has") : none.group("on");
        return Optional.of(
                new Mention(none.start(), none.end(), EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT)));
    }

    private Optional<Sentence> after(Sentence sentence) {
        return sentence.number + 1 < sentences.size()
                ? Optional.of(sentences.get(sentence.number + 1))
                : Optional.empty();
    }

    /** "He claudicates at 80 m. It is the left calf." */
    Place ahead(Sentence sentence) {
        var next = after(sentence)
                .filter(after -> Fit.matches(
                        after.plain,
                        "(?s)(?:it|this|pain|the pain|mainly|mostly|worse|always|in the|left|right|he|she|calf)\\b.*"));
        if (next.isPresent()
                && mentions(next.get()).size() == 1
                && !Fit.matches(
                        next.get().plain,
                        "(?s).*\\b(?:is|are|gives?|has|seems?) (?:\\w+ )?(?:fine|well|good|normal|no trouble|all right|alright|sound|none|ok)\\b.*")) {
            return new Place(mentions(next.get()).getFirst().sides(), Findings.Ground.CARRIED);
        }
        return UNKNOWN;
    }

    Optional<Side> only() {
        return only;
    }

    List<Sentence> sentences() {
        return sentences;
    }
}
