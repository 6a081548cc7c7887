package limbqueue.reading;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Whether the patient smokes, has smoked or never did, and the pack-years. */
final class SmokingRule implements Rule {

    private static final String TOPIC =
            "(?<!smokeless )(?<!smokesless )(?:smoking|tobacco|tob|smoker|smokes|cigarettes|nicotine)(?: status| history| hx| use)? ?(?:[:=?-] ?){0,3}";
    private static final String A_DAY = " ?(?:a|per|each|/|daily)? ?d(?:ay)?\\b";
    private static final String QUIT =
            "(?:quit|stopped|gave (?:it |them |that )?up|given (?:it |them |that )?up|giving up|ceased|packed (?:it |them )?(?:in|up)|kicked)";
    private static final String GOODS = "(?:smoking|cigarettes|tobacco|smokes?|pipe|cigars|vaping)";
    private static final String AGO = "(?:years?|months?|weeks?|decades?) (?:ago|back|since|earlier|previously)";

    private static final Pattern NEVER = Pattern.compile("\\b(?:"
            + String.join(
                    "|",
                    List.of(
                            "non smoker",
                            "never(?: ever| has| been| a)? (?:smoked|smoker)",
                            "has never (?:been a smoker|smoked)",
                            "don't smokes? and never (?:has|did)",
                            TOPIC + "(?:never|none|nil|non)\\b",
                            "life-?long abstainer from tobacco",
                            "never (?:used )?tobacco",
                            "no smoking history",
                            "no tobacco(?: use)?(?: ever)?",
                            "denies (?:ever )?smoking",
                            "denies tobacco(?: use)?",
                            "no history of (?:smoking|tobacco use)",
                            "never touched (?:a cigarette|tobacco|cigarettes)",
                            "never (?:picked up|took up|started) (?:smoking|tobacco|cigarettes)",
                            "doesn't smoke(?!s? (?:any ?(?:more|longer)|no more|now|these days|at present|since|today))",
                            "isn't a smoker",
                            "not a smoker"))
            + ")");

    /** A non-smoker of late was a smoker before. */
    private static final Pattern OF_LATE = Pattern.compile(
            "^,? (?:now\\b|for (?:the )?(?:past |last )?(?:\\d|a |some|many|years)|since|these days|at present|currently|today|having "
                    + QUIT + "|x ?\\d)");

    private static final Pattern OF_LATE_BEFORE = Pattern.compile("\\b(?:now|currently|presently)(?: an?)? $");

    private static final Pattern FORMER = Pattern.compile("\\b(?:"
            + String.join(
                    "|",
                    List.of(
                            "former smoker",
                            "ex-? ?(?:pipe|cigar|cigarette|heavy|light|occasional)s? smoker",
                            "do(?:es)?n't smokes? (?:any ?(?:more|longer)|no more|now|these days|since)",
                            "(?:not|hasn't) smoked (?:for|since|in)",
                            "non smoker(?=,? (?:now|for \\d|for the|since|x ?\\d|having " + QUIT + "))",
                            "(?:pack years?|a day|/ ?day|/ ?d|cigarettes|ppd)[^.]{0,25}\\b(?<!to )" + QUIT
                                    + "(?= ?(?:in\\b|\\d|when|after|at\\b|aged|following|[,;.)]|$))",
                            QUIT + "(?: with)?(?: the| his| her)? ?" + GOODS,
                            "(?:stopping|off)(?: with)?(?: the| his| her)? ?(?:smoking|cigarettes|tobacco|smoke)",
                            "smoking (?:stopped|ceased|cessation (?:in )?(?:19|20)\\d\\d)",
                            QUIT + " (?:in )?(?:19|20)\\d\\d",
                            QUIT + " (?:smoking )?(?:about |some |over |nearly )?\\d+ " + AGO,
                            QUIT + " (?:years|decades|long) ago",
                            "(?:smoked|smoker)[^.;]{0,40}\\b(?:until|till|up to|quit|stopped|gave up|but not since)\\b",
                            "smoked (?:\\w+ ){0,3}(?:in (?:his|her) (?:youth|twenties|thirties|past)|as a young|when (?:he was |she was )?(?:young|younger))",
                            "(?:has |have )?(?:now |recently |finally |since )?" + QUIT + " " + GOODS,
                            "(?:former|previous|past|prior) tobacco(?: use)?",
                            TOPIC + "(?:ex|former|stopped|quit|past|previous|gave up)\\b",
                            "used to (?:smokes?|be a (?:\\w+ )?smoker)",
                            "(?:smoked in the|previously) (?:past|smoked)",
                            "past (?:smoking|tobacco)",
                            "previously smoked",
                            "(?:no longer|not any more) (?:smokes|smoking|a smoker)",
                            "(?:hasn't|not) smoked since",
                            "formerly smoked",
                            "smokes?-? ?free (?:for|since|x)",
                            "(?:last|final) cigarettes? (?:was )?(?:in |at )?(?:\\d+|years)",
                            "(?:i have |we have |have )?stopped (?:his|her) cigarettes"))
            + ")\\b");

    private static final Pattern CURRENT = Pattern.compile("(?:"
            + String.join(
                    "|",
                    List.of(
                            "\\d+ ?(?:cigs?|cigarettes|fags|roll ?-?ups)" + A_DAY,
                            "(?:refuses?|unable|unwilling|failed|trying|struggl\\w+|not ready) to (?:give up|stop|quit) smoking",
                            "rolls (?:his|her) own",
                            "(?:current|active|every ?day|daily|ongoing|heavy|continuing|persistent|lifelong|long[- ]?standing|keen|life-?long|chronic|present|regular|light)(?: tobacco| heavy| cigarette| daily| pipe)? (?:smoker|smoking|tobacco use)",
                            "(?:still|currently|continues to|continues|now|unfortunately|sadly|also|he|she|patient|,|and|;|^|who|but|regrettably|- ) ?smokes\\b",
                            "smokes (?:about |around |some |approximately |roughly |up to |over |still |a |half |\\d|heavily|cigarettes|pipe|cigars|roll|1|too|like)",
                            "still smoking",
                            "continues (?:to )?(?:smoking|smokes)",
                            "(?:he|she)'s smoking",
                            "smoking (?:about |around |some |approximately )?\\d+",
                            "smoker(?= ?[:,]? ?(?:\\d+|of \\d+|yes|y\\b))",
                            "(?:gets|getting) through \\d+ (?:cigarettes )?(?:a|per) day",
                            TOPIC + "(?:yes|current|y\\b|active|still|every ?day|some days)",
                            "(?:smoking|smoker|smokes|tobacco|tob)(?: status| history)? ?[:=?-]* ?\\d+",
                            "\\d+ ?(?:cigarettes )?(?:a|per|/) ?d(?:ay)? smoker",
                            "(?:is|remains|was|am) (?:still )?(?:a|an) (?:\\w+ )?smoker",
                            "\\d+(?: ?- ?\\d+)? cigarettes (?:a|per|each|/) ?day",
                            "half a pack (?:a|per) day",
                            "\\d(?:\\.\\d)? (?:packs?(?! ?-? ?years?)|ppd)(?: (?:a|per) day)?",
                            "ppd",
                            "still on \\d+ (?:a day|cigarettes)",
                            "ha(?:s not|sn't) (?:given up|stopped|quit)(?: smoking| cigarettes)",
                            "cannot (?:stop|quit|give up) smoking"))
            + ")");
    private static final Pattern SMOKER = Pattern.compile(
            "(?<![a-z-] )\\bsmoker\\b(?! ?[:?=])|(?:^|[,;.] |and |a |pack years )\\bsmoker\\b(?! ?[:?=])");
    private static final Pattern PACK_YEARS = Pattern.compile(
            "(\\d{1,3}(?:\\.\\d)?)(?: ?\\+)?[ -]*pack years\\b|pack years ?[:=]? ?(?:of )?(\\d{1,3}(?:\\.\\d)?)\\b");

    /** The next sentence of a form: "20/day x 40 yrs. Quit 2019." */
    private static final Pattern QUIT_NEXT = Pattern.compile("^(?:he |she |but |has |now |then |since |and )*" + QUIT
            + "(?: (?:in|at|about|around|after|when|since|\\d+|aged)\\b| last| ?[.,;]| ?$| " + GOODS + ")");

    /** Words that do not say that it came about. */
    private static final Pattern NOT_YET = Pattern.compile(
            "\\b(?:not|hasn't|cannot|never|refuses? to|trying to|tries to|tried to|attempts? to|attempted to|struggl\\w+ to|keen to|hopes to|promised to|plans to|been to|try to|wants to|advised to|asked to|told to|urged to|encouraged to|help (?:him|her) (?:to )?|will|should|must|needs to|agreed to|would like to|failed to|until (?:he|she)|unless|if)(?: \\w+)? ?$");

    private static final Pattern RELAPSED = Pattern.compile(
            "\\b(?:restarted|relaps\\w+|(?:is |now |gone )?back (?:on|to|smoking)|started again|resumed|but (?:is )?smoking again)\\b");
    private static final Pattern TOPIC_BEFORE_BOXES =
            Pattern.compile("\\b(?:smok\\w*|tobacco|cigarettes)\\b(?: status| history)?");
    private static final Pattern SAYS_NEVER = Pattern.compile("^(?:never|non\\b|no\\b|n\\b)");
    private static final Pattern SAYS_FORMER =
            Pattern.compile("^(?:ex\\b|ex-|former|past|quit|stopped|previous|gave up)");
    private static final Pattern SAYS_CURRENT = Pattern.compile("^(?:current|yes|y\\b|active|now|smok|daily|still)");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            if (sentence.hasAny(
                    "smok",
                    "cig",
                    "fags",
                    "tobacco",
                    "tob ",
                    "pack",
                    "ppd",
                    "quit",
                    "a day",
                    "rolls h",
                    "gave up",
                    "nicotine")) {
                packYears(sentence, findings);
                smoking(page, sentence, findings);
            }
        }
    }

    private static void packYears(Sentence sentence, Findings findings) {
        var years = PACK_YEARS.matcher(sentence.plain);
        if (years.find() && !Polarity.isOthers(sentence, years.start(), years.end())) {
            findings.put(
                    "history.packYears",
                    new BigDecimal(years.group(1) != null ? years.group(1) : years.group(2)),
                    sentence.span(years));
        }
    }

    private static void smoking(Page page, Sentence sentence, Findings findings) {
        if (boxes(sentence, findings)) {
            return;
        }
        var said = never(sentence).or(() -> former(sentence)).or(() -> current(page, sentence));
        said.ifPresent(
                found -> findings.put("history.smoking", found.status(), sentence.span(found.start(), found.end())));
    }

    private record Said(String status, int start, int end) {}

    /** Whether the sentence answers by boxes, of which one may be ticked. */
    private static boolean boxes(Sentence sentence, Findings findings) {
        var topic = TOPIC_BEFORE_BOXES.matcher(sentence.plain);
        if (!topic.find()) {
            return false;
        }
        var options = TickBoxes.in(sentence.plain, topic.end());
        if (options.stream().noneMatch(option -> status(option.words()).isPresent())) {
            return false;
        }
        var ticked = options.stream()
                .filter(TickBoxes.Option::ticked)
                .filter(option -> status(option.words()).isPresent())
                .toList();
        if (ticked.size() == 1) {
            var answer = ticked.getFirst();
            findings.put(
                    "history.smoking",
                    status(answer.words()).orElseThrow(),
                    sentence.span(topic.start(), answer.end()));
        }
        return true;
    }

    private static Optional<String> status(String answer) {
        if (SAYS_NEVER.matcher(answer).find()) {
            return Optional.of("never");
        }
        if (SAYS_FORMER.matcher(answer).find()) {
            return Optional.of("former");
        }
        return SAYS_CURRENT.matcher(answer).find() ? Optional.of("current") : Optional.empty();
    }

    private static Optional<Said> never(Sentence sentence) {
        var plain = sentence.plain;
        var never = NEVER.matcher(plain);
        while (never.find()) {
            var ofLate = Fit.matches(never.group(), ".*non smoker")
                    && (OF_LATE.matcher(plain.substring(never.end())).find()
                            || OF_LATE_BEFORE
                                    .matcher(plain.substring(0, never.start()))
                                    .find());
            var weak = Fit.matches(never.group(), ".*(?:denies|doesn't smoke|isn't a smoker|not a smoker).*");
            if (isPatients(sentence, never)
                    && !ofLate
                    && (!weak || !FORMER.matcher(plain).find())) {
                return Optional.of(new Said("never", never.start(), never.end()));
            }
        }
        return Optional.empty();
    }

    private static Optional<Said> former(Sentence sentence) {
        var former = FORMER.matcher(sentence.plain);
        while (former.find()) {
            var before = sentence.plain.substring(Math.max(0, former.start() - 40), former.start());
            if (isPatients(sentence, former)
                    && !RELAPSED.matcher(sentence.plain.substring(former.end())).find()
                    && !NOT_YET.matcher(before).find()
                    && !former.group().startsWith("stopping")
                    && !former.group().startsWith("off")) {
                return Optional.of(new Said("former", former.start(), former.end()));
            }
        }
        return Optional.empty();
    }

    private static Optional<Said> current(Page page, Sentence sentence) {
        var plain = sentence.plain;
        var current = CURRENT.matcher(plain);
        while (current.find()) {
            if (isPatients(sentence, current) && isCurrent(plain, current)) {
                return Optional.of(
                        quitNext(page, sentence)
                                ? new Said("former", current.start(), current.end())
                                : new Said("current", trim(plain, current), current.end()));
            }
        }
        var smoker = SMOKER.matcher(plain);
        if (smoker.find()
                && isPatients(sentence, smoker)
                && !Fit.matches(
                        plain.substring(Math.max(0, smoker.start() - 12), smoker.end()),
                        "(?s).*\\b(?:non|ex|never|former|not an?|passive|no) ?-? ?smoker")) {
            return Optional.of(new Said("current", smoker.start(), smoker.end()));
        }
        return Optional.empty();
    }

    private static boolean isCurrent(String plain, Matcher current) {
        var before = plain.substring(Math.max(0, current.start() - 25), current.start());
        return Fit.matches(current.group(), "(?:heavy|lifelong|life-?long|long.*|chronic|regular) .*")
                ? !Fit.matches(before, "(?s).*\\b(?:ex|former|previous|was an?|previously a|non|never)[ -]$")
                : !Fit.matches(
                                before,
                                "(?s).*\\b(?:never|not|no|doesn't|don't|no longer|used to|previously|ex|non|former|passive|stopped)[ -]$")
                        && !(current.group().endsWith("smokes") && Fit.matches(before, "(?s).*(?:no longer|never) ?$"));
    }

    private static boolean quitNext(Page page, Sentence sentence) {
        return page.after(sentence)
                .filter(next -> next.paragraph == sentence.paragraph)
                .filter(next -> QUIT_NEXT.matcher(next.plain).find())
                .isPresent();
    }

    private static int trim(String plain, Matcher match) {
        var start = match.start();
        while (start < match.end() - 1 && !Character.isLetterOrDigit(plain.charAt(start))) {
            start++;
        }
        return start;
    }

    private static boolean isPatients(Sentence sentence, Matcher match) {
        return !Polarity.isOthers(sentence, match.start(), match.end())
                && !Polarity.isOpen(sentence, match.start())
                && !Fit.matches(
                        sentence.plain.substring(match.end()), "(?s) (?:unknown|not known|cessation|clinic|advice).*");
    }
}
