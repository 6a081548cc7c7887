package limbqueue.reading;

import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Ulcers and gangrene: how deep, where, since when, what they expose. */
final class WoundRule implements Rule {

    static final String WOUND =
            "(?:ulcer|wound|sore|broken area|skin break|open area|pressure (?:ulcer|sore|injury)|lesion(?= (?:on|of|over) (?:the |his |her )?(?:left |right )?(?:great |tip|toe|heel|foot|shin|ankle|malleolus))|crater)";
    private static final Pattern NAMED =
            Pattern.compile("\\b(?<!bed)(?<!cold )(?<!mouth )(?<!leg very )" + WOUND + "\\b");
    private static final Pattern NOT_SKIN = Pattern.compile(
            "\\b(?:peptic|duodenal|gastric|stomach|mouth|oral|corneal|aphthous|venous ulcer disease|cold|genital|sacral|sacrum|buttock|hand|finger|elbow|surgical|groin|throat|bleeding|plaque)\\b");
    private static final Pattern GANGRENE = Pattern.compile(
            "\\b(?:(?:dry |wet |frank |early |patchy )*gangrene|necrosis|mummified|(?:turned |gone |going |went |is |are |now |became |become |looks? |jet |completely |entirely |all )*black(?:ened|ening)?|blackened)\\b");
    private static final Pattern ESCHAR = Pattern.compile(
            "\\b(?:(?:dry|hard|stable|thick|black|leathery|necrosis|adherent) )*eschars?\\b(?! (?:was |has been )?(?:removed|debrided|excised|gone))");
    private static final Pattern DIGIT =
            Pattern.compile("\\b(?:toe|great toe|digits?|hallux|1st ray|tips of the toe)s?\\b");
    private static final Pattern LARGE_PLACE = Pattern.compile(
            "\\b(?:forefoot|midfoot|heel|whole foot|entire foot|hindfoot|(?:of|the|whole|left|right) foot|extensive|lateral foot|foot gangrene)\\b");

    private static final Pattern NO_WOUND = Pattern.compile(
            "\\b(?:no (?:\\w+ )?tissue loss|(?<!not )skin intact|(?:foot|leg|toe)(?: is| are| both)? intact(?! pulse| sensation)|bilateral foot intact|no (?:skin|foot|trophic) (?:ulcer|wound|lesion|change)s?(?: or gangrene)?|no open (?:wound|area|sore|lesion)s?|no (?:foot )?lesions|no sores?(?! throat)|foot is whole|foot whole|neither foot has (?:any |a )?(?:break|breaks|lesions?) (?:in|of|on) the skin|without (?:any )?skin (?:lesion|break|breakdown)s?)\\b");

    /** Behind the word for a wound: it is there no more. */
    private static final Pattern HEALED = Pattern.compile(
            "(?:(?! and | but )[a-z\\d ]){0,70}+(?:, (?:(?:venous|arterial|traumatic|pressure|diabetic|neuropathic|small|superficial|old), ?)?+(?:now |since |long |fully |completely |all )*+)?(?<=[ a-z\\d])(?<!un)(?<!partly )(?<!partially )(?:healed|resolved|closed)\\b"
                    + "|(?:(?! and | but )[a-z\\d ]){0,70}?(?:, (?:now|since|which|that|long|but now) )?\\b(?:(?:has|have|had|is|was|since|now|fully|completely|all|finally|eventually|long) )*+(?:healed|resolved|closed)\\b");

    private static final Pattern NOT_HEALED = Pattern.compile(
            ".{0,75}\\b(?:not|never|hasn't|isn't|un-?healed|partly|partially|almost|nearly|re-?opened|recurred|broken down|back)\\b");

    private static final Pattern EXCEPT =
            Pattern.compile("s? ?(?:seen |found |present )?(?:apart from|except|other than|save for|save)\\b");

    /** Gangrene that has gone beyond the toes. */
    private static final Pattern BEYOND_TOES = Pattern.compile(
            "\\b(?:extend\\w*|spread\\w*|reach\\w*|going|gone|up|back|tracking)(?: \\w+)? (?:(?:in|on)?to|on to|over|across|up) (?:the )?(?:forefoot|midfoot|heel|dorsum|rest of the foot|foot)\\b");

    /** Sentences later than this are about the wound only where they begin with it. */
    private static final int NEAR = 3;

    private static final int FAR = 9;
    private static final Pattern THE_WOUND =
            Pattern.compile("^(?:the|this|that|his|her) (?:foot |leg |skin |heel |toe )?(?:ulcer|wound|sore)\\b");
    private static final Pattern GOES_ON = Pattern.compile(
            "\\b(?:ulcer|wound|tendon|bone|erythema|slough|pus|purulence|base|edges?|cm|mm|periwound)\\b");

    record Topic(Set<Side> sides, int sentence, int paragraph, boolean ulcer) {}

    @Override
    public void read(Page page, Findings findings) {
        Optional<Topic> topic = Optional.empty();
        for (var sentence : page.sentences) {
            denials(page, sentence, findings);
            var found = find(page, sentence, findings);
            if (found.isPresent()) {
                topic = found;
            }
            if (topic.isPresent()
                    && (found.isPresent() || isAbout(topic.get(), sentence) && !Polarity.isAboutOthers(sentence))) {
                WoundDetails.read(page, sentence, topic.get(), found.isPresent(), findings);
                if (GOES_ON.matcher(sentence.plain).find()) {
                    topic = topic.map(
                            known -> new Topic(known.sides(), sentence.number, known.paragraph(), known.ulcer()));
                }
            }
        }
        unsaidDepth(findings);
    }

    private static boolean isAbout(Topic topic, Sentence sentence) {
        var lines = sentence.number - topic.sentence();
        return lines <= NEAR && sentence.paragraph - topic.paragraph() <= 1
                || lines <= FAR
                        && topic.ulcer()
                        && sentence.paragraph - topic.paragraph() <= 2
                        && THE_WOUND.matcher(sentence.plain).find();
    }

    private static void denials(Page page, Sentence sentence, Findings findings) {
        if (!sentence.hasAny(
                "tissue loss",
                "intact",
                "neither foot",
                "without",
                "open",
                "lesion",
                "wound",
                "ulcer",
                "trophic",
                "no sore",
                "whole",
                "black")) {
            return;
        }
        var none = NO_WOUND.matcher(sentence.plain);
        while (none.find()) {
            if (Polarity.isOthers(sentence, none.start(), none.end())
                    || Polarity.isOpen(sentence, none.start())
                    || Fit.matches(
                            sentence.plain.substring(none.end()), "(?s) (?:apart from|except|other than|save).*")) {
                continue;
            }
            var both = Fit.matches(none.group(), ".*(?:tissue loss|intact|trophic|lesion|whole|skin).*");
            var place = page.legs.ofDenial(sentence, none.start(), none.end());
            for (var side : place.sides()) {
                findings.put(side.leg("wound.ulcer"), "none", sentence.span(none), place.ground());
                if (both) {
                    findings.put(side.leg("wound.gangrene"), "none", sentence.span(none), place.ground());
                }
            }
        }
        var black = Fit.of(
                        "\\b(?:nothing (?:is )?black|no black (?:toe|area|patch|spot|skin)s?|no blackness|not black)\\b")
                .matcher(sentence.plain);
        if (black.find() && !Polarity.isOthers(sentence, black.start(), black.end())) {
            var place = page.legs.ofDenial(sentence, black.start(), black.end());
            for (var side : place.sides()) {
                findings.put(side.leg("wound.gangrene"), "none", sentence.span(black), place.ground());
            }
        }
        var loss = Fit.of("\\btissue loss\\b").matcher(sentence.plain);
        while (loss.find()) {
            if (Polarity.of(sentence, loss) == Polarity.DENIED
                    && !Fit.matches(
                            sentence.plain.substring(loss.end()), "(?s) (?:apart from|except|other than|save).*")) {
                var place = page.legs.ofDenial(sentence, loss.start(), loss.end());
                var words = sentence.span(Polarity.denialStart(sentence, loss.start()), loss.end());
                for (var side : place.sides()) {
                    findings.put(side.leg("wound.ulcer"), "none", words, place.ground());
                    findings.put(side.leg("wound.gangrene"), "none", words, place.ground());
                }
            }
        }
    }

    private static Optional<Topic> find(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        var result = Optional.<Topic>empty();
        if (FormRule.present(sentence, "ulcer").isPresent()
                || FormRule.present(sentence, "wound").isPresent()) {
            return Optional.empty();
        }
        var named = NAMED.matcher(plain);
        while (named.find()) {
            var around = plain.substring(Math.max(0, named.start() - 22), Math.min(plain.length(), named.end() + 16));
            if (NOT_SKIN.matcher(around).find()
                    || named.group().equals("sore") && !isSoreThing(plain, named.start(), named.end())) {
                continue;
            }
            var after = plain.substring(named.end());
            if (Fit.matches(
                            after,
                            "(?s) (?:care|clinic|nurse|swab|dressing|dressings|infection clinic|team|service|chart|score|prevention|healing (?:pathway|clinic))\\b.*")
                    || plain.substring(0, named.start()).endsWith("tissue viability ")) {
                continue;
            }
            if (HEALED.matcher(after).lookingAt() && !NOT_HEALED.matcher(after).lookingAt()
                    || Fit.matches(
                            plain.substring(Math.max(0, named.start() - 32), named.start()),
                            "(?s).*\\b(?:healed|previous(?:ly)?|prior|(?<!day )(?<!week )(?<!month )(?<!year )old|resolved|past|scars? (?:of|from))(?: \\w+){0,3} ")) {
                continue;
            }
            var polarity = Polarity.of(sentence, named);
            if (polarity == Polarity.DENIED && EXCEPT.matcher(after).lookingAt()) {
                continue;
            }
            if (polarity == Polarity.DENIED) {
                var place = page.legs.ofDenial(sentence, named.start(), named.end());
                for (var side : place.sides()) {
                    findings.put(
                            side.leg("wound.ulcer"),
                            "none",
                            sentence.span(Polarity.denialStart(sentence, named.start()), named.end()),
                            place.ground());
                }
                page.legs
                        .without(sentence, named.end())
                        .ifPresent(other -> other.sides()
                                .forEach(side -> findings.put(
                                        side.leg("wound.ulcer"), "none", sentence.span(other.start(), other.end()))));
            } else if (polarity == Polarity.STATED) {
                var place = where(page, sentence, named);
                if (place.known()) {
                    mark(sentence, named.start(), named.end(), place, findings);
                    result = Optional.of(new Topic(place.sides(), sentence.number, sentence.paragraph, true));
                    break;
                }
                findings.ask("A wound is mentioned: ask on which leg.", sentence.span(named));
            }
        }
        if (result.isEmpty()) {
            result = eschar(page, sentence, findings);
        }
        var black = gangrene(page, sentence, findings);
        if (result.isPresent()
                && black.isPresent()
                && !black.get().sides().equals(result.get().sides())) {
            WoundDetails.site(page, sentence, black.get(), true, findings);
        }
        return result.isPresent() ? result : black;
    }

    /** A black crust hides how deep the wound under it is, and whether it is gangrene. */
    private static Optional<Topic> eschar(Page page, Sentence sentence, Findings findings) {
        var match = ESCHAR.matcher(sentence.plain);
        if (!match.find() || Polarity.of(sentence, match) != Polarity.STATED) {
            return Optional.empty();
        }
        var place = where(page, sentence, match);
        findings.ask(
                place.known()
                        ? "An eschar is mentioned: ask how deep the wound is, and whether it is gangrene."
                        : "An eschar is mentioned: ask on which leg, and how deep it is.",
                sentence.span(match));
        return place.known()
                ? Optional.of(new Topic(place.sides(), sentence.number, sentence.paragraph, true))
                : Optional.empty();
    }

    private static boolean isSoreThing(String plain, int start, int end) {
        return Fit.matches(
                        plain.substring(0, start),
                        "(?s).*\\b(?:a|an|the|this|that|small|shallow|deep|superficial|open|pressure|toe|heel|foot|healing|his|her|chronic|new|weeping|painful|infected|\\w+ing|no|any|without|big|large|nasty|bad) $|")
                && !Fit.matches(
                        plain.substring(end), "(?s) (?:and|but|toe|foot|throat|when|to touch|at|on walking|calf).*")
                && !Fit.matches(plain.substring(0, start), "(?s).*\\b(?:bilateral|both) (?:heel|toe|foot) ")
                && (start > 0 || Fit.matches(plain.substring(end), "(?s) (?:on|over|under|of|at)\\b.*"));
    }

    private static Legs.Place where(Page page, Sentence sentence, Matcher named) {
        var place = page.legs.of(sentence, named.start(), named.end());
        return place.known() ? place : page.legs.ahead(sentence);
    }

    private static void mark(Sentence sentence, int start, int end, Legs.Place place, Findings findings) {
        for (var side : place.sides()) {
            findings.put(side.leg("wound.mentioned"), true, sentence.span(start, end), place.ground());
        }
    }

    private static boolean isGangrene(Sentence sentence, Matcher match) {
        var plain = sentence.plain;
        var word = match.group();
        var piece = sentence.pieceStart(match.start());
        var from =
                plain.startsWith(": ", Math.max(0, piece - 2)) ? sentence.clauseStart(Math.max(0, piece - 3)) : piece;
        var around = plain.substring(from, Math.min(plain.length(), match.end() + 50));
        if (word.contains("gangrene") || word.equals("mummified")) {
            return true;
        }
        if (word.contains("black")) {
            return DIGIT.matcher(around).find()
                    || LARGE_PLACE.matcher(around).find() && !around.contains("black eschar");
        }
        return !Fit.matches(
                around,
                "(?s).*\\b(?:slough\\w*|base|tissue|edges?|material|debrided|debris|eschar|cap|avascular|acute tubular|fat)\\b.*");
    }

    /** Gangrene and black toes; what place is not told is not entered. */
    private static Optional<Topic> gangrene(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        if (!sentence.hasAny("gangrene", "necrosis", "black", "mummified")) {
            return Optional.empty();
        }
        var result = Optional.<Topic>empty();
        if (FormRule.present(sentence, "gangrene").isPresent()) {
            return result;
        }
        var match = GANGRENE.matcher(plain);
        while (match.find()) {
            if (!isGangrene(sentence, match)) {
                continue;
            }
            var polarity = Polarity.of(sentence, match);
            if (polarity == Polarity.DENIED) {
                var place = page.legs.ofDenial(sentence, match.start(), match.end());
                for (var side : place.sides()) {
                    findings.put(
                            side.leg("wound.gangrene"),
                            "none",
                            sentence.span(Polarity.denialStart(sentence, match.start()), match.end()),
                            place.ground());
                }
                continue;
            }
            if (polarity == Polarity.OPEN
                    || Fit.matches(
                            plain.substring(Math.max(0, match.start() - 30), match.start()),
                            "(?s).*\\b(?:previous|amputat\\w+ for|lost \\w+ \\w+ to|for) $")
                    || Fit.matches(
                            plain.substring(match.end()),
                            "(?s) (?:shoes?|socks?|ink|stool|eschar|spot|and blue|(?:toe)? ?nail).*")
                    || Fit.matches(
                            plain.substring(Math.max(0, match.start() - 45), match.start()),
                            "(?s).*\\b(?:toe)?nails?\\b[^,;.]*")) {
                continue;
            }
            var place = page.legs.of(sentence, match.start(), match.end());
            if (!place.known()) {
                place = page.legs.ahead(sentence);
            }
            if (!place.known()) {
                findings.ask("Gangrene is mentioned: ask on which leg.", sentence.span(match));
                continue;
            }
            var extent = extent(sentence, match);
            if (extent.isEmpty()) {
                findings.ask("Gangrene is mentioned: ask how far it reaches.", sentence.span(match));
            }
            for (var side : place.sides()) {
                extent.ifPresent(found ->
                        findings.put(side.leg("wound.gangrene"), found.value(), found.words(), Findings.Ground.WORDS));
            }
            if (extent.isPresent()) {
                result = Optional.of(new Topic(place.sides(), sentence.number, sentence.paragraph, false));
            }
        }
        return result;
    }

    private record Extent(String value, Span words) {}

    private static Optional<Extent> extent(Sentence sentence, Matcher match) {
        var plain = sentence.plain;
        var clause = sentence.clauseStart(match.start());
        // "Left hallux: blue-black at the tip": the place heads the words.
        clause = plain.startsWith(": ", Math.max(0, clause - 2))
                ? sentence.clauseStart(Math.max(0, clause - 3))
                : clause;
        var from = Math.max(clause, match.start() - 60);
        var to = Math.min(sentence.clauseEnd(match.start()), match.end() + 70);
        var behind = plain.substring(match.end(), to);
        if (Fit.matches(behind, "(?s) (?:of|to|in|on|over|affecting|involving|at)\\b.*")
                && (DIGIT.matcher(behind).find()
                        || Fit.matches(behind, "(?s).*\\b(?:forefoot|midfoot|heel|hindfoot)\\b.*"))) {
            from = match.start();
        }
        if (BEYOND_TOES.matcher(behind).find()) {
            return Optional.of(new Extent("extensive", sentence.span(match)));
        }
        var large = LARGE_PLACE.matcher(plain).region(from, to);
        var digit = DIGIT.matcher(plain).region(from, to);
        var hasLarge = large.find();
        while (hasLarge && Fit.matches(large.group(), "(?:of|the|left|right) foot")) {
            hasLarge = large.find();
        }
        var hasDigit = digit.find();
        if (hasDigit && hasLarge) {
            var nearDigit = Math.min(Math.abs(digit.start() - match.end()), Math.abs(match.start() - digit.end()));
            var nearLarge = Math.min(Math.abs(large.start() - match.end()), Math.abs(match.start() - large.end()));
            if (Fit.matches(large.group(), ".*foot")
                    && !Fit.matches(
                            large.group(), "forefoot|midfoot|whole foot|entire foot|lateral foot|foot gangrene")) {
                hasLarge = false;
            } else if (large.group().equals("extensive") || nearLarge < nearDigit) {
                hasDigit = false;
            } else {
                hasLarge = false;
            }
        }
        if (hasDigit) {
            return Optional.of(new Extent(
                    "digits",
                    sentence.span(Math.min(digit.start(), match.start()), Math.max(digit.end(), match.end()))));
        }
        if (hasLarge && !Fit.matches(large.group(), "(?:of|left|right) foot|the foot")) {
            return Optional.of(new Extent(
                    "extensive",
                    sentence.span(Math.min(large.start(), match.start()), Math.max(large.end(), match.end()))));
        }
        return Optional.empty();
    }

    /** Takes back the notes that an ulcer was named, and asks for the depth where none is known. */
    private static void unsaidDepth(Findings findings) {
        for (var side : Side.values()) {
            var mentioned = side.leg("wound.mentioned");
            var words = findings.words(mentioned);
            findings.forget(mentioned);
            var ulcer = findings.get(side.leg("wound.ulcer"));
            words.ifPresent(span -> {
                if (ulcer.isEmpty()) {
                    findings.ask("An ulcer is mentioned: ask how deep it is.", span);
                } else if (ulcer.get().asString().equals("none")) {
                    findings.forget(side.leg("wound.ulcer"));
                    findings.ask("An ulcer is mentioned: ask how deep it is.", span);
                }
            });
        }
    }
}
