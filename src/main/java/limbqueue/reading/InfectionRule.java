package limbqueue.reading;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Signs of infection about a wound, how far the redness reaches, whether it is deep, and what it does to the whole body. */
final class InfectionRule implements Rule {

    private enum Sign {
        SWELLING("swelling|swollen|oedema|induration|indurated|puffy"),
        REDNESS("erythema|red(?! (?:cell|flag|blood|eye))|cellulitis|reddish|inflamed|rubor"),
        TENDERNESS(
                "tender(?:ness)?|painful|sore to (?:the )?touch|hurts (?:when|if|to) (?:it is |being )?(?:touch|press)\\w*|(?<=[,&] )sore(?= ?[.,;]|$)|(?<=and )sore(?= ?[.,;]|$)|(?<=is )sore(?= ?[.,;]|$)|wound pain|pain of the wound|pain"),
        WARMTH("warm(?:th|er)?|hot(?! bath| water)|heat(?! rub)|calor"),
        PUS(
                "pus|purulence|purulent(?: discharge| drainage| exudate)?|suppurat\\w+|discharging|discharge(?! (?:summary|letter|date|from|medication|home))|drainage|oozing pus|weeping pus|foul[- ]smelling (?:discharge|drainage)");

        final Pattern words;

        Sign(String words) {
            this.words = Pattern.compile("\\b(?:" + words + ")\\b");
        }
    }

    private static final Pattern CONTEXT = Pattern.compile(
            "\\b(?:osteomyelitis|abscess|ulcer|wound|sore|infect\\w*|gangrene|erythema|cellulitis|pus|purulent|toe|heel|foot|ankle|forefoot|malleolus|shin|edges?|surround\\w*|signs?|local|discharge|slough|it|interspace)\\b");
    private static final Pattern NO_CONTEXT = Pattern.compile(
            "\\b(?:heart|gout|dvt|venous|lymph\\w*|varicose|joint|knee|abdom\\w*|calf (?:is )?(?:soft|tender)|ankle oedema|pitting|eczema\\w*|dermatitis|blanch\\w*|pulmonary|bilateral leg oedema|bilateral oedema|pedal oedema|temperature of)\\b");
    private static final Pattern NO_SIGNS = Pattern.compile(
            "\\b(?:no (?:\\w+ ){0,3}?(?:signs?|evidence|features|suggestion|hint) of (?:\\w+ ){0,3}?infection|no (?:local |obvious |clinical |active |overt |superficial |current )*infection|not (?:clinically |obviously |currently |at all )*infected|isn't (?:clinically |obviously |currently )*infected|uninfected|non[- ]?infected|without (?:any )?(?:signs? of |evidence of )?(?:\\w+ )?infection|free (?:of|from) infection|clinically clean|infection ?[:=-] ?(?:none|no|nil|absent)|no infective signs?|denies infection|(?:is|looks|appears|remains|clean and|dry and) (?:clean|dry) (?:and|with) (?:no infection|not infected|uninfected))\\b");

    private static final Pattern SAID_INFECTED = Pattern.compile(
            "\\binfected (?:\\w+ ){0,3}(?:ulcer|wound|sore|toe|heel|foot)\\b|\\b(?:ulcer|wound|toe|heel|foot) (?:is |are |has become |became )(?:now )?infected\\b");

    /** "Was red and discharging in January, now dry and clean": signs of an earlier time. */
    private static final Pattern WAS =
            Pattern.compile("\\b(?:was|were|had been|used to be|initially|at first)\\b[^.;]{0,60}$");

    private static final Pattern NOW_CLEAN = Pattern.compile(
            "^[^.;]{0,60}\\b(?:now|but|since|today)\\b[^.;]{0,20}\\b(?:clean|dry|settled|resolved|gone|quiet|better|healthy)\\b");

    private static final Pattern REDNESS_EXTENT = Pattern.compile(
            "\\b(?:erythema|redness|cellulitis|red)\\b[^.;]{0,60}?\\b(?<![\\d.])(?<a>\\d{1,3}(?:\\.\\d)?) ?(?<ua>cm|mm|centimetres?|centimeters?|millimetres?|inch(?:es)?)\\b|(?<![\\d.])\\b(?<b>\\d{1,3}(?:\\.\\d)?) ?(?<ub>cm|mm|centimetres?|centimeters?|millimetres?|inch(?:es)?)(?: (?:of|wide|rim|ring|halo|zone|area|margin|band|collar|surrounding|peri-?wound|spreading))*(?: of)?(?: surrounding| peri-?wound| spreading| periwound)? (?:erythema|redness|cellulitis)\\b");
    private static final Pattern DEEP = Pattern.compile(
            "\\b(?:osteomyelitis|osteo(?= ?(?:[.,;]|$))|abscess(?:es)?|septic arthritis|fasciitis|deep (?:space )?infection|collection of pus|bone infection|infected bone)\\b");
    private static final Pattern TEMPERATURE = Pattern.compile(
            "\\b(?:temp(?:erature|s)?|t(?= ?[:=]? ?(?:3\\d|4[0-2]|9\\d|10[0-6])(?:\\.\\d)?)|febrile(?: (?:at|to|with))?|afebrile(?: (?:at|with))?|a?pyrexi\\w*|fever|tmax)\\b[^.;\\d]{0,28}(?<v>\\d{2,3}(?:\\.\\d{1,2})?)(?! ?(?:mg|/|year|%|week|day|month|cm|mm))(?: ?(?:degrees?|deg|°|º)? ?(?<u>c|f|celsius|fahrenheit)\\b)?");
    /** "Temp 37.2 yesterday, today 38.4". */
    private static final Pattern LATER_TEMPERATURE = Pattern.compile(
            "^[^.;\\d]{0,8}\\b(?:yesterday|last (?:night|week)|earlier|initially|at first|on admission)\\b[^.;\\d]{0,20}\\b(?:now|today|currently)\\b[^.;\\d]{0,12}(?<v>\\d{2,3}(?:\\.\\d{1,2})?)");

    private static final Pattern HEART = Pattern.compile(
            "\\b(?:heart rate|hr|pulse(?: rate)?|p(?= ?[:=]? ?\\d{2,3}\\b)|tachycardi\\w*(?: (?:at|of|to))?)(?: (?:is|was|of|at|rate|today|regular|irregular))* ?[:=-]? ?(?<v>\\d{2,3})(?![\\d+%]|\\.\\d|/\\d| ?(?:mg|mmhg|year|week|month|/))");
    private static final Pattern BREATH = Pattern.compile(
            "\\b(?:respiratory rate|resp(?:iratory|irations?|s)?(?: rate)?|rr|breathing(?: at)?|breaths?)\\.?(?: (?:is|was|of|at|rate))* ?[:=-]? ?(?<v>\\d{1,2})(?![\\d+%]|\\.\\d|/\\d(?!\\d* ?min)| ?(?:mg|year|week|month))");
    private static final Pattern CARBON_DIOXIDE = Pattern.compile(
            "\\b(?:paco2|pco2|pa ?co2|arterial co2)(?: (?:is|was|of|on air|art))* ?[:=-]? ?(?<v>\\d{1,3}(?:\\.\\d)?)(?: ?(?<u>kpa|mmhg))?");

    @Override
    public void read(Page page, Findings findings) {
        Map<Side, Map<Sign, Boolean>> signs = new EnumMap<>(Side.class);
        Map<Side, Span> words = new EnumMap<>(Side.class);
        for (var sentence : page.sentences) {
            noSigns(page, sentence, findings);
            count(page, sentence, signs, words, findings);
            extent(page, sentence, findings);
            deep(page, sentence, findings);
        }
        signs.forEach((side, told) -> {
            var present = (int) told.values().stream().filter(sign -> sign).count();
            if (present > 0
                    || told.size() == Sign.values().length
                    || findings.get(side.leg("infection.localSigns")).isPresent()) {
                findings.forget(side.leg("infection.localSigns"));
                findings.put(side.leg("infection.localSigns"), present, Objects.requireNonNull(words.get(side)));
            }
        });
        wholeBody(page, findings);
    }

    private static Legs.Place place(Page page, Sentence sentence, int start, int end, Findings findings) {
        var near = page.legs.near(sentence, start, end);
        if (near.known()) {
            return near;
        }
        var wounded = wounded(findings);
        var place = page.legs.of(sentence, start, end);
        if (place.ground() == Findings.Ground.CARRIED && wounded.size() == 1) {
            return new Legs.Place(wounded, Findings.Ground.CARRIED);
        }
        return place;
    }

    /** The legs of which a wound or an infection is known. */
    private static Set<Side> wounded(Findings findings) {
        var legs = EnumSet.noneOf(Side.class);
        for (var side : Side.values()) {
            if (findings.get(side.leg("wound.site")).isPresent()
                    || findings.get(side.leg("wound.ulcer"))
                            .filter(ulcer -> !ulcer.asString().equals("none"))
                            .isPresent()
                    || findings.get(side.leg("wound.gangrene"))
                            .filter(gangrene -> !gangrene.asString().equals("none"))
                            .isPresent()) {
                legs.add(side);
            }
        }
        return legs;
    }

    private static void noSigns(Page page, Sentence sentence, Findings findings) {
        var match = NO_SIGNS.matcher(sentence.plain);
        while (match.find()) {
            if (Polarity.isOthers(sentence, match.start(), match.end())
                    || Fit.matches(
                            sentence.plain.substring(Math.max(0, match.start() - 25), match.start()),
                            "(?s).*\\b(?:if|provided|as long as|bone|deep|chest|urine) ?.*")
                    || Fit.matches(match.group(), ".*\\b(?:deep|bone|chest|urinary|systemic) infection.*")) {
                continue;
            }
            var near = page.legs.ofDenial(sentence, match.start(), match.end());
            var wounded = wounded(findings);
            var sides = near.ground() == Findings.Ground.GENERAL
                    ? wounded.isEmpty() ? Side.both() : carried(page, sentence, wounded)
                    : near.sides();
            for (var side : sides) {
                findings.put(side.leg("infection.localSigns"), 0, sentence.span(match), near.ground());
            }
        }
    }

    private static Set<Side> carried(Page page, Sentence sentence, Set<Side> wounded) {
        var place = page.legs.mentions(sentence).isEmpty()
                ? page.legs.carriedTo(sentence)
                : page.legs.of(sentence, sentence.plain.length(), sentence.plain.length());
        return place.sides().size() == 1 && wounded.containsAll(place.sides()) ? place.sides() : wounded;
    }

    private static void count(
            Page page,
            Sentence sentence,
            Map<Side, Map<Sign, Boolean>> signs,
            Map<Side, Span> words,
            Findings findings) {
        var plain = sentence.plain;
        if (!CONTEXT.matcher(plain).find() || NO_CONTEXT.matcher(plain).find()) {
            return;
        }
        var woundHere = Fit.matches(
                plain,
                "(?s).*\\b(?:ulcer|wound|sore|infect\\w*|gangrene|cellulitis|pus|purulent|edges?|surround\\w*)\\b.*");
        var told = new EnumMap<Sign, Boolean>(Sign.class);
        var first = Integer.MAX_VALUE;
        var last = 0;
        for (var sign : Sign.values()) {
            var match = sign.words.matcher(plain);
            while (match.find()) {
                var polarity = Polarity.of(sentence, match);
                if (polarity == Polarity.OPEN
                        || Polarity.isOver(plain, match.start(), match.end())
                        || WAS.matcher(plain.substring(sentence.clauseStart(match.start()), match.start()))
                                        .find()
                                && NOW_CLEAN
                                        .matcher(plain.substring(match.end()))
                                        .find()
                        || isOther(plain, sign, match.start(), match.end())) {
                    continue;
                }
                var denied = polarity == Polarity.DENIED
                        || Fit.matches(plain.substring(0, match.start()), "(?s).*\\bnon[- ]");
                told.merge(sign, !denied, (one, two) -> one || two);
                first = Math.min(first, match.start());
                last = Math.max(last, match.end());
            }
        }
        if (told.isEmpty()) {
            return;
        }
        var onlyPain = told.keySet().equals(EnumSet.of(Sign.TENDERNESS))
                || told.keySet().equals(EnumSet.of(Sign.WARMTH))
                || told.keySet().equals(EnumSet.of(Sign.SWELLING));
        if (onlyPain
                && !woundHere
                && told.containsValue(true)
                && !Fit.matches(
                        plain,
                        "(?s)(?:some |mild |slight |local |a little )*(?:swelling|swollen|induration)\\b.*|(?s).*\\bosteomyelitis\\b.*")) {
            return;
        }
        var place = place(page, sentence, first, last, findings);
        var wounded = wounded(findings);
        var near = page.legs.near(sentence, first, last);
        var strong = told.containsKey(Sign.PUS) || told.containsKey(Sign.REDNESS) || told.size() >= 2;
        for (var side : place.sides()) {
            if (!wounded.contains(side) && !(strong && (near.known() || woundHere))) {
                continue;
            }
            var all = signs.computeIfAbsent(side, _ -> new EnumMap<>(Sign.class));
            told.forEach((sign, present) -> all.merge(sign, present, (one, two) -> one || two));
            var span = sentence.span(first, last);
            words.merge(side, span, (one, two) -> one);
        }
    }

    /** Words for a sign that here mean something else. */
    private static boolean isOther(String plain, Sign sign, int start, int end) {
        var before = plain.substring(Math.max(0, start - 24), start);
        var after = plain.substring(end, Math.min(plain.length(), end + 24));
        return switch (sign) {
            case TENDERNESS ->
                plain.substring(start, end).equals("pain")
                                && !Fit.matches(
                                        before,
                                        "(?s).*\\b(?:wound|ulcer|local|no|without|swelling|redness|erythema|warmth|of|and|or|,)[ ,]*")
                        || plain.substring(start, end).equals("pain")
                                && (Fit.matches(
                                                before,
                                                "(?s).*\\b(?:rest|night|calf|thigh|foot|leg|buttock|chest|back) ")
                                        || Fit.matches(
                                                after, "(?s) (?:at|on|in|when|after|relief|control|clinic|killers?).*"))
                        || plain.substring(start, end).equals("painful")
                                && !Fit.matches(before, "(?s).*\\b(?:is|and|very|,|red|swollen|warm|hot|a|now) ?")
                        || Fit.matches(before, "(?s).*\\b(?:calf|abdomen|abdominal|groin) (?:is )?");
            case WARMTH ->
                Fit.matches(
                                        before,
                                        "(?s).*\\b(?:foot|feet|leg|toe|is|are|well perfused and|pink and|both|and|extremities|remains?|stays?|the other|enough) (?:is |are )?(?:reasonably |both |nice and )?$")
                                && !Fit.matches(plain, "(?s).*\\b(?:erythema|red|swollen|swelling|pus|tender\\w*)\\b.*")
                        || Fit.matches(after, "(?s) (?:and (?:well )?(?:pink|perfused)|enough|to touch with good).*")
                        || Fit.matches(before, "(?s).*\\bkeep(?:s|ing)? .*");
            case SWELLING ->
                Fit.matches(
                                before,
                                "(?s).*\\b(?:ankle|calf|pulmonary|joint|facial|lip|knee|scrotal|pitting|pedal|leg|dependent) $")
                        || Fit.matches(after, "(?s) of (?:the )?(?:face|lips|tongue|ankles|knee|calf).*");
            case PUS ->
                Fit.matches(
                                before,
                                "(?s).*\\b(?:hospital|on|at|after|since|date of|nasal|urethral|upon|following|nipple|vaginal|serous|(?:haemo|sero|sero-|haemo-)?s[ae]rous|(?:sero-?)?sanguin\\w+|haemoserous|bloody|blood stained|watery|straw coloured|clear|his|her) $")
                        || Fit.matches(after, "(?s) (?:summary|letter|planned|note|planning|clinic).*");
            case REDNESS ->
                Fit.matches(after, "(?s)[^.;,]{0,30} (?:on dependency|when dependent|on hanging|on lowering)\\b.*")
                        || Fit.matches(before, "(?s).*\\b(?:dusky|dependent|brick|sunset|cherry|in) $");
        };
    }

    private static void extent(Page page, Sentence sentence, Findings findings) {
        if (!sentence.hasAny("erythema", "redness", "cellulitis", "red")) {
            return;
        }
        var match = REDNESS_EXTENT.matcher(sentence.plain);
        while (match.find()) {
            if (Polarity.of(sentence, match) != Polarity.STATED
                    || Fit.matches(match.group(), "(?s).*\\b(?:ulcer|wound|depth|deep|x|pack|above)\\b.{0,12}\\d.*")
                            && match.group("a") != null
                    || match.group("a") != null
                            && Fit.matches(sentence.plain.substring(match.end()), "(?s) ?(?:x|by) ?\\d.*")) {
                continue;
            }
            var number = new BigDecimal(match.group("a") != null ? match.group("a") : match.group("b"));
            var unit = match.group("a") != null ? match.group("ua") : match.group("ub");
            var mm = unit.startsWith("mm") || unit.startsWith("milli")
                    ? number
                    : unit.startsWith("inch")
                            ? number.multiply(new BigDecimal("25.4"))
                            : number.multiply(BigDecimal.TEN);
            if (mm.doubleValue() > 400) {
                continue;
            }
            for (var side :
                    place(page, sentence, match.start(), match.end(), findings).sides()) {
                findings.putIfUnknown(side.leg("infection.rednessMm"), mm, sentence.span(match));
            }
            return;
        }
    }

    private static void deep(Page page, Sentence sentence, Findings findings) {
        if (!sentence.hasAny(
                "osteo",
                "abscess",
                "septic arthritis",
                "fasciitis",
                "deep",
                "bone infection",
                "collection",
                "infected bone")) {
            return;
        }
        var match = DEEP.matcher(sentence.plain);
        while (match.find()) {
            var plain = sentence.plain;
            var around = plain.substring(Math.max(0, match.start() - 30), match.start());
            if (Fit.matches(
                            around,
                            "(?s).*\\b(?:dental|tooth|brain|lung|liver|previous|past|old|history of|perianal|psoas|spinal|vertebral) (?:\\w+ )?$")
                    || match.group().equals("fasciitis") && around.contains("plantar")) {
                continue;
            }
            var after = plain.substring(match.end(), Math.min(plain.length(), match.end() + 50));
            var excluded = Fit.matches(
                            after,
                            "(?s) (?:has|have|was|were|is|had|being)?(?: been)? ?(?:formally |clearly )?(?:excluded|ruled out|not (?:seen|present|found)).*")
                    || Fit.matches(
                            plain.substring(0, match.start()),
                            "(?s).*\\b(?:has|have|mri|radiograph|scan|cta|biopsy|which|and)(?: of the \\w+)? (?:has |have |since |now |also )*(?:excluded|ruled out|excludes) (?:any )?$")
                    || Polarity.isDenied(sentence, match.start(), match.end())
                            && !Fit.matches(
                                    plain.substring(0, match.start()),
                                    "(?s).*\\b(?:to|cannot|can't) (?:exclude|rule out|be excluded).*");
            if (Polarity.isOthers(sentence, match.start(), match.end())) {
                continue;
            }
            boolean present;
            if (excluded) {
                present = false;
            } else if (Polarity.isOpen(sentence, match.start())
                    || Fit.matches(
                            after,
                            "(?s)(?: \\w+)? ?\\?.*|(?s) (?:is |was )?(?:suspected|possible|unlikely|doubtful|not excluded|cannot be excluded|likely|feared|to be excluded|develops|occurs).*")) {
                continue;
            } else {
                present = true;
            }
            var place = page.legs.near(sentence, match.start(), match.end());
            if (!place.known()) {
                place = place(page, sentence, match.start(), match.end(), findings);
            }
            for (var side : place.sides()) {
                if (place.sides().size() == 1 || present) {
                    findings.put(
                            side.leg("infection.deep"),
                            present,
                            sentence.span(
                                    present ? match.start() : Polarity.denialStart(sentence, match.start()),
                                    match.end()),
                            present ? Findings.Ground.WORDS : Findings.Ground.SENTENCE);
                }
            }
        }
    }

    /** The wounded legs of which a sentence says that they are infected, and no more. */
    private static Set<Side> saidInfected(Page page, Findings findings) {
        var wounded = wounded(findings);
        var legs = EnumSet.noneOf(Side.class);
        for (var sentence : page.sentences) {
            var match = SAID_INFECTED.matcher(sentence.plain);
            while (match.find()) {
                if (Polarity.of(sentence, match) == Polarity.STATED) {
                    legs.addAll(
                            page.legs.of(sentence, match.start(), match.end()).sides());
                }
            }
        }
        legs.retainAll(wounded);
        return legs;
    }

    private static void wholeBody(Page page, Findings findings) {
        var infected = EnumSet.noneOf(Side.class);
        for (var side : Side.values()) {
            var signs = findings.get(side.leg("infection.localSigns"));
            if (signs.filter(count -> count.intValue() > 0).isPresent()
                    || findings.isTrue(side.leg("infection.deep"))
                    || findings.get(side.leg("infection.rednessMm")).isPresent()) {
                infected.add(side);
            }
        }
        if (infected.isEmpty()) {
            infected.addAll(saidInfected(page, findings));
        }
        if (infected.size() != 1) {
            return;
        }
        var side = infected.iterator().next();
        for (var sentence : page.sentences) {
            if (sentence.section == Sentence.Section.FAMILY
                    || sentence.plain.chars().noneMatch(Character::isDigit)) {
                continue;
            }
            temperature(sentence, side, findings);
            rate(sentence, HEART, side.leg("infection.heartRate"), 35, 220, findings);
            rate(sentence, BREATH, side.leg("infection.respiratoryRate"), 6, 60, findings);
            var co2 = CARBON_DIOXIDE.matcher(sentence.plain);
            if (co2.find()) {
                var value = new BigDecimal(co2.group("v"));
                var kpa = "kpa".equals(co2.group("u"));
                var mmhg = kpa ? value.multiply(new BigDecimal("7.50062")).setScale(0, RoundingMode.HALF_UP) : value;
                if (mmhg.doubleValue() >= 10 && mmhg.doubleValue() <= 120 && (kpa || value.doubleValue() >= 15)) {
                    findings.putIfUnknown(side.leg("infection.paco2"), mmhg, sentence.span(co2));
                }
            }
        }
    }

    private static void temperature(Sentence sentence, Side side, Findings findings) {
        var match = TEMPERATURE.matcher(sentence.plain);
        while (match.find()) {
            if (Polarity.of(sentence, match.start(), match.end()) == Polarity.OPEN) {
                continue;
            }
            var later = LATER_TEMPERATURE.matcher(sentence.plain.substring(match.end()));
            var value = new BigDecimal(later.find() ? later.group("v") : match.group("v"));
            var unit = Optional.ofNullable(match.group("u")).orElse("");
            var number = value.doubleValue();
            if (unit.startsWith("f") && number >= 90 && number <= 108
                    || unit.isEmpty() && number >= 95 && number <= 108) {
                findings.putIfUnknown(
                        side.leg("infection.temperatureC"),
                        value.subtract(new BigDecimal(32))
                                .multiply(new BigDecimal(5))
                                .divide(new BigDecimal(9), 1, RoundingMode.HALF_UP),
                        sentence.span(match));
            } else if (!unit.startsWith("f") && number >= 33 && number <= 43) {
                findings.putIfUnknown(side.leg("infection.temperatureC"), value, sentence.span(match));
            }
        }
    }

    private static void rate(Sentence sentence, Pattern pattern, String field, int least, int most, Findings findings) {
        var match = pattern.matcher(sentence.plain);
        while (match.find()) {
            var value = Integer.parseInt(match.group("v"));
            if (value >= least && value <= most && Polarity.of(sentence, match) == Polarity.STATED) {
                findings.putIfUnknown(field, value, sentence.span(match));
                return;
            }
        }
    }
}
