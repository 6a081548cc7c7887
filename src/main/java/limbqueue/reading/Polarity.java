package limbqueue.reading;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Whether words are stated, denied, or neither: asked, planned, feared, or said of somebody else. */
enum Polarity {
    STATED,
    DENIED,
    OPEN;

    /** Words after which what follows is denied, up to the end of their clause. */
    private static final Pattern NEGATOR = Pattern.compile(
            "\\b(?:no longer|no evidence of|no (?:clinical |obvious |overt )?signs? of|no|none of|not|nor|neither|never|without|denies|nil(?! ?[,.;])|free (?:of|from)|"
                    + "absence of|negative for|doesn't|don't|hasn't|isn't|cannot(?! (?:really )?(?:say|tell|comment|judge|assess|be sure|know|remember|recall)\\b)|won't|rule[sd] out|lacks|lacking|lack of|devoid of|"
                    + "excluded|never had)\\b|(?<=[ (,;:])-ve\\b|\\bneg(?:ative)? (?:for)?|(?<=^|[ (,;])(?:0|\u00f8) (?=rest|ulcer|gangrene)|(?<=^|[ ,;:])\\(-\\)");

    /** What is feared, asked or left blank behind the words. */
    private static final Pattern OPEN_AFTER = Pattern.compile(
            "^(?: (?:(?:of|in|on) )?(?:the |his |her )?(?:left |right |bilateral )?(?:leg|foot|toe|great toe|heel|side))?(?: ?\\?(?=$| ?[,.;)])| ?[:?]? ?(?:\\. ?|_ ?){3,}"
                    + "| (?:should|must) (?:prompt|lead|trigger|be (?:reported|excluded|sought))\\b| ?[:=-] ?(?:not (?:asked|known|assessed|recorded|told|examined)|unknown|unclear|unsure|n/k)\\b"
                    + "| (?:is|was|are|were|has been|had been) (?:only |merely |once |also |then )?(?:considered|queried|wondered about|raised|suggested|thought of|mooted|debated)\\b(?! (?:to be|as))| (?:(?:was|were|is|has been) )?(?:refused|turned down|advised against|never done|not done|not carried out)\\b| (?:unlikely|doubtful)\\b"
                    + "| (?:is|was|are) (?:only |merely |now )?(?:unlikely|doubtful|questionable|uncertain|unclear|suspected|possible|feared|a (?:risk|worry|concern|possibility)|what (?:i|we|he|she) (?:fear|dread|worr)\\w*)\\b"
                    + "| (?:could|might|may|would|will) (?:follow|develop|ensue|supervene|occur|set in|be next|come next|become)\\b|, if (?:it|they|this) (?:occurs?|develops?|appears?)\\b)");

    /** Words that only look like a denial of what follows. */
    private static final Pattern NO_DENIAL = Pattern.compile(
            "^cannot (?:walk|go|get|manage)(?: \\w+){0,3} (?:further|farther|more|beyond|past)\\b|^(?:no|without|not)(?:,? (?:any|much|real|significant|further|been|that|so|quite|yet|as|to|a|the|be))* "
                    + "(?:change|chang\\w+|improve\\w*|progress\\w*|worsen\\w*|deteriorat\\w*|response|relie\\w+|benefit|doubt|better|worse|difference|treatment for|treated|"
                    + "healing|healed|heal|settl\\w+|responding|responded|controlled|only|just|bigger|smaller|larger|more than|less than|matter|option|help\\w*|surprising\\w*|sure|certain|convinced|happy|keen|"
                    + "reason|sooner|explained|due to|because|interfere|seen before|\\d|aware|clear|known to)\\b|^no\\. ?\\d");

    /** Where a denial ends although its clause goes on. */
    private static final Pattern ENDS_DENIAL = Pattern.compile(
            "\\b(?:but|however|until|except|apart from|other than|because|since (?:the|he|she|his|her)|now|still|has|have|had|which|who|where|when|"
                    + "with(?: a| an)? (?!rest|out)|on the (?:left|right)(?= (?:has|is|he|she))|resulting|secondary to|due to|besides|unlike|and (?:has|is|a|an|on|his|her|the|now|also|there)|only|just|presents?|complains)\\b|[()]");

    private static final Pattern DENIED_AFTER = Pattern.compile(
            "^(?: (?:in|of|on|to|at) (?:the |his |her |either |bilateral |both )?(?:left|right|bilateral)? ?(?:leg|foot|toe|side|heel|present)?s?)?"
                    + "[\"')]*(?! ?\\((?:no|nil|never|none) [a-z])(?: ?[:?=-]+ ?| )(?:\\(|\\[)?(?:(?:is|are|was|were|has been|have been|being) )?(?:(?:currently|completely|both|all|clinically|also) )?"
                    + "(?:absent|denies|none|nil|no(?! (?:change|better|worse|longer|improvement|matter|relief|response|rest pain|ulcer|gangrene|infection|claudication|wound|history))|n(?=$|[ ,;.)/])(?!/)|not (?:present|seen|found|reported|noted|evident|detected|a feature|an issue|a problem|experienced|applicable|suspected|identified)|"
                    + "isn't (?:present|seen|found|reported|noted|a feature|a problem|an issue|evident)|negative|neg|-ve|excluded|ruled out|has not|0(?![\\d.])|false|denied|never|x(?=$|[,;.]))(?![a-z])");

    /** "Rest pain (right): no". */
    private static final Pattern DENIED_OF_SIDE = Pattern.compile(
            "^ ?-(?= ?(?:[.,;)]|$))|^(?: ?\\((?:left|right|bilateral)(?: leg| foot| side)?\\)| (?:left|right|bilateral)(?: leg| foot| side)?)"
                    + " ?[:=?-] ?(?:none|nil|no|n|absent|denied|denies|neg(?:ative)?)(?= ?[.,;)]|$)");

    /** "Rest pain / ulcers / gangrene: none". */
    private static final Pattern DENIED_LIST_AFTER = Pattern.compile(
            "^(?: ?[/,&] ?(?:or |and )?(?:rest pain|ulcer|gangrene|tissue loss|wound|claudication|infection|necrosis)){1,4}"
                    + " ?[:?=-]+ ?(?:none|nil|no|absent|denied|denies|neg(?:ative)?)(?= ?[.,;)]|$)");

    private static final Pattern STATED_AFTER =
            Pattern.compile("^ ?[:?=-]+ ?(?:\\(|\\[)?(?:y|yes|present|positive|\\+|\\+ve|true)(?![a-z])");

    /** Words after which what follows is not said to be so. */
    private static final Pattern OPENER = Pattern.compile(
            "(?:^(?:were|should)(?= )|\\b(?:if|^any(?= )|(?:cannot|hard to|difficult to|impossible to) (?:really )?(?:say|tell|comment|judge|assess|be sure|know)|(?:asked|read|heard) (?:him |her )?(?:about|whether|if|for|that)|(?:will|to|would) (?:review|reassess|recheck) (?:him |her |it )?for|(?:pending|awaited|awaiting|requested|booked|arranged|ordered) (?:for|to)|(?:please|to|kindly|could you|can you) (?:assess|check|evaluate|examine|investigate) (?:him |her |this patient )?for|(?<![a-z] )were (?:he|she|it|they|there|this|the|any|\\w+ (?:im)?possible)|were (?:he|she) (?:ever )?to|should (?:he|she|it|they|there|the|this|any)|in case|in the event|at risk|risks? (?:of|for)|(?:to|would|could|cannot|not|and|help|need to|want to|like to|can you|you|please|can't be|be) (?:definitively |formally )?(?:exclude[ds]?|rule[ds]? out)|"
                    + "excluding|exclude|r/o|rule out|query|queries|possible|possibly|\\?possible|potential(?:ly)?|probable|probably|suspect(?:ed|s|ing)?|suspicious|suspicion|"
                    + "(?:worried|worries|worry|fears?|afraid|anxious|nervous) (?:about|of|that|she|he|it|lest)?|(?<!in )(?<!since )(?<!last )(?<!early )(?<!late )(?<!of )(?<!\\d )(?<!until )may(?! \\d)|might|would|could(?! (?:not |only |just |easily |now |still )*+(?:feel|find|palpate|hear|detect)\\b)|unless|prevent(?:s|ing|ion)?|avoid(?:s|ing)?|threat of|threatened|screen(?:ed|ing)? for|"
                    + "warn(?:ed|ing)?|advised (?:him |her |them )?(?:to|that|about)|told (?:him |her |them )?(?:to (?:look|watch|return|come back|ring|call)|that)|leaflet|information (?:on|about)|until|before (?:it|this|the|he|she|there|any|we)|lest|whether|"
                    + "look(?:ing)? (?:out )?for|watch(?:ing)? for|wonder(?:ed|ing|s)?|differential|versus|vs|rather than|monitor(?:ing)? for|signs to|safety net(?:ted|ting)?|in the absence of|"
                    + "consider(?:ing|ed|ation)?|perhaps|maybe|presumably|to develop|will (?:need|require|be|have|develop|get|become|lose|end)|unlikely|likely|think(?:s|ing)? (?:of|about|this is|it is)|concern(?:s|ed)? (?:for|of|about|that|re)|mimic(?:s|king)?|not sure|unsure|uncertain|question(?:able)? of|question of)\\b)");

    private static final Pattern DOUBTED = Pattern.compile("\\?+ ?(?:early |underlying |new |an? |mild |any )?$");

    private static final Pattern PAST = Pattern.compile(
            "\\b(?:previous(?:ly)?|prior|former(?:ly)?|in the past|history of|past|old|healed|resolved|recovered from|used to|"
                    + "last (?:year|summer|winter|autumn|spring|month)|years? ago|(?:19|20)\\d\\d)\\b");

    private static final String PERSON =
            "(?:(?:mother|father|brother|sister|son|daughter)s?-in-law|fathers?|dad|mothers?|mum|mom|brothers?|sisters?|sons?|daughters?|daughter-in-law|wife|husband|uncles?|aunts?|cousins?|"
                    + "grandfather|grandmother|grandson|granddaughter|parents?|siblings?|partner|(?:lady|man|woman|gentleman|patient|resident|person|chap|someone|somebody) (?:in (?:his|her|the) (?:next |same |other )?(?:bed|room|ward|bay)|next door|next to|opposite)|neighbou?rs?|friends?|twin|spouse|nephews?|nieces?|step-?(?:father|mother|son|daughter|brother|sister)|boyfriend|girlfriend|fianc\\w{1,2}|godson|landlord|landlady|pal|buddy|kids|grandparents?|roommate|flatmate|colleague's|"
                    + "donor|co-?worker|wife's|in (?:the |his |her )?family|relatives? with|sis|bro|hubby|neph|mate|room-?mate|lodger|tenant|a colleague of (?:his|hers)|family history|family hx|fhx?|f/h|runs in the family|strong family)";
    private static final Pattern OTHERS = Pattern.compile("\\b" + PERSON + "(?:'s)?\\b");
    /** ", who lives with him, is on dialysis", " Ian died after an amputation", " Carlos had a stent". */
    private static final Pattern OWN_STORY = Pattern.compile(
            "^, who [^,.;]{3,50}+, (?:is|has|had|takes|was|died|suffers|smokes|uses|lost|underwent)\\b"
                    + "|^,? (?!and |who |has |have |had |is |was |also |now |says |said |that |which |she |he |then |but |once |recently |never |not |with |since )\\p{L}{3,15}+,? (?:has|had|is on|was on|died|takes|suffers|lost|underwent|smokes|smoked|needed)\\b[^.;]{0,80}$");

    private static final Pattern OBSERVES = Pattern.compile(
            "^,? ?(?:who (?:is|lives|cares|came|brought|was|helps)[a-z ]{0,40}?,? )?(?:and (?:he|she|i) )?(?:has |have |had |also |now |who )?(?:says?|said|reports?|reported|notic\\w+|tells?|told|states?|thinks?|feels?|calls?|called|found|finds|"
                    + "brought|brings|asks?|asked|phoned?|rang|rings?|helps?|helped|cares?|saw|sees|dresses|changes|describes?|noted|confirms?|mention(?:s|ed)|showed|shows|does|do|drives?|drove|insist\\w*|writes?|wrote|complain\\w*|observ\\w+|spotted|smelt|smelled|alerted|pointed|took|lives|is (?:worried|concerned|very worried|her carer|his carer|with)|has noticed|was concerned|became)\\b");

    private static final Pattern SUBJECT = Pattern.compile(
            "^(?:[*-] ?)?(?:(?:but|and|also|sadly|unfortunately|incidentally|actually|apparently),? )*(?:(?:his|her|my|their|our|the|an?) )?(?:(?:own|younger|older|elder|late|other|eldest|youngest|two|three|\\d) )*"
                    + PERSON + "\\b(?:'s)?");
    /** "I myself take warfarin": said of whoever writes for the patient. */
    private static final Pattern OF_THE_WRITER = Pattern.compile(
            "\\bi myself (?:take|have|had|am|was|use|smoke|suffer|get|lost|need)\\b|\\bi am (?:(?!sure|certain|worried)\\w+ ){1,3}myself\\b|\\bi (?:have|had) (?:it|one|this|that|the same)\\b[^.;]{0,20}\\bmyself\\b"
                    + "|\\bi (?:have|had|take|suffer from|am on|use) [^.;,]{1,40} (?:myself|too)\\b");

    /** Whether a sentence begins with somebody else, and not with what somebody else noticed. */
    static boolean isAboutOthers(Sentence sentence) {
        var subject = SUBJECT.matcher(sentence.plain);
        return subject.find()
                && !OBSERVES.matcher(sentence.plain.substring(subject.end())).find();
    }

    /** What is said of {@code sentence} from {@code start} to {@code end}. */
    static Polarity of(Sentence sentence, int start, int end) {
        if (isOthers(sentence, start, end)
                || isOpen(sentence, start)
                || OPEN_AFTER
                        .matcher(sentence.plain)
                        .region(end, sentence.plain.length())
                        .find()) {
            return OPEN;
        }
        var box = box(sentence, start, end);
        if (box != null) {
            return box;
        }
        return isDenied(sentence, start, end) ? DENIED : STATED;
    }

    static Polarity of(Sentence sentence, Matcher match) {
        return of(sentence, match.start(), match.end());
    }

    private static final Pattern TICKED = Pattern.compile("\\[ ?[xy✓✔] ?\\]|\\( ?[xy✓✔] ?\\)|[☑☒✔]");
    private static final Pattern ANY_BOX = Pattern.compile("\\[ ?[xyn✓✔]? ?\\]|\\( ?[xyn✓✔]? ?\\)|[☐☑☒✔]");

    private static final String BOX = "(\\[ ?[xy✓✔]? ?\\]|\\( ?[xy✓✔]? ?\\)|[☐☑☒✔])";
    private static final String YES_OR_NO = "(yes|no|y|n)\\b";
    private static final String TO_ANSWER = "^(?: (?:left|right|bilateral)(?: leg| foot)?)? ?[:?]? ?";
    private static final Pattern BOXES_FIRST =
            Pattern.compile(TO_ANSWER + BOX + " ?" + YES_OR_NO + "(?:[ ,;/]*+" + BOX + " ?" + YES_OR_NO + ")?");
    private static final Pattern BOXES_LAST =
            Pattern.compile(TO_ANSWER + YES_OR_NO + " ?" + BOX + "[ ,;/]*+" + YES_OR_NO + " ?" + BOX);

    /** What boxes for yes and no behind the words say; null where there are none. */
    private static @org.jspecify.annotations.Nullable Polarity answered(String after) {
        for (var pattern : java.util.List.of(BOXES_FIRST, BOXES_LAST)) {
            var match = pattern.matcher(after);
            if (!match.find()) {
                continue;
            }
            var shift = pattern == BOXES_FIRST ? 0 : 1;
            for (var pair = 0; pair <= 2; pair += 2) {
                var box = match.group(1 + pair + shift);
                var word = match.group(2 + pair - shift);
                if (box != null && word != null && TICKED.matcher(box).matches()) {
                    return word.startsWith("y") ? STATED : DENIED;
                }
            }
            return OPEN;
        }
        return null;
    }

    /** What a box to tick says of the words beside it; null where there is none. An empty box says nothing. */
    private static @org.jspecify.annotations.Nullable Polarity box(Sentence sentence, int start, int end) {
        var plain = sentence.plain;
        var boxes = ANY_BOX.matcher(plain);
        if (!boxes.find()) {
            return null;
        }
        var answered = answered(plain.substring(end));
        if (answered != null) {
            return answered;
        }
        var lead = plain.substring(0, boxes.start());
        var boxFirst = lead.isBlank() || Fit.matches(lead, "(?s).*: ?");
        var match = ANY_BOX.matcher(plain);
        while (match.find()) {
            var beside = boxFirst
                    ? match.end() <= start && Fit.matches(plain.substring(match.end(), start), " ?(?:[a-z]+ ){0,2}")
                    : match.start() >= end && Fit.matches(plain.substring(end, match.start()), " ?:? ?(?:[a-z]+ ?)?");
            if (beside) {
                return TICKED.matcher(match.group()).find()
                        ? STATED
                        : match.group().contains("n") ? DENIED : OPEN;
            }
        }
        return null;
    }

    static boolean isDenied(Sentence sentence, int start, int end) {
        var plain = sentence.plain;
        var after = plain.substring(end, Math.min(plain.length(), end + 60));
        if (STATED_AFTER.matcher(after).find()) {
            return false;
        }
        if (DENIED_AFTER.matcher(after).find()
                || DENIED_OF_SIDE.matcher(after).find()
                || DENIED_LIST_AFTER.matcher(after).find()) {
            return true;
        }
        var clause = sentence.clauseStart(start);
        var negator = NEGATOR.matcher(plain).region(clause, Math.min(plain.length(), start + 1));
        var denied = false;
        while (negator.find()) {
            if (negator.start() < start && negates(sentence, negator, start, end)) {
                denied = true;
            }
        }
        return denied;
    }

    private static boolean negates(Sentence sentence, Matcher negator, int start, int end) {
        var plain = sentence.plain;
        if (negator.end() > start) {
            return false;
        }
        var rest = plain.substring(negator.start(), Math.min(plain.length(), end + 20));
        if (NO_DENIAL.matcher(rest).find()) {
            return false;
        }
        var between = plain.substring(negator.end(), start)
                .replaceFirst(
                        "^(?: (?:leg|foot|side|limb|calf))? (?:actually |currently |really )?(?:have|had|has|shows?)(?: got)? (?:any )?",
                        " ");
        if (between.length() > 160
                || between.contains(". ")
                || ENDS_DENIAL.matcher(between).find()) {
            return false;
        }
        var word = negator.group();
        if (word.equals("not")
                || word.equals("isn't")
                || word.equals("cannot")
                || word.equals("hasn't")
                || word.equals("don't")
                || word.equals("doesn't")) {
            return !between.contains(",")
                    ? words(between) <= 6
                    : Fit.matches(between, "(?s).*, (?:or|nor|and no) [a-z ]{0,20}")
                            || Fit.matches(between, "(?s).*,.*")
                                    && words(between) <= 8
                                    && Fit.matches(
                                            sentence.plain.substring(end), "(?s)[a-z ,]{0,40}\\b(?:or|nor)\\b.*");
        }
        return !between.contains(",") || listGoesOn(sentence, between, start, end);
    }

    private static int words(String text) {
        return text.isBlank() ? 0 : text.strip().split(" ").length;
    }

    /** Whether the list that a denial began still goes on: "no rest pain, ulcer or gangrene", but not "no rest pain, ulcer left heel". */
    private static boolean listGoesOn(Sentence sentence, String between, int start, int end) {
        var plain = sentence.plain;
        var piece = between.substring(between.lastIndexOf(", ") + 1).strip();
        if (Fit.matches(
                        piece,
                        "(?:or|nor|and|and no|or any|any|no)?(?: (?:any|other|overt|frank|active|obvious|open|local))?")
                && !piece.isEmpty()) {
            return true;
        }
        if (Fit.matches(
                piece,
                "(?:(?!left|right|bilateral|has|is|his|her|on|of|for|with|and)[a-z-]+ ){1,3}(?:or|nor)(?: any)?")) {
            return true;
        }
        var clauseEnd = sentence.clauseEnd(start);
        var rest = plain.substring(end, Math.max(end, clauseEnd));
        var pieceRest = rest.indexOf(',') < 0 ? rest : rest.substring(0, rest.indexOf(','));
        if (!Fit.matches(piece, "(?:[a-z]+ ?){0,2}|(?:[a-z]+ ){1,3}(?:or|nor)(?: [a-z]+){0,2}")
                || Fit.matches(
                        piece,
                        ".*\\b(?:left|right|bilateral|has|is|his|her|the|a|an|on|takes|taking|uses|\\d+)\\b.*")) {
            return false;
        }
        if (Fit.matches(
                pieceRest, "(?s).*\\b(?:left|right|bilateral|\\d+|on|x|at|since|for|worse|after|present)\\b.*")) {
            return false;
        }
        return Fit.matches(rest, "(?s)[^.;]{0,120}\\b(?:or|nor)\\b.*")
                || Fit.matches(between, ".*\\bor\\b.*")
                || Fit.matches(pieceRest.strip(), "[.;)]*|(?:[a-z]+){0,1}[.;)]*|(?:and|or) .*");
    }

    /** Whether {@code start} lies in a question, a plan, a fear or the like. */
    static boolean isOpen(Sentence sentence, int start) {
        if (sentence.section == Sentence.Section.PLAN) {
            return true;
        }
        var plain = sentence.plain;
        var clause = sentence.clauseStart(start);
        var before = plain.substring(clause, start);
        if (DOUBTED.matcher(plain.substring(0, start)).find()) {
            return true;
        }
        if (before.length() < 3) {
            return clause > 0 && carriesOver(plain, clause);
        }
        var opener = OPENER.matcher(before);
        while (opener.find()) {
            var between = before.substring(opener.end());
            if (between.length() < 120
                    && !Fit.matches(
                            between,
                            "(?s).*\\b(?:but|because|as he|as she|since he|since she|given|who has|who)\\b.*")) {
                return true;
            }
        }
        return false;
    }

    /** Whether the border before a clause is one of the words that doubt goes through, as in "if he: …". */
    private static boolean carriesOver(String plain, int clause) {
        return Fit.matches(
                plain.substring(Math.max(0, clause - 30), clause),
                ".*\\b(?:query|rule out|\\?possible|risk of) ?:? ?$");
    }

    /** Whether the words are said of somebody else than the patient. */
    static boolean isOthers(Sentence sentence, int start, int end) {
        if (sentence.section == Sentence.Section.FAMILY
                && !Fit.matches(
                        sentence.plain.substring(sentence.clauseStart(start), start),
                        "(?s)(?:the )?patient (?:himself |herself )?(?:has|is|had).*|(?:he himself|she herself)\\b.*")) {
            return true;
        }
        var plain = sentence.plain;
        if (OF_THE_WRITER
                .matcher(plain)
                .region(sentence.clauseStart(start), sentence.clauseEnd(start))
                .find()) {
            return true;
        }
        var other = OTHERS.matcher(plain);
        while (other.find()) {
            if (other.end() <= start) {
                var between = plain.substring(other.end(), start);
                var family = Fit.matches(other.group(), "f.*h.*|.*family.*");
                if (family && between.length() < 160 && !Fit.matches(between, ".*[.;].*")) {
                    return true;
                }
                if (OWN_STORY.matcher(between).find()) {
                    return true;
                }
                if (OBSERVES.matcher(between).find()) {
                    continue;
                }
                var said = between + " ";
                if (between.equals(" on ")
                        || between.isBlank() && !other.group().endsWith("'s")
                        || other.group().endsWith("'s") && !Fit.matches(between, "(?s).*(?:[.;] | she | he ).*")
                        || !Fit.matches(
                                        between,
                                        "(?s).*(?:[.;] | but | whereas |, (?:he|she|i|we|the patient|patient) | and (?:he|she|i|we|the patient|patient) (?:himself |herself )?(?:has|is|had|was|does|himself|herself)|\\b(?:he|she) (?:himself|herself)).*")
                                && Fit.matches(
                                        said,
                                        "(?s)(?: (?:at|from|in|on) (?:the|his|her|our) \\w+)?(?: \\(\\w+\\))?,? ?(?:diabetes )?(?:my patient too,? |[a-z -]{0,24}, )?(?:and (?:his |her |an? )?\\w+ )?\\(?(?:who |which |also |both |each |all |on (?=$)|have |had |has |died|lost|suffer|with|w |need|was|is|were|are|got|takes |uses |smokes|underwent|diagnosed|attended|smoked|,|\\(|: |= ).*")) {
                    return true;
                }
            } else if (other.start() >= end) {
                var between = plain.substring(end, other.start());
                if (other.group().startsWith("in ") && between.length() < 15
                        || between.equals(" ")
                                && Fit.matches(plain.substring(start, end), "diabetes|smoker|smoking|dialysis")) {
                    return true;
                }
                if (between.length() < 40
                        && Fit.matches(
                                between,
                                "(?: \\w+){0,4} (?:in (?=family|the family)|in|of|like|as did|as had|as was|on) (?:his |her |the |a |an |\\d |both |my )?(?:younger |older |elder |late |paternal |maternal |first degree )?")) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether the words speak of an earlier time only. */
    static boolean isPast(Sentence sentence, int start, int end) {
        var piece = sentence.plain.substring(sentence.pieceStart(start), sentence.pieceEnd(end));
        return PAST.matcher(piece).find();
    }

    /** Where the denial begins that {@code start} lies in, if it is near. */
    static int denialStart(Sentence sentence, int start) {
        var before = sentence.plain.substring(Math.max(sentence.clauseStart(start), start - 60), start);
        var match = Fit.of(
                        "\\b(?:no|denies|without|not|nor|never|nil|neither|doesn't|hasn't|don't|isn't|free of)\\b[^.;]*$")
                .matcher(before);
        return match.find() ? start - before.length() + match.start() : start;
    }

    private static final Pattern OVER = Pattern.compile(
            "^(?: (?:(?:of|in|on) )?(?:the |his |her )?(?:left |right |bilateral )?(?:leg|calf|thigh|buttock|foot|toe|heel|side)?s?)?,?(?: (?:which|that))?"
                    + "(?: (?:has|have|had|is|was|since|completely|now|fully|all|long|then))*+ (?:resolved|gone|settled|abated|"
                    + "disappeared|cured|relieved since|better since)\\b");
    private static final Pattern REASON_OF_OLD = Pattern.compile(
            "\\b(?:treated|operated(?: on)?|stent\\w*|angioplasty|bypass\\w*|endarterectomy|amputat\\w+|intervention|surgery)\\b"
                    + "[^.;,]{0,30} for (?:severe |left |right |bilateral |disabling |short distance )*$");

    /** Whether a complaint is over, or is told only as the reason of an earlier treatment. */
    static boolean isOver(String plain, int start, int end) {
        return OVER.matcher(plain.substring(end)).find()
                || REASON_OF_OLD
                        .matcher(plain.substring(Math.max(0, start - 80), start))
                        .find();
    }
}
