package limbqueue.reading;

import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** A leg that has suddenly lost its blood: since when, and what it can still feel and move. */
final class AcuteRule implements Rule {

    private static final Pattern NAMED = Pattern.compile(
            "\\b(?:acute limb ischaemia|acute(?:ly)? (?:on chronic )?(?:(?:left|right|bilateral|limb|leg|lower limb|arterial|foot|threatening) )*ischaemi[ac]\\w*(?: (?:left|right))?(?: (?:leg|limb|foot))?|acute(?:ly)? ischaemic|acute (?:arterial )?occlusion of the (?:left|right) (?:leg|limb)|(?:new|sudden) limb ischaemia|acute (?:embol\\w+|thrombo\\w+) (?:to|of) the (?:left |right )?(?:leg|limb|popliteal|femoral))\\b");
    private static final Pattern DENIED = Pattern.compile(
            "\\b(?:no (?:\\w+ )?(?:signs?|evidence|features|symptoms|suggestion) of (?:an? )?acute (?:\\w+ )?ischaemia|no (?:new |sign of |features of )?acute (?:\\w+ ){0,3}ischaemi[ac]|no acute limb ischaemia|not acutely (?:ischaemic|threatened)|isn't acutely (?:ischaemic|threatened)|no acutely (?:ischaemic|threatened)|no acute (?:limb )?threat|no acute (?:problem|issue|concern)s?|no sudden (?:change|onset|deterioration|worsening))\\b");
    private static final Pattern SUDDEN = Pattern.compile(
            "\\b(?:sudden(?:ly)?|acute(?:ly)?|abrupt(?:ly)?|all at once|out of the blue|woke (?:up )?with|this morning|last night|yesterday|today|since \\d{1,2}(?:[:.]\\d\\d)? ?(?:am|pm|o'clock|this|today|last|yesterday)|\\d{1,2} hours? (?:ago|history)|for (?:the (?:last|past) )?\\d{1,2} hours?|hours? ago|of \\d{1,2} hours?'? duration|overnight|(?:1|2|3|4|5|6|7|8|9|10|11|12|13|14)[ -]days? (?:ago|history))\\b"
                    + "|(?<=\\b(?:cold|pale|white|mottled|pulseless|icy|ashen|waxy)\\b[^.;]{0,45})\\b(?:for|since|over|in) (?:about |approximately |the (?:last|past) )?(?:(?:[1-9]|1[0-4]) days?|monday|tuesday|wednesday|thursday|friday|saturday|sunday)\\b");
    private static final Pattern LOST = Pattern.compile(
            "\\b(?:cold|pale|white|pallor|mottled|numb|dead|icy|ice|ashen|dusky|pulseless|painful and (?:cold|white)|paralys\\w+|paraesthesi\\w+|blue)\\b");
    private static final Pattern PAIN =
            Pattern.compile("\\b(?:pain(?:ful)?|agony|agonising|excruciating|hurts?|ache)\\b");
    private static final Pattern PALE =
            Pattern.compile("\\b(?:pale|white(?! cell| count| blood)|pallor|ashen|blanched|marble|waxy)\\b");
    private static final Pattern NOT_PALE = Pattern.compile(
            "\\b(?:not (?:pale|white)|isn't (?:pale|white)|no pallor|normal colour|good colour|pink)\\b");
    private static final Pattern COLD = Pattern.compile(
            "\\b(?:cold(?! sore)|icy|ice[- ]cold|chilly|perishingly cold|coldness|poikilothermi\\w+)\\b");
    private static final Pattern WARM = Pattern.compile(
            "\\b(?:(?:foot|leg|toe|limb|it)(?: \\w+)? (?:is|remains|feels|was) (?:still )?warm|not cold|isn't cold|warm foot)\\b");

    private static final Pattern NUMB = Pattern.compile(
            "\\b(?:numb|sensory loss|loss of sensation|reduced sensation|decreased sensation|diminished sensation|altered sensation|sensation (?:is |was )?(?:reduced|diminished|decreased|lost|impaired|altered|absent|gone)|cannot feel|paraesthesi\\w+|pins and needles|tingling|no (?:feeling|sensation)|without (?:any )?(?:feeling|sensation)|insensate|anaesthetic|anesthetic|insensible|sensory (?:deficit|loss))\\b");
    private static final Pattern FEELS = Pattern.compile(
            "\\b(?:sensation (?:is |was |and (?:movement|power|motor)\\w* (?:is |are |both |function )?|to light touch |remains |fully |both |entirely )*(?:intact|normal|preserved|good|full|unimpaired)|(?:normal|intact|full|preserved|good) (?:\\w+ and )?(?:sensation|feeling)|no (?:numb|sensory (?:loss|deficit|change)|loss of (?:sensation|feeling))|not numb|isn't numb|feels (?:everything|normally|light touch|touch)|can feel (?:everything|light touch|me|touch)|sensory(?: exam\\w*| function)? (?:is )?(?:intact|normal)|sensorimotor (?:function )?(?:is )?intact|neurologically intact|neurovascularly intact distally|denies (?:any )?numb|(?:motor|power|movement) and sensation (?:are |is |both )?(?:intact|normal|preserved)|no sensorimotor deficit|sensation ?[:=] ?(?:intact|normal))\\b");
    private static final Pattern COMPLETE = Pattern.compile(
            "\\b(?:no (?:feeling|sensation) (?:at all|whatsoever|in|below|left|from)|(?:complete|total|profound|dense)(?:ly)? (?:loss of (?:sensation|feeling)|sensory loss|numb|anaesthe\\w+|anesthe\\w+|insensate)|anaesthetic|anesthetic|insensate|completely numb|totally numb|cannot feel (?:anything|a thing|(?:his|her|the) (?:leg|foot) at all)|insensible)\\b");
    private static final Pattern TOES_ONLY = Pattern.compile(
            "\\b(?:(?:toe|toes tips|tips of the toe|great toe)(?: \\w+){0,3} (?:numb|tingl\\w+|insensate|paraesthesi\\w+)|(?:numb|tingling|sensory loss|reduced sensation|loss of sensation|sensation (?:is )?(?:reduced|lost|diminished|decreased|impaired|altered)|paraesthesi\\w+|decreased sensation|diminished sensation|pins and needles)(?: \\w+){0,3} (?:toe|great toe)|cannot feel(?: any of)?(?: the| his| her)?(?: left| right)? toe|numb toe)s?\\b");

    private static final Pattern PARALYSED = Pattern.compile(
            "\\b(?:paralys\\w+|cannot (?:move|wiggle|wriggle|lift|dorsiflex)(?: \\w+){0,4}|no (?:movement|motor function|motor power|power)|foot drop|complete motor loss|power 0|unable to move|no active movement|plegi\\w*|without (?:any )?movement|rigor|won't move|motor (?:function )?(?:absent|lost|gone))\\b");
    private static final Pattern WEAK = Pattern.compile(
            "\\b(?:weak(?:ness|ened|er)?|reduced power|power (?:is )?(?:reduced|[34](?: ?/ ?5)?)|mild motor|motor (?:deficit|weakness)|moves (?:it )?(?:poorly|slowly|weakly|a little|with difficulty)|reduced movement|movement (?:is )?(?:reduced|weak|slow)|slight(?:ly)? weak\\w*)\\b");
    private static final Pattern MOVES = Pattern.compile(
            "\\b(?:moves? (?:(?:the|his|her|all|both|it|foot|toe|ankle|leg|and|left|right) )*(?:well|normally|freely|fully|easily|fine|without difficulty)|(?:can|still|able to) (?:still )?(?:move|wiggle|wriggle)s? (?:(?:the|his|her|all|both|it|foot|toe|ankle|leg|and|left|right|them) ?)*|moves (?:the|his|her|all|both) (?:toe|foot|ankle|leg)s?(?= ?[,.;]|$| and)|(?:power|movement|motor(?: function| power)?|strength)(?: is| was| remains| are| fully| both| function| exam| and sensation| and sensory)* (?:intact|normal|full|good|preserved|5 ?/ ?5)|(?:normal|full|good|intact|preserved) (?:power|movement|motor(?: function)?|strength)|no (?:motor (?:loss|deficit|weakness)|weakness|loss of (?:power|movement|motor)|paralysis)|not weak|sensorimotor (?:function )?(?:is )?intact|neurologically intact|sensation and (?:movement|power|motor(?: function)?)(?: are| is| both)? (?:intact|normal|preserved|full|good)|motor ?[:=]? ?(?:intact|normal|ok)|no sensorimotor deficit)\\b");

    private static final Pattern ARTERIAL = Pattern.compile(
            "\\b(?:art(?:erial)? (?:doppler|waveform|flow|signal)s?(?: waveform)?|arterial(?= (?:and venous )?(?:doppler|waveform|audible|inaudible|absent|present|not))|(?:dp|postib|pedal|ankle|foot) (?:doppler|waveform)s?|(?:doppler|waveform) (?:\\w+ ){0,3}(?:arterial|dp|postib|pedal)|artery)\\b");
    private static final Pattern VENOUS =
            Pattern.compile("\\b(?:venous(?: doppler| waveform| flow| hum| signal)*|vein)\\b");
    private static final Pattern AUDIBLE = Pattern.compile(
            "\\b(?:audible|heard|present|hear|detectable|found|good|still there|monophasic|biphasic|signal|yes|\\+)(?![a-z])");
    private static final Pattern INAUDIBLE = Pattern.compile(
            "\\b(?:inaudible|not (?:be )?(?:audible|heard|present|detect\\w*|found)|isn't (?:audible|heard)|absent|no (?:arterial|venous|audible|doppler|waveform|dp|pedal|signal|flow|ankle|foot)|cannot (?:be )?(?:hear|heard|find|detect\\w*)|silent|none|nil|neither|lost|no)\\b");

    private static final Pattern CLOCK = Pattern.compile(
            "\\b(?<h>\\d{1,2})(?:[:.](?<m>\\d\\d))? ?(?<ap>am|pm)\\b|\\b(?<hh>[01]?\\d|2[0-3]):(?<mm>[0-5]\\d)\\b|\\b(?<four>[012]\\d[0-5]\\d)(?: ?(?:hour|h|hrs)\\b|(?= (?:today|yesterday|this morning|last night)\\b))");
    private static final Pattern TODAY = Pattern.compile("\\b(?:today|this (?:morning|afternoon|evening)|tonight)\\b");
    private static final Pattern YESTERDAY = Pattern.compile("\\b(?:yesterday|last (?:night|evening))\\b");
    private static final Pattern DAYS_AGO =
            Pattern.compile("\\b(\\d{1,2}) days? (?:ago|back|earlier)\\b|\\b(?:day before yesterday)\\b");

    private record Topic(Set<Side> sides, int sentence, int paragraph) {}

    @Override
    public void read(Page page, Findings findings) {
        Optional<Topic> topic = Optional.empty();
        for (var sentence : page.sentences) {
            denials(page, sentence, findings);
            var found = present(page, sentence, findings);
            if (found.isPresent()) {
                topic = found;
            }
            if (topic.isPresent()
                    && !Polarity.isAboutOthers(sentence)
                    && sentence.number - topic.get().sentence() <= 6
                    && sentence.paragraph - topic.get().paragraph() <= 2) {
                signs(page, sentence, topic.get(), findings);
                onset(page, sentence, topic.get(), findings);
            } else if (topic.isPresent()
                    && sentence.number - topic.get().sentence() <= 14
                    && sentence.section != Sentence.Section.PLAN
                    && !page.legs.mentions(sentence).isEmpty()) {
                doppler(page, sentence, topic.get(), findings);
            }
        }
    }

    private static void denials(Page page, Sentence sentence, Findings findings) {
        if (!sentence.hasAny("acute", "sudden")) {
            return;
        }
        var match = DENIED.matcher(sentence.plain);
        while (match.find()) {
            if (match.group().startsWith("no sudden") || Polarity.isOthers(sentence, match.start(), match.end())) {
                continue;
            }
            var place = page.legs.ofDenial(sentence, match.start(), match.end());
            if (Fit.matches(match.group(), "no acute (?:problem|issue|concern)s?")
                    && place.ground() == Findings.Ground.GENERAL) {
                continue;
            }
            for (var side : place.sides()) {
                findings.put(side.leg("acute.present"), false, sentence.span(match), place.ground());
            }
        }
        var named = NAMED.matcher(sentence.plain);
        while (named.find()) {
            if (Polarity.of(sentence, named) == Polarity.DENIED) {
                var place = page.legs.ofDenial(sentence, named.start(), named.end());
                for (var side : place.sides()) {
                    findings.put(
                            side.leg("acute.present"),
                            false,
                            sentence.span(Polarity.denialStart(sentence, named.start()), named.end()),
                            place.ground());
                }
            }
        }
    }

    private static Optional<Topic> present(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        if (!sentence.hasAny(
                "acute",
                "sudden",
                "morning",
                "yesterday",
                "today",
                "night",
                "hour",
                "abrupt",
                "woke",
                "days",
                "day",
                " am",
                " pm",
                "o'clock",
                "all at once",
                "blue")) {
            return Optional.empty();
        }
        var named = NAMED.matcher(plain);
        while (named.find()) {
            var before = plain.substring(0, named.start());
            if (Polarity.of(sentence, named) == Polarity.STATED
                    && !Fit.matches(
                            before, "(?s).*\\b(?:previous|history of|past|19\\d\\d|20\\d\\d|old|prior)\\b[^.;]{0,25}")
                    && !Fit.matches(plain.substring(named.end()), "(?s)[^.;]{0,20}\\b(?:in )?(?:19|20)\\d\\d.*")) {
                return mark(page, sentence, named.start(), named.end(), findings);
            }
        }
        var sudden = SUDDEN.matcher(plain);
        if (!sudden.find()
                || Polarity.of(sentence, sudden) != Polarity.STATED
                || Fit.matches(
                                plain,
                                "(?s).*\\b(?:claudication|walking|ulcer|years? ago|months? ago|weeks? ago|appointment|seen (?:today|yesterday)|(?:i|we) (?:saw|reviewed|examined|visited))\\b.*")
                        && !Fit.matches(
                                plain, "(?s).*\\b(?:sudden\\w*)\\b[^.;]{0,60}\\b(?:cold|white|pale|numb|dead)\\b.*")) {
            return Optional.empty();
        }
        var limb = Fit.of("\\b(?:leg|foot|toe|calf|limb)s?\\b").matcher(plain);
        var limbNamed = limb.find();
        if (!limbNamed && page.legs.carriedTo(sentence).sides().size() != 1) {
            return Optional.empty();
        }
        var lost = LOST.matcher(plain);
        var isLost = lost.find() && Polarity.of(sentence, lost) == Polarity.STATED;
        var pain = PAIN.matcher(plain);
        var suddenPain = Fit.matches(plain, "(?s).*\\b(?:sudden(?:ly)?|acute|abrupt)\\b.*")
                && pain.find()
                && Polarity.of(sentence, pain) == Polarity.STATED;
        if (!isLost && suddenPain) {
            // Sudden pain alone is an ischaemic leg only with a sign of it close by.
            var next = page.after(sentence)
                    .filter(after -> LOST.matcher(after.plain).find() && after.paragraph - sentence.paragraph <= 1);
            isLost = next.isPresent();
        }
        if (!isLost
                || !limbNamed && !suddenPain
                || Fit.matches(plain, "(?s).*\\b(?:arm|stroke|face|hand|facial|swollen calf|dvt)\\b.*")
                || plain.contains("blue")
                        && !Fit.matches(
                                withNext(page, sentence),
                                "(?s).*\\b(?:cold|white|pale|numb|pulseless|dead|icy)\\b.*")) {
            return Optional.empty();
        }
        return limbNamed
                ? mark(
                        page,
                        sentence,
                        Math.min(sudden.start(), limb.start()),
                        Math.max(sudden.end(), limb.end()),
                        findings)
                : mark(page, sentence, sudden.start(), sudden.end(), findings);
    }

    /** The sentence, and the one behind it in the same paragraph. */
    private static String withNext(Page page, Sentence sentence) {
        return sentence.plain
                + page.after(sentence)
                        .filter(after -> after.paragraph == sentence.paragraph)
                        .map(after -> " " + after.plain)
                        .orElse("");
    }

    private static Optional<Topic> mark(Page page, Sentence sentence, int start, int end, Findings findings) {
        var place = page.legs.of(sentence, start, end);
        if (!place.known() || place.sides().size() != 1) {
            findings.ask(
                    "A leg seems to have become ischaemic suddenly: ask at once which one, and since when.",
                    sentence.span(start, end));
            return Optional.empty();
        }
        for (var side : place.sides()) {
            findings.put(side.leg("acute.present"), true, sentence.span(start, end), Findings.Ground.WORDS);
        }
        return Optional.of(new Topic(place.sides(), sentence.number, sentence.paragraph));
    }

    private static boolean ofOtherLeg(Page page, Sentence sentence, Topic topic, int start, int end) {
        var near = page.legs.near(sentence, start, end);
        return near.known() && !near.sides().equals(topic.sides());
    }

    private static void sign(
            Page page,
            Sentence sentence,
            Topic topic,
            String field,
            Object value,
            java.util.regex.Matcher match,
            Findings findings) {
        if (ofOtherLeg(page, sentence, topic, match.start(), match.end())
                || Polarity.isOthers(sentence, match.start(), match.end())
                || Polarity.isOpen(sentence, match.start())) {
            return;
        }
        for (var side : topic.sides()) {
            findings.putIfUnknown(side.leg("acute." + field), value, sentence.span(match));
        }
    }

    private static void signs(Page page, Sentence sentence, Topic topic, Findings findings) {
        var plain = sentence.plain;
        if (sentence.section == Sentence.Section.PLAN) {
            return;
        }
        yesNo(page, sentence, topic, "pain", PAIN, findings);
        var notPale = NOT_PALE.matcher(plain);
        if (notPale.find()) {
            sign(page, sentence, topic, "pale", false, notPale, findings);
        } else {
            yesNo(page, sentence, topic, "pale", PALE, findings);
        }
        var warm = WARM.matcher(plain);
        if (warm.find()) {
            sign(page, sentence, topic, "cold", false, warm, findings);
        } else {
            yesNo(page, sentence, topic, "cold", COLD, findings);
        }
        sensory(page, sentence, topic, findings);
        motor(page, sentence, topic, findings);
        doppler(page, sentence, topic, findings);
    }

    private static void yesNo(
            Page page, Sentence sentence, Topic topic, String field, Pattern pattern, Findings findings) {
        var match = pattern.matcher(sentence.plain);
        while (match.find()) {
            if (Fit.matches(
                            sentence.plain.substring(Math.max(0, match.start() - 20), match.start()),
                            "(?s).*\\b(?:rest|chest|back|abdominal|previous|no calf) ")
                    || field.equals("pain")
                            && Fit.matches(
                                    sentence.plain.substring(match.end()),
                                    "(?s) (?:clinic|relief|killer|on walking|medication).*")) {
                continue;
            }
            sign(
                    page,
                    sentence,
                    topic,
                    field,
                    !Polarity.isDenied(sentence, match.start(), match.end()),
                    match,
                    findings);
            return;
        }
    }

    private static void sensory(Page page, Sentence sentence, Topic topic, Findings findings) {
        var plain = sentence.plain;
        var feels = FEELS.matcher(plain);
        if (feels.find()) {
            sign(page, sentence, topic, "sensory", "none", feels, findings);
            return;
        }
        var complete = COMPLETE.matcher(plain);
        if (complete.find()
                && (complete.group().startsWith("no ")
                        || complete.group().startsWith("cannot")
                        || !Polarity.isDenied(sentence, complete.start(), complete.end()))) {
            sign(page, sentence, topic, "sensory", "complete", complete, findings);
            return;
        }
        var toes = TOES_ONLY.matcher(plain);
        var numb = NUMB.matcher(plain);
        if (toes.find()
                && !Fit.matches(
                        plain,
                        "(?s).*\\b(?:numb|sensation)\\b[^.;,]{0,30}\\b(?:mid[- ]?foot|ankle|shin|above|beyond|forefoot|calf|knee)\\b.*")) {
            if (!Polarity.isDenied(sentence, toes.start(), toes.end())) {
                sign(page, sentence, topic, "sensory", "toes", toes, findings);
            }
            return;
        }
        if (numb.find()
                && !Polarity.isDenied(sentence, numb.start(), numb.end())
                && Fit.matches(plain, "(?s).*\\b(?:foot|leg|ankle|shin|calf|knee|forefoot|midfoot|it)\\b.*")) {
            sign(page, sentence, topic, "sensory", "beyondToes", numb, findings);
        }
    }

    private static void motor(Page page, Sentence sentence, Topic topic, Findings findings) {
        var plain = sentence.plain;
        var paralysed = PARALYSED.matcher(plain);
        var moves = MOVES.matcher(plain);
        var weak = WEAK.matcher(plain);
        if (paralysed.find()
                && (Fit.matches(
                                paralysed.group(),
                                "(?s)(?:cannot|no |without|won't|unable|complete|power 0|foot drop).*")
                        || !Polarity.isDenied(sentence, paralysed.start(), paralysed.end()))
                && !Fit.matches(
                        paralysed.group(), "cannot (?:move|wiggle|wriggle).*\\b(?:well|freely|fully|much)\\b.*")) {
            sign(page, sentence, topic, "motor", "paralysis", paralysed, findings);
        } else if (moves.find()
                && !Fit.matches(
                        plain.substring(Math.max(0, moves.start() - 12), moves.start()),
                        "(?s).*\\b(?:cannot|barely|hardly|no longer|not) ")
                && !Fit.matches(
                        plain.substring(moves.start()),
                        "(?s)moves?[^.,;]{0,30}\\b(?:weakly|poorly|slowly|with difficulty|a little)\\b.*")
                && !Fit.matches(
                        plain.substring(moves.end()),
                        "(?s),? ?(?:but|though|although) (?:(?:is|are|it is|they are|only|very) )*+weak.*")) {
            sign(page, sentence, topic, "motor", "none", moves, findings);
        } else if (weak.find()
                && !Polarity.isDenied(sentence, weak.start(), weak.end())
                && !Fit.matches(
                        plain.substring(weak.end()),
                        "(?s) (?:pulse|dp|postib|femoral|popliteal|signal|waveform|monophasic).*")) {
            if (!Fit.matches(
                    plain,
                    "(?s).*\\bpulses?\\b.{0,20}\\bweak.*|(?s).*\\bweak\\b.{0,20}\\b(?:pulse|femoral|popliteal).*")) {
                sign(page, sentence, topic, "motor", "mild", weak, findings);
            }
        }
    }

    private static void doppler(Page page, Sentence sentence, Topic topic, Findings findings) {
        var plain = sentence.plain;
        if (!Fit.matches(plain, "(?s).*\\b(?:doppler|waveform|audible|inaudible|venous|hear|heard)\\b.*")) {
            return;
        }
        listen(page, sentence, topic, "arterialDoppler", ARTERIAL, VENOUS, findings);
        listen(page, sentence, topic, "venousDoppler", VENOUS, ARTERIAL, findings);
        var nothing = Fit.of(
                        "\\b(?:cannot hear anything|hear nothing|nothing (?:can be |is )?(?:heard|audible)|no (?:audible )?doppler (?:waveform|flow))\\b")
                .matcher(plain);
        if (nothing.find()) {
            sign(page, sentence, topic, "arterialDoppler", "inaudible", nothing, findings);
            var except = Fit.of("\\bexcept (?:for )?the vein\\b|\\bonly (?:the )?(?:vein|venous)\\b")
                    .matcher(plain);
            if (except.find()) {
                sign(page, sentence, topic, "venousDoppler", "audible", except, findings);
            }
        }
    }

    private static void listen(
            Page page, Sentence sentence, Topic topic, String field, Pattern vessel, Pattern other, Findings findings) {
        var plain = sentence.plain;
        var match = vessel.matcher(plain);
        if (!match.find()
                || Fit.matches(plain, "(?s).*\\bvenous (?:ulcer|insufficien|disease|duplex).*")
                        && field.startsWith("v")) {
            return;
        }
        var next = other.matcher(plain).region(match.end(), plain.length());
        var until = next.find() ? next.start() : plain.length();
        var semicolon = plain.indexOf(';', match.end());
        var comma = plain.indexOf(", ", match.end());
        var end = Math.min(until, semicolon < 0 ? plain.length() : semicolon);
        var behind = plain.substring(match.end(), end);
        var joined = until < plain.length() && Fit.matches(behind, "(?s) ?(?:and|or|nor|/|&|,)? ?(?:no )?(?:the )?$");
        if (joined) {
            behind = plain.substring(until, Math.min(plain.length(), until + 60));
        } else if (comma > 0
                && comma < end
                && AUDIBLE.matcher(plain.substring(match.end(), comma)).find()) {
            behind = plain.substring(match.end(), comma);
        }
        var ahead = plain.substring(
                Math.max(sentence.clauseStart(match.start()), Math.max(0, match.start() - 45)), match.start());
        if (ahead.contains(",") && other.matcher(ahead).find()) {
            ahead = ahead.substring(ahead.lastIndexOf(',') + 1);
        }
        String value;
        if (INAUDIBLE
                        .matcher(behind.length() > 60 ? behind.substring(0, 60) : behind)
                        .find()
                && !Fit.matches(behind, "(?s).{0,30}\\b(?:but|no monophasic)\\b.*")) {
            value = "inaudible";
        } else if (INAUDIBLE.matcher(ahead).find()) {
            value = "inaudible";
        } else if (AUDIBLE.matcher(behind).find() || AUDIBLE.matcher(ahead).find()) {
            value = "audible";
        } else {
            return;
        }
        sign(page, sentence, topic, field, value, match, findings);
    }

    private static void onset(Page page, Sentence sentence, Topic topic, Findings findings) {
        var written = page.written;
        var plain = sentence.plain;
        if (written.isEmpty()
                || sentence.number - topic.sentence() > 2
                || Fit.matches(plain, "(?s).*\\b(?:i|we) (?:saw|reviewed|examined|visited|spoke)\\b.*")
                        && !plain.contains("sudden")) {
            return;
        }
        if (sentence.number != topic.sentence()
                && !Fit.matches(
                        plain,
                        "(?s).*\\b(?:onset|started|began|came on|happened|since|it was|occurred|first noticed|symptoms)\\b.*")) {
            return;
        }
        var day = written.get();
        var today = TODAY.matcher(plain);
        var yesterday = YESTERDAY.matcher(plain);
        var ago = DAYS_AGO.matcher(plain);
        Optional<java.time.LocalDate> date = Optional.empty();
        var start = 0;
        var end = 0;
        if (ago.find()) {
            date = Optional.of(day.minusDays(ago.group(1) == null ? 2 : Integer.parseInt(ago.group(1))));
            start = ago.start();
            end = ago.end();
        } else if (yesterday.find()) {
            date = Optional.of(day.minusDays(1));
            start = yesterday.start();
            end = yesterday.end();
        } else if (today.find()) {
            date = Optional.of(day);
            start = today.start();
            end = today.end();
        } else {
            for (var found : page.dates.in(plain)) {
                var before = plain.substring(0, found.start());
                if (Fit.matches(
                                before,
                                "(?s).*\\b(?:on|since|onset|began|started)(?: on)?(?: the)?(?: evening of| morning of| night of)?(?: the)? ?$")
                        && !Fit.matches(before, "(?s).*\\b(?:stent|bypass|cta|duplex|scan)\\b.*")) {
                    date = Dates.past(found, written)
                            .filter(past -> !past.isAfter(day) && past.isAfter(day.minusDays(30)));
                    start = found.start();
                    end = found.end();
                    break;
                }
            }
        }
        if (date.isEmpty()) {
            return;
        }
        var clock = CLOCK.matcher(plain);
        var value = date.get().toString();
        if (clock.find()) {
            var time = time(clock);
            if (time.isPresent() && Math.abs(clock.start() - end) < 40) {
                value += "T" + time.get();
                start = Math.min(start, clock.start());
                end = Math.max(end, clock.end());
            }
        } else if (today.reset().find()
                && !plain.contains("this morning")
                && date.get().equals(day)
                && !Fit.matches(plain, "(?s).*\\b(?:sudden\\w*|since|onset|began|started|woke)\\b.*")) {
            return;
        }
        for (var side : topic.sides()) {
            findings.putIfUnknown(side.leg("acute.onset"), value, sentence.span(start, end));
        }
    }

    private static Optional<LocalTime> time(java.util.regex.Matcher clock) {
        if (clock.group("four") != null) {
            return Optional.of(LocalTime.of(
                    Integer.parseInt(clock.group("four").substring(0, 2)),
                    Integer.parseInt(clock.group("four").substring(2))));
        }
        if (clock.group("hh") != null) {
            return Optional.of(LocalTime.of(Integer.parseInt(clock.group("hh")), Integer.parseInt(clock.group("mm"))));
        }
        var hour = Integer.parseInt(clock.group("h"));
        var minute = clock.group("m") == null ? 0 : Integer.parseInt(clock.group("m"));
        if (hour > 12 || hour == 0 || minute > 59) {
            return Optional.empty();
        }
        return Optional.of(LocalTime.of(hour % 12 + (clock.group("ap").equals("pm") ? 12 : 0), minute));
    }
}
