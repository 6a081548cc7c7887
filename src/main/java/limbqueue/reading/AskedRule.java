package limbqueue.reading;

import java.util.regex.Pattern;

/** What the doctor asks for: how soon, and whether it should be sooner still and why. */
final class AskedRule implements Rule {

    private static final Pattern STAT = Pattern.compile(
            "\\b(?:stat(?! \\d| ?\\? ?no|\\?)|emergency(?! department| room| dept| doctor| physician| medicine| contact| services| call| unit| admission was| care)|emergent(?:ly)?|immediate(?:ly)?|same[- ]day(?= (?:review|assess\\w+|appointment|admission|visit|eval\\w*|opinion|attention))|straight away|at once|right away|without delay)\\b");
    private static final Pattern ASAP =
            Pattern.compile("\\b(?:as soon as (?:possible|you can)|as quickly as (?:possible|you can))\\b");

    /** What may be said of any request, and counts where nothing else is said. */
    private static final Pattern SOON = Pattern.compile(
            "\\b(?:(?:as |the )?(?:earliest|soonest) (?:possible|convenience|available|opportunity|appointment|appt|slot|date)|very soon)\\b");

    /** "Priority: soon". */
    private static final Pattern LABELLED_SOON =
            Pattern.compile("^(?:urgency|priority|category|referral priority|timescale) ?[:=-] ?soon\\b(?! ?/)");

    private static final Pattern URGENT = Pattern.compile("\\b(?:urgent(?:ly)?|pressing)\\b");
    private static final Pattern ROUTINE =
            Pattern.compile("\\b(?:routine(?:ly)?|non[- ]?urgent(?:ly)?|not urgent|isn't urgent|nothing urgent)\\b");
    private static final Pattern NO_HURRY = Pattern.compile(
            "\\b(?:no urgency|no hurry|no rush|when(?:ever)? (?:convenient|you (?:can|have (?:a )?(?:slot|time|space)))|elective(?:ly)?|in your own time|at your (?:leisure|convenience))\\b");
    private static final Pattern URGENCY = Pattern.compile(
            "(?:routine|urgent|emergency|stat|as soon as possible|immediate|soon|non-? ?urgent|not urgent|elective)\\b");
    /** A form that was left as it is printed: "routine / urgent / emergency". */
    private static final Pattern CHOICE =
            Pattern.compile("\\b(?:non-? ?urgent|routine|urgent|soon|emergency|elective|stat) ?(?:/|\\||or) ?"
                    + "(?:routine|urgent|soon|emergency|elective|stat)\\b");

    private static final Pattern URGENCY_LABEL = Pattern.compile(
            "^[^\\[(\u2610-\u2612]{0,40}?\\b(?:urgency|priority|category|requested|request|timescale)\\b[a-z ]{0,20}:?");
    private static final Pattern REQUEST = Pattern.compile(
            "\\b(?:please|pls|plz|see|seen|review|appointment|appt|refer\\w*|request\\w*|priority|opinion|assess\\w*|ask\\w*|consult\\w*|grateful|thank|appreciate|could you|would you|can you|your|list|clinic|advice|triage|help|urgency|need|advise|him|her|attention|eval\\w*|kindly|glad|view|category|transfer|admission)\\b");
    private static final Pattern NOT_ASKED = Pattern.compile(
            "\\b(?:(?:mg|mcg|units?|iu|ml|iv|im|po|sc|bolus|given|dose|gtt) stat|routine(?:ly)? (?:\\w+ )?(?:bloods?|blood tests?|medication|check|screening|labs?|surgery|follow|foot|follow-up|exam\\w*|observations|health|annual|review in)|(?:annual|during|his|her|attended (?:for )?|at) (?:a )?routine (?:check|visit|exam|bloods?|clinic|appointment|review)|urgent (?:care|dialysis|surgery in|bypass|operation in|admission in|care centre|hospital admission)|emergency (?:bypass|surgery|operation|admission|repair)|immediate(?:ly)? (?:after|relief|postoperative|below|distal|post)|(?:wait(?:s|ing)? (?:for|until) [a-z ]{0,20}|(?:next|usual|normal|ordinary|not for|not on|not a|than) (?:a |the )?)routine|routine of|return urgently|(?:asked|told|wants|wanted) me to (?:write|say|mark|put|call|make)[^.;]{0,20}|in an emergency|in case of (?:an )?emergency|back urgently|come back (?:urgent|immediately|at once)|(?:to )?(?:return|attend|go to|come|present)(?: \\w+){0,6} (?:immediately|at once|straight away|urgently|right away)|heart.{0,20}urgent|(?:daughter|son|wife|husband|partner|family|relatives?|mother|father|sister|brother|niece|nephew|carer) (?:also |now |really )?(?:insists?|thinks?|believes?|feels?|claims?|demands?|says?|said|insisted)\\b[^.;]{0,30})\\b");

    private static final Pattern EXPEDITE = Pattern.compile(
            "\\b(?:expedit\\w+|(?:be |him |her |get |seen |treated |done |it )?(?:sooner|earlier|faster|quicker)(?: than(?! (?:expected|before|usual|normal|last|in|at|he|she|it|i|we)\\b))?(?: appointment| date| slot| if| please)?|bring (?:\\w+ ){0,4}forward|brought forward|jump the queue|move (?:\\w+ ){0,3}up (?:the|your) (?:list|queue)|(?:your |on the |for a )cancellation(?:s| list| slot)?|short[- ]notice (?:list|slot|appointment)|fast[- ]track\\w*|speed(?:ed)? up|hurry (?:things|this|it)|(?:would like|wants?|wishes|hopes?|hoping|like|asks?|asking|keen|needs?|prefer\\w*|anxious)(?: \\w+){0,12} (?:before|in time for|prior to|ahead of)|(?:seen|treated|done|sorted|fixed|better|walking|procedure|it|appointment|see (?:him|her)|see \\w+)(?: \\w+){0,4} (?:before|in time for|prior to|ahead of)(?= (?:he|she|his|her|the|their|a|this|that|they|\\d|leaving|christmas|easter|sail\\w*|fl\\w+|travel\\w*|january|february|march|april|may|june|july|august|september|october|november|december))|before the (?:wedding|cruise|holiday|trip)|if (?:at all )?possible before)\\b");
    /** "Bloods to be done before the angiogram", "if it gets worse she should be seen sooner". */
    private static final Pattern NO_HASTE = Pattern.compile(
            "\\b(?:(?:before|in time for|prior to|ahead of) (?:(?:the|any|his|her|their|a|an|your|this|each|next) )?(?:\\w+ )?(?:procedures?|angio\\w*|contrast|surgery|operation|intervention|treatment|stent\\w*|scans?|ct|cta|mra|mri|duplex|injections?|clinic|visits?|consult\\w*|dos\\w+|meals?|bed(?:time)?|walking|stopping|starting|admission|discharge|transfer|dialysis)"
                    + "|(?:if|should|in case|unless)\\b[^.;]{0,50}\\b(?:worse\\w*|worsen\\w*|deteriorat\\w*|changes?|develops?|problems?|black|spreads?))\\b");

    /** "Bloods were done before he left", "wants to know before the holiday whether", "faster than expected". */
    private static final Pattern DONE_BEFORE = Pattern.compile(
            "\\b(?:was|were|been|had) (?:seen|treated|done|sorted|fixed)(?: \\w+){0,4} (?:before|in time for|prior to|ahead of)\\b"
                    + "|\\b(?:know|hear|told|understand|advice|advise|ask you|reassurance|letter|answer|reply)\\b[^.;]{0,20} before\\b"
                    + "|\\b(?:sooner|earlier|faster|quicker|quickly) than (?:expected|usual|normal|before|last)\\b");

    private static final Pattern TRAVEL = Pattern.compile(
            "\\b(?:cruise|holiday|travel\\w*|trip|vacation|flight|fl(?:y|ies|ying)|sail\\w*|abroad|tour|pilgrimage|voyage|journey|leaves for|leaving for|winter in|ship|overseas|safari)\\b");
    private static final Pattern PERSONAL = Pattern.compile(
            "\\b(?:wedding|marri\\w+|married|daughter|son|family|grand\\w+|work|job|employ\\w+|harvest|business|christening|birthday|anniversary|moving|house|retire\\w*|golf|season|concert|school|graduation|carer|cares for|shop|lambing|exam|funeral|reunion|move)\\b");
    private static final Pattern CLINICAL = Pattern.compile(
            "\\b(?:pain|ulcer|gangrene|wound|worse\\w*|deteriorat\\w+|infect\\w+|limb|tissue|rest|leg|foot|toe|lose|losing|spread\\w*|opioid\\w*|morphine|sleep\\w*|progress\\w*|condition|clinical\\w*|black|necro\\w*)\\b");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            priority(page, sentence, findings);
            expedite(page, sentence, findings);
        }
        if (findings.words("asked.priority").isEmpty()) {
            for (var sentence : page.sentences) {
                put(page, sentence, SOON, "asap", findings);
                put(page, sentence, NO_HURRY, "routine", findings);
            }
        }
    }

    private static void priority(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        if (sentence.section == Sentence.Section.FAMILY || CHOICE.matcher(plain).find() || box(sentence, findings)) {
            return;
        }
        put(page, sentence, STAT, "stat", findings);
        put(page, sentence, ASAP, "asap", findings);
        put(page, sentence, LABELLED_SOON, "asap", findings);
        if (!ROUTINE.matcher(plain).find()
                || !Fit.matches(plain, "(?s).*\\b(?:non[- ]?urgent|not urgent|isn't urgent|nothing urgent)\\b.*")) {
            put(page, sentence, URGENT, "urgent", findings);
        }
        put(page, sentence, ROUTINE, "routine", findings);
    }

    /** A form with boxes: "[ ] routine [X] urgent". */
    private static boolean box(Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        var label = URGENCY_LABEL.matcher(plain);
        var options = TickBoxes.in(plain, label.find() ? label.end() : 0).stream()
                .filter(option -> option.words().length() < 40)
                .filter(option -> URGENCY.matcher(option.words()).lookingAt())
                .toList();
        if (options.isEmpty()) {
            return false;
        }
        var ticked = options.stream().filter(TickBoxes.Option::ticked).toList();
        if (ticked.size() == 1) {
            var answer = ticked.getFirst();
            findings.put("asked.priority", priority(answer.words()), sentence.span(answer.start(), answer.end()));
        }
        return true;
    }

    private static String priority(String answer) {
        if (Fit.matches(answer, "(?:routine|non|not urgent|elective).*")) {
            return "routine";
        }
        if (answer.startsWith("urgent")) {
            return "urgent";
        }
        return Fit.matches(answer, "(?:as soon|soon).*") ? "asap" : "stat";
    }

    private static void put(Page page, Sentence sentence, Pattern pattern, String value, Findings findings) {
        var plain = sentence.plain;
        var match = pattern.matcher(plain);
        while (match.find()) {
            var around = plain.substring(Math.max(0, match.start() - 50), Math.min(plain.length(), match.end() + 25));
            var other = NOT_ASKED.matcher(around);
            if (other.find()) {
                continue;
            }
            var alone = plain.length() <= match.end() - match.start() + 22;
            var negated = !value.equals("routine") && Polarity.isDenied(sentence, match.start(), match.end());
            if (negated
                    || Fit.matches(
                                    plain.substring(0, match.start()),
                                    "(?s).*\\b(?:if|should|was|were|had|has been|taken|admitted)\\b[^.;]{0,60}")
                            && !Fit.matches(
                                    plain.split(";", -1)[0].length() > match.start() ? plain.split(";", -1)[0] : plain,
                                    "(?s).*\\b(?:please|grateful|could|appreciate|if possible|thank|glad)\\b.*")) {
                continue;
            }
            if (value.equals("urgent")
                    && Fit.matches(
                            plain.substring(match.end()),
                            "(?s) (?:bloods?|cta|duplex|admission|referral (?:was|to (?:cardiology|renal))).*")
                    && !plain.contains("please")) {
                continue;
            }
            if (alone
                    || REQUEST.matcher(plain).find()
                    || page.sentences.size() - sentence.number <= 5
                    || sentence.number < 6) {
                var known = findings.get("asked.priority");
                if (known.isEmpty() && findings.words("asked.priority").isEmpty()) {
                    findings.put("asked.priority", value, sentence.span(match));
                } else if (value.equals("stat")
                        && known.filter(told -> told.asString().equals("urgent")
                                        || told.asString().equals("asap"))
                                .isPresent()) {
                    findings.forget("asked.priority");
                    findings.put("asked.priority", value, sentence.span(match));
                }
                return;
            }
        }
    }

    private static void expedite(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        var match = EXPEDITE.matcher(plain);
        if (!match.find()
                || sentence.section == Sentence.Section.FAMILY
                || !match.group().startsWith("expedit")
                        && NO_HASTE.matcher(plain).find()) {
            return;
        }
        var before = plain.substring(0, match.start());
        if (Fit.matches(
                                before,
                                "(?s).*\\b(?:not|nobody|no one|don't|isn't|no need to|no reason to|doesn't|hasn't|never|noticed|stopping (?:him|her)|years?|months?|weeks?|days?|distance|stops)\\b[^.;]{0,25}")
                        && !match.group().startsWith("expedit")
                || Fit.matches(
                        plain,
                        "(?s).*\\b(?:not (?:asking|request\\w*) (?:for )?(?:\\w+ )?(?:to )?(?:be )?(?:expedit\\w*|sooner|earlier))\\b.*")
                || DONE_BEFORE.matcher(plain).find()
                || Fit.matches(match.group(), "(?:sooner|earlier|it sooner|faster|quicker|her sooner every|earlier.*)")
                        && !Fit.matches(
                                plain,
                                "(?s).*\\b(?:please|can|could|seen|see|appointment|would|possible|grateful|hope|like|ask\\w*|date|anything)\\b.*")
                || Fit.matches(
                        plain,
                        "(?s).*\\b(?:sooner or later|no sooner|stopped (?:him|her)|stops (?:him|her)|rest pain before|earlier (?:this|today|letter|in))\\b.*")) {
            return;
        }
        findings.putIfUnknown("asked.expedite", true, sentence.span(match));
        var ground = ground(plain);
        var words = sentence;
        if (ground.isEmpty()) {
            var previous = page.before(sentence).filter(earlier -> earlier.paragraph == sentence.paragraph);
            var next = page.after(sentence).filter(later -> later.paragraph == sentence.paragraph);
            for (var other : java.util.List.of(next, previous)) {
                if (ground.isEmpty()
                        && other.isPresent()
                        && (TRAVEL.matcher(other.get().plain).find()
                                || Fit.matches(other.get().plain, "(?s).*\\b(?:wedding|harvest|job|work)\\b.*"))) {
                    ground = ground(other.get().plain);
                    words = other.get();
                }
            }
        }
        if (!ground.isEmpty()) {
            var pattern = ground.equals("travel") ? TRAVEL : ground.equals("personal") ? PERSONAL : CLINICAL;
            var reason = pattern.matcher(words.plain);
            if (reason.find()) {
                findings.putIfUnknown("asked.expediteGrounds", ground, words.span(reason));
            }
        }
    }

    private static String ground(String plain) {
        if (TRAVEL.matcher(plain).find()) {
            return "travel";
        }
        if (Fit.matches(
                plain,
                "(?s).*\\b(?:wedding|harvest|work|job|business|moving|christening|lambing|retire\\w*|anniversary|birthday|graduation)\\b.*")) {
            return "personal";
        }
        if (CLINICAL.matcher(plain).find()) {
            return "clinical";
        }
        return PERSONAL.matcher(plain).find() ? "personal" : "";
    }
}
