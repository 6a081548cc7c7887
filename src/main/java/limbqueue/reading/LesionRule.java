package limbqueue.reading;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Narrowed, blocked and widened arteries that an examination has shown. A healthy artery is no lesion. */
final class LesionRule implements Rule {

    private static final Pattern DISEASE = Pattern.compile(
            "\\b(?:(?:re-?)?stenosis|(?:re)?occlusion|(?:re)?stenosed|aneurysm|in-?stent|thrombosed|(?:re)?blocked)\\b");
    private static final Pattern PERCENT = Pattern.compile(
            "(?<![\\d.])(?:(?<lo>\\d{1,3}) ?%? ?(?:-|to|–) ?)?(?<hi>\\d{1,3}) ?(?:%|percent|per cent)(?! ?(?:on air|slope|incline|gradient|saturation))");
    private static final Pattern LENGTH = Pattern.compile(
            "(?<![\\d.])(?<n>\\d{1,3}(?:\\.\\d)?)(?: ?- ?| )?(?<u>cm|mm|centimetres?|millimetres?)(?:[ -](?:long|in length|length|segment|occlusion|stenosis|lesion|chronic|flush|total|focal|short|calcified|heavily|diffuse|of|tight|severe|mid|left|right|sfa|cia|eia|popliteal))?|(?:length(?: of)?|over(?: a length of)?|extending(?: over)?|measuring|for|spanning|along)(?: about| approximately)? ?[:=]? ?(?<n2>\\d{1,3}(?:\\.\\d)?)(?: ?- ?| )?(?<u2>cm|mm)\\b");
    private static final Pattern DIAMETER = Pattern.compile(
            "\\b(?:reference(?: vessel)?(?: diameter)?|vessel(?: diameter)?|diameter|calibre|caliber|diam|rvd)(?: of| is| was|:|=| the vessel| about| approximately)* ?(\\d{1,2}(?:\\.\\d)?) ?mm\\b|(?<![\\d.])(\\d{1,2}(?:\\.\\d)?) ?mm (?:(?:in )?diameter|reference|vessel|calibre|across|wide)\\b");
    private static final Pattern SEVERE = Pattern.compile(
            "\\b(?:(?:heav(?:il)?y|severe(?:ly)?|dense(?:ly)?|extensive(?:ly)?|marked(?:ly)?|bulky|circumferential(?:ly)?|gross(?:ly)?|very)[ -](?:\\w+[ -])?(?:calcified|calcium)|calcified (?:is |was )?(?:severe|heavy|heavily|dense)|(?:coral reef)|calcified \\+\\+\\+?)\\b");
    private static final Pattern MODERATE = Pattern.compile(
            "\\b(?:moderate(?:ly)?[ -](?:\\w+ )?(?:calcified|calcium)|calcified (?:is |was )?moderate|some calcified|calcified ?:? ?moderate)\\b");
    private static final Pattern NO_CALCIUM = Pattern.compile(
            "\\b(?:no(?: significant| visible)? (?:calcified|calcium)|non[- ]?calcified|without (?:calcified|calcium)|not calcified|isn't calcified|uncalcified|calcified ?:? ?(?:none|nil|absent)|soft plaque)\\b");
    private static final Pattern OSTIAL = Pattern.compile(
            "\\b(?:ostial|ostium|(?:at|from|of) (?:the|its) (?:very )?(?:origin|ostium)|origin(?! of the (?:ulcer|pain))|flush|from its take-?off)\\b");
    private static final Pattern NOT_OSTIAL = Pattern.compile(
            "\\b(?:not (?:ostial|at (?:the|its) origin|flush)|non[- ]ostial|spar(?:es|ing) the (?:origin|ostium)|origin (?:is )?(?:spared|patent|free|open))\\b");
    private static final Pattern IN_STENT = Pattern.compile(
            "\\b(?:in[ -]?stent|inside (?:the|a|his|her) (?:\\w+ )?stent|within (?:the|a|his|her) (?:\\w+ )?stent|(?:the |his |her )?stent (?:is |was |has |now |has now |in the (?:left |right )?\\w+ (?:is |has )?)*(?:occlusion|occludes|stenosis|blocked|closed|thrombosed)|(?:occlusion|blocked|stenosis) (?:of (?:the |his |her )?)?(?:\\w+ ){0,2}stent|stent (?:re)?(?:stenosis|occlusion)|isr)\\b");
    private static final Pattern AGE = Pattern.compile(
            "\\b(?:(?<n>\\d{1,3})[- ](?:month)s?[- ]old|occlusion (?:is )?(?:about |of )?(?<n2>\\d{1,3}) months? (?:old|age))\\b");
    private static final Pattern PATENT = Pattern.compile(
            "^[^,;.]{0,60}?\\b(?:patent|normal|widely|unremarkable|free of disease|no (?:significant |haemodynamically significant |flow[- ]limiting |focal )*(?:stenosis|occlusion|disease|lesion)|without (?:significant |any )?(?:stenosis|disease)|clear|open|disease[- ]free|good|healthy|mild(?:ly)? disease\\w*|minor|preserved|intact|reconstitut\\w+|refills?|opacif\\w+|runs? off)\\b");
    private static final Pattern SEEN = Pattern.compile(
            "\\b(?:duplex|cta|mra|angiogram|scan|imaging|shows?|showed|showing|shown|demonstrat\\w*|reveal\\w*|found|report\\w*|confirm\\w*|has|with|known|findings?|impression|there is|seen|which|full|occlusion|stenosis|aneurysm|\\d ?%|right|left)\\b");
    private static final Pattern TREATED = Pattern.compile(
            "\\b(?:angioplasty|stent(?! (?:is|has|now|was|occlu|steno|re))|bypass(?! (?:is|has|now|was|occlu|graft (?:is|has|occlu)))|endarterectomy|thrombectomy|recanali\\w+|cross(?:ed|ing)?)\\b");

    @Override
    public void read(Page page, Findings findings) {
        var source = Optional.<String>empty();
        var sourceParagraph = -9;
        var sourceAt = -9;
        Set<Side> heading = Set.of();
        var report = page.sentences.stream()
                .anyMatch(sentence -> Fit.matches(
                        sentence.plain, "(?s)(?:findings|impression|technique|comparison|indication)\\b.*"));
        for (var sentence : page.sentences) {
            var named = source(sentence);
            if (named.isPresent()) {
                source = named.filter(kind -> !kind.isEmpty());
                sourceParagraph = sentence.paragraph;
                sourceAt = sentence.number;
            } else if (!report && sentence.paragraph > sourceParagraph + (sentence.number - sourceAt > 8 ? 0 : 3)
                    || !report && ends(sentence)) {
                source = Optional.empty();
            }
            if (sentence.section == Sentence.Section.FAMILY || sentence.section == Sentence.Section.PLAN) {
                continue;
            }
            heading = headed(sentence, heading);
            read(page, sentence, source, heading, findings);
        }
    }

    private static boolean ends(Sentence sentence) {
        return Fit.matches(
                        sentence.plain,
                        "(?s).*\\b(?:abi|claudication|rest pain|medication|allergy|smok\\w+|diabetes|he (?:takes|is)|she (?:takes|is))\\b.*")
                && !DISEASE.matcher(sentence.plain).find();
    }

    private static Set<Side> headed(Sentence sentence, Set<Side> before) {
        var match = Fit.of("^(?:[*#-] ?|\\d[.)] ?)?(left|right)(?: leg| side| lower limb| limb)? ?[:-]")
                .matcher(sentence.plain);
        if (match.find()) {
            return EnumSet.of(match.group(1).equals("left") ? Side.LEFT : Side.RIGHT);
        }
        return Fit.matches(sentence.plain, "(?s)(?:impression|conclusion|indication|clinical|history)\\b.*")
                ? Set.of()
                : before;
    }

    /** Which examination a sentence speaks of; empty text for one that is only planned. */
    private static Optional<String> source(Sentence sentence) {
        var match = Fit.of("\\b(?:duplex|cta|mra|angiogram|(?<!coronary )cat scan)\\b")
                .matcher(sentence.plain);
        var last = Optional.<String>empty();
        while (match.find()) {
            var planned = Polarity.of(sentence, match) == Polarity.OPEN
                    || ImagingRule.isPlanned(sentence, match.start(), match.end());
            if (planned && last.isPresent()) {
                continue;
            }
            last = Optional.of(planned ? "" : match.group());
        }
        return last;
    }

    private static void read(
            Page page, Sentence sentence, Optional<String> source, Set<Side> heading, Findings findings) {
        var plain = sentence.plain;
        if (!DISEASE.matcher(plain).find()
                && !(plain.contains("%")
                        && !Segments.in(plain, 0, plain.length()).isEmpty())
                && !Fit.matches(plain, "(?s).*\\boccl.*")) {
            return;
        }
        var segments = Segments.in(plain, 0, plain.length());
        for (var i = 0; i < segments.size(); i++) {
            lesion(page, sentence, segments, i, source, heading, findings);
        }
    }

    private static void lesion(
            Page page,
            Sentence sentence,
            List<Segments.Named> segments,
            int i,
            Optional<String> source,
            Set<Side> heading,
            Findings findings) {
        var plain = sentence.plain;
        var segment = segments.get(i);
        var from = i == 0 ? 0 : segments.get(i - 1).end();
        var to = i + 1 < segments.size() ? segments.get(i + 1).start() : plain.length();
        var clauseFrom = Math.max(from, lastBorder(plain, from, segment.start()));
        var clauseTo = Math.min(to, firstBorder(plain, segment.end(), to));
        var after = plain.substring(segment.end(), clauseTo);
        var before = plain.substring(clauseFrom, segment.start());
        // "Occlusion of the left CIA and EIA", "CIA and EIA occluded": the words are shared along the list.
        var shared = i + 1 < segments.size()
                && Fit.matches(
                        plain.substring(segment.end(), segments.get(i + 1).start()),
                        " ?(?:,|/|and|&|\\+|to|, and)? ?(?:the )?(?:left |right |distal |proximal |mid )*")
                && !plain.substring(segment.end(), segments.get(i + 1).start()).isEmpty();
        if (shared) {
            var last = i + 1;
            while (last + 1 < segments.size()
                    && Fit.matches(
                            plain.substring(
                                    segments.get(last).end(),
                                    segments.get(last + 1).start()),
                            " ?(?:,|/|and|&|\\+|, and)? ?(?:the )?(?:left |right )*")) {
                last++;
            }
            var end = last + 1 < segments.size() ? segments.get(last + 1).start() : plain.length();
            after = plain.substring(
                    segments.get(last).end(),
                    firstBorder(plain, segments.get(last).end(), end));
        }
        var piece = before + plain.substring(segment.start(), segment.end()) + after;
        if (PATENT.matcher(after).find() && !Fit.matches(after, "(?s).{0,20}\\b(?:occlusion|\\d+ ?%|stenosis \\d).*")
                || Fit.matches(
                        before,
                        "(?s).*\\b(?:patent|normal|no (?:\\w+ )?(?:stenosis|occlusion|disease)(?: in| of)?(?: the)?) ?(?:left |right )?$")) {
            return;
        }
        var occlusion = Fit.of("\\b(?:(?:re)?occlusion|occludes|blocked|thrombosed|closed)\\b")
                .matcher(piece);
        var percent = PERCENT.matcher(after);
        var percentBefore = PERCENT.matcher(before);
        var hasAfter = percent.find() && percent.start() < 70;
        var hasBefore = !hasAfter && lastMatch(percentBefore) && before.length() - percentBefore.end() < 45;
        var aneurysm = Fit.matches(
                        after,
                        "(?s)(?: artery)? ?(?:is |has an? |with an? |shows an? )?(?:\\d+ ?(?:mm|cm) )?aneurysm.*")
                || Fit.matches(before, "(?s).*\\baneurysm of (?:the )?(?:left |right |bilateral )?(?:\\w+ )?")
                || segment.segment().equals("infrarenalAorta")
                        && Fit.matches(
                                plain.substring(segment.start(), Math.min(plain.length(), segment.end() + 20)),
                                "(?s)infrarenal aortic? ?aneurysm.*");
        var stenosis = Fit.matches(piece, "(?s).*\\bstenosis\\b.*");
        var occluded = occlusion.find()
                && !Fit.matches(piece, "(?s).*\\b(?:no|without|not|sub ?-?total|near)[- ](?:\\w+ )?occlusion\\b.*");
        if (!occluded && !hasAfter && !hasBefore && !aneurysm && !stenosis) {
            return;
        }
        if (Fit.matches(
                                after,
                                "(?s) ?(?:pulse|bypass|angioplasty|stent (?!is|has|now|occlu|steno)|endarterectomy|to ).*")
                        && !Fit.matches(after, "(?s).*\\b(?:occlusion|\\d ?%|stenosis)\\b.*")
                || Fit.matches(plain.substring(segment.end()), "(?s) (?:pulse|pulses|bypass|vein)\\b.*")
                || Fit.matches(
                        plain.substring(0, segment.start()),
                        "(?s).*\\b(?:renal|carotid|coronary|mesenteric|spinal|aortic valve) .{0,10}")) {
            return;
        }
        if (aneurysm && !occluded && Fit.matches(after, "(?s).*\\b(?:ligated|repaired|excluded|bypassed|resected)\\b.*")
                || isNotFound(sentence, segment, piece, clauseFrom)
                || TREATED.matcher(after).find() && !occluded && !hasAfter) {
            return;
        }
        var sides = sides(page, sentence, segment, heading, clauseFrom, clauseTo);
        if (sides.isEmpty() && !segment.segment().equals("infrarenalAorta")) {
            if (!occluded && !hasAfter && !hasBefore) {
                return;
            }
            return;
        }
        if (aneurysm
                        && !occluded
                        && !hasAfter
                        && source.filter(kind -> !kind.isEmpty()).isEmpty()
                        && page.legs.mentions(sentence).isEmpty()
                || segment.segment().equals("infrarenalAorta")
                        && aneurysm
                        && !(Fit.matches(plain, "(?s).*\\b(?:cta|mra|duplex|infrarenal)\\b.*")
                                && source.filter(kind -> !kind.isEmpty()).isPresent())) {
            return;
        }
        var start = Math.max(clauseFrom, sideStart(clauseFrom, segment.start(), before));
        var end = Math.max(segment.end(), wordsEnd(plain, segment.end(), clauseTo, shared));
        var words = sentence.span(start, end);
        var values = segment.segment().equals("infrarenalAorta")
                ? List.of(Optional.<Side>empty())
                : sides.stream().sorted().map(Optional::of).toList();
        for (var side : values) {
            if (isKnown(findings, segment.segment(), side)) {
                continue;
            }
            var entry = findings.add("lesions");
            side.ifPresent(known -> entry.put("side", known.word, words));
            entry.put("segment", segment.segment(), words);
            if (hasAfter && !(occluded && occlusion.start() < before.length() + 30)) {
                entry.put("stenosisPercent", higher(percent), words);
            } else if (hasBefore && !occluded) {
                entry.put("stenosisPercent", higher(percentBefore), words);
            } else if (occluded) {
                entry.put("stenosisPercent", 100, words);
            }
            details(entry, words, before, after, plain.substring(segment.start(), segment.end()), aneurysm);
            source.filter(kind -> !kind.isEmpty()).ifPresent(kind -> entry.put("source", kind, words));
        }
    }

    private static boolean lastMatch(java.util.regex.Matcher match) {
        var end = -1;
        var found = false;
        while (match.find()) {
            found = true;
            end = match.start();
        }
        return found && match.find(end);
    }

    private static int higher(java.util.regex.Matcher percent) {
        var high = Integer.parseInt(percent.group("hi"));
        return Math.min(
                100, percent.group("lo") == null ? high : Math.max(high, Integer.parseInt(percent.group("lo"))));
    }

    private static boolean isNotFound(Sentence sentence, Segments.Named segment, String piece, int from) {
        var at = Math.max(from, segment.start() - 1);
        return Polarity.isOthers(sentence, segment.start(), segment.end())
                || Polarity.isOpen(sentence, segment.start())
                || Polarity.isDenied(sentence, segment.start(), segment.end())
                        && !Fit.matches(piece, "(?s).*\\b(?:occlusion|occludes|\\d+ ?%)\\b.*")
                || Fit.matches(
                        sentence.plain.substring(from, segment.start()),
                        "(?s).*\\bno (?:\\w+ ){0,3}(?:stenosis|occlusion|aneurysm)\\b.*")
                || at < 0;
    }

    private static boolean isKnown(Findings findings, String segment, Optional<Side> side) {
        return findings.entries("lesions").stream()
                .anyMatch(entry -> entry.text("segment").equals(Optional.of(segment))
                        && entry.text("side").equals(side.map(known -> known.word)));
    }

    private static int lastBorder(String plain, int from, int to) {
        var match = Fit.of(
                        "; ?|\\. |, (?=(?:the |a |an )?(?:left|right|with|and|but)\\b)|, and | but | while | whereas |: | and (?=(?:the |a |an )?(?:left|right|\\d+ ?%|occlusion|stenosis))")
                .matcher(plain)
                .region(from, to);
        var at = from;
        while (match.find()) {
            at = match.end();
        }
        return at;
    }

    private static int firstBorder(String plain, int from, int to) {
        var match = Fit.of(
                        ";|\\. |, (?=(?:the |a |an )?(?:left|right|but|and (?:the|left|right))\\b)| but | while | whereas | and (?=(?:the |a |an )?(?:left|right|\\d+ ?%|occlusion|stenosis|tight|severe|short|long|\\d+(?:\\.\\d)? ?(?:cm|mm)))")
                .matcher(plain)
                .region(from, to);
        return match.find() ? match.start() : to;
    }

    private static int sideStart(int from, int start, String before) {
        var match = Fit.of(
                        "(?:\\b(?:left|right|bilateral|in-?stent|stenosis|(?:re)?stenosis|(?:re)?occlusion|aneurysm|ostial|\\d+ ?%?)\\b.*)$")
                .matcher(before);
        return match.find() ? from + match.start() : start;
    }

    private static int wordsEnd(String plain, int end, int to, boolean shared) {
        if (shared) {
            return end;
        }
        var match = Fit.of("\\b(?:occlusion|occludes|blocked|stenosis|aneurysm|%|percent)")
                .matcher(plain)
                .region(end, to);
        var last = end;
        while (match.find() && match.end() - end < 60) {
            last = match.end();
        }
        return last;
    }

    private static Set<Side> sides(
            Page page, Sentence sentence, Segments.Named segment, Set<Side> heading, int from, int to) {
        var plain = sentence.plain;
        var just = Fit.of("\\b(left|right|bilateral)\\b(?: (?!left|right)[\\w-]+){0,4} ?$")
                .matcher(plain.substring(from, segment.start()));
        if (just.find()) {
            return of(just.group(1));
        }
        var behind = Fit.of(
                        "^[^,;.]{0,45}?\\b(left|right|bilateral)\\b(?! (?:cia|eia|iia|sfa|cfa|popliteal|common|external|pfa))")
                .matcher(plain.substring(segment.end(), to));
        if (behind.find()) {
            return of(behind.group(1));
        }
        var earlier = Fit.of("\\b(left|right|bilateral)\\b").matcher(plain.substring(0, segment.start()));
        Set<Side> last = Set.of();
        while (earlier.find()) {
            last = of(earlier.group(1));
        }
        if (!last.isEmpty()) {
            return last;
        }
        if (!heading.isEmpty()) {
            return heading;
        }
        var place = page.legs.carriedTo(sentence);
        return place.sides().size() == 1 ? place.sides() : Set.of();
    }

    private static Set<Side> of(String word) {
        return word.equals("bilateral") ? Side.both() : EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT);
    }

    private static void details(
            Findings.Entry entry, Span words, String before, String after, String name, boolean aneurysm) {
        var piece = before + name + after;
        if (NO_CALCIUM.matcher(piece).find()) {
            entry.put("calcification", "none", words);
        } else if (SEVERE.matcher(piece).find()) {
            entry.put("calcification", "severe", words);
        } else if (MODERATE.matcher(piece).find()) {
            entry.put("calcification", "moderate", words);
        }
        if (NOT_OSTIAL.matcher(piece).find()) {
            entry.put("ostial", false, words);
        } else if (OSTIAL.matcher(piece).find()) {
            entry.put("ostial", true, words);
        }
        if (IN_STENT.matcher(piece).find()) {
            entry.put("inStent", true, words);
        }
        var diameter = DIAMETER.matcher(piece);
        if (aneurysm) {
            entry.put("aneurysm", true, words);
            return;
        }
        var rest = piece;
        if (diameter.find()) {
            var text = diameter.group(1) != null ? diameter.group(1) : diameter.group(2);
            entry.put("diameterMm", new BigDecimal(text), words);
            rest = piece.substring(0, diameter.start()) + " " + piece.substring(diameter.end());
        }
        length(rest, entry, words);
        var age = AGE.matcher(piece);
        if (age.find()) {
            entry.put("ageMonths", Integer.valueOf(age.group("n") != null ? age.group("n") : age.group("n2")), words);
        }
    }

    private static void length(String piece, Findings.Entry entry, Span words) {
        var length = LENGTH.matcher(piece);
        var found = new ArrayList<BigDecimal>();
        while (length.find()) {
            if (Fit.matches(piece.substring(0, length.start()), "(?s).*\\d ?(?:-|to) ?$")
                    || Fit.matches(
                            piece.substring(length.end()),
                            "(?s) ?(?:diameter|wide|across|below|above|from|distal|proximal|lumen|balloon|stent).*")) {
                continue;
            }
            var number = new BigDecimal(length.group("n") != null ? length.group("n") : length.group("n2"));
            var unit = length.group("n") != null ? length.group("u") : length.group("u2");
            found.add(unit.startsWith("mm") || unit.startsWith("milli") ? number : number.multiply(BigDecimal.TEN));
        }
        if (found.size() == 1 && found.getFirst().doubleValue() <= 600) {
            entry.put("lengthMm", found.getFirst(), words);
        }
    }

    static boolean isSeen(String words) {
        return SEEN.matcher(words).find();
    }
}
