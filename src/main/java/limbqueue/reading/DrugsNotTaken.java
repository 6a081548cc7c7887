package limbqueue.reading;

import java.util.Set;
import java.util.regex.Pattern;

/** The ways in which a letter names a drug that the patient does not take. */
final class DrugsNotTaken {

    private static final String ENDS_AT_DRUG = "(?: (?:his|her|the|all|any|an?))? ?$";

    private static final String STOPPED_BEFORE =
            "stop(?:ped|ping|s)?|quit(?: taking)?|gave up|given up|discontinu\\w+|ceased|"
                    + "withdrawn|withdrew|withheld|held|hold(?:ing)?(?=" + ENDS_AT_DRUG
                    + ")|paused|suspended|omitted|no longer (?:on|taking|takes)|came off|taken off|off (?:his|her|the)|r[au]n out of|instead of|"
                    + "in place of";
    private static final String CHANGED_BEFORE =
            "switched from|changed from|(?:stepped down|swapped|converted|moved) from|(?:swapped|exchanged)(?="
                    + ENDS_AT_DRUG + ")";
    private static final String PAST_BEFORE = "used to (?:have|take|be on)|took(?=" + ENDS_AT_DRUG
            + ")|was taking|were taking|previous(?:ly)?(?: (?:treated with|on|took|taken|tried|use of))?|was (?:previously )?on|had been (?:on|prescribed)|"
            + "tried|trial of|failed|until|received|(?<!has )(?<!have )(?:was|were|since|been|then) treated with|treated with (?:iv|intravenous)|(?:had|had both|he'd|she'd) been (?:taking|using|given)|(?:had|got|received|gave|given) (?:\\d|one|two|three|a few|some) (?:stat )?doses?(?: of)?|after (?:\\w+ ){0,2}courses? of";
    private static final String ONCE_BEFORE =
            "(?:one|single|1|a|stat|first|loading) (?:stat |single |loading |iv |intravenous )?(?:dose|shot|bolus|infusion) of|loaded with|bolus of|"
                    + "(?:was|were) given (?:iv|intravenous|a|one|stat)|^(?:was |also |and )*given|(?:to be admitted|admi\\w+) for (?:iv|intravenous)|(?:local anaesthetic|infiltrat\\w+)(?: \\w+)?";
    private static final String COURSE_BEFORE = "(?:d/c(?:'d|ed)?|dc'd|dcd)(?=" + ENDS_AT_DRUG
            + ")|(?:finish\\w*|complet\\w+|had|after|following|despite|recent|previous|past|two|three|several|multiple|repeated|further|[2-9])"
            + " (?:an? |the |his |her |\\w+ )?(?:courses?|weeks?|days?) of";
    private static final String REACTED_BEFORE =
            "intoleran(?:t|ce) (?:of|to)|(?:cannot|can't|couldn't|did not|didn't|don't|doesn't|unable to) (?:tolerate|take)|allerg\\w+(?: to)?|reaction to|react(?:s|ed)(?: badly)? to|"
                    + "anaphyla\\w+ (?:to|with|from)|adverse reaction to|side effects? (?:from|of|with|on)|(?:hives|rash) (?:with|from|on|to)|contraindicat\\w+|"
                    + "(?:bleed|ulcer|bleeding|haemorrhage|rash|cramps?|myalgia|headaches?|cough|swelling|nausea|vomiting|angioedema|confus\\w+) (?:on|with|from|after|due to)(?="
                    + ENDS_AT_DRUG + ")";
    private static final String UNWANTED_BEFORE =
            "declin\\w+|refus\\w+|(?:off|doesn't take|not take|never took)(?=" + ENDS_AT_DRUG
                    + ")|not keen on|reluctant|unwilling|hesitant|doesn't (?:want|like)|won't take|against|avoid(?:ing)?";
    private static final String PUT_ON =
            "(?:might|may|could|would|will|shall|going to|plans? to|hopes? to|wants? to|thinking of|talk(?:ed|ing)? of|hold off|wary of)"
                    + " (?:\\w+ )?(?:put|putting|start|starting|try|trying|add|adding) (?:(?:him|her|them) )?(?:on|with)";
    private static final String PROPOSED_BEFORE = PUT_ON
            + "|consider(?:ing|ed)?|should (?:he|she|we|i|be|have|take|start|go)|ought to|whether|would you|could (?:he|she|we)|"
            + "(?:plan(?:ning|s)?|propos\\w+|intend\\w*|want\\w*|like|hop\\w+) to (?:start|add|begin|switch|try|give|use)|to (?:start|begin|commence|add|try)|(?:will|shall|going to|about to|intend to|is to) (?:start|begin|add|commence|try|give|put)|to give(?="
            + ENDS_AT_DRUG + ")|"
            + "suggest(?:ed)?|recommend(?:ed)?|advi[cs]e (?:on|about|regarding|re)|suitable for|candidate for|eligible for|benefit from|needs? to (?:be on|start|go on)|"
            + "discuss\\w*|talk\\w* about|mention(?:ed)?|offer(?:ed|ing)?|thinking of|role (?:of|for)|"
            + "(?:advised|told|asked|encouraged) (?:him|her|them|the patient|mr \\w+|mrs \\w+)? ?to (?:take|start|buy|try|get)|please (?:start|prescribe|add|commence|give|try)|"
            + "(?:try|add)(?=" + ENDS_AT_DRUG + ")";
    private static final String SPOKEN_BEFORE =
            "(?:chosen|preferred|picked) (?:over|to|above)|(?:suitable|eligible|fit|unsuitable|ineligible) for|(?:asks?|asked|enquir\\w+|wonder\\w*|thought|thinks?|thinking|mull\\w*|read|heard|worr\\w+|scared|afraid|frightened) (?:\\w+ )?(?:about|of|over|whether|if)|"
                    + "(?:propos|plan|want|wish|like|hop|intend|tr[yi])\\w* to (?:replace|swap|change|switch|move|convert|stop)|advis\\w+ against|in (?:view|light) of|for want of|room for|case for|indication for|need for|question of|option of|choice of|"
                    + "guidelines? (?:\\w+ )?(?:for|on|recommends?)|prescription (?:was )?(?:never|not)|(?:never|not) (?:collected|filled|cashed)|as (?:i|we) (?:told|advised)|script for(?! his| her)";
    private static final String LABORATORY_BEFORE =
            "overdose of|interact\\w*(?: \\w+)? with|metabolite|levels? of|sensitive to|resistant to|sensitivit(?:y|ies) to|resistance to|sensitive [a-z, -]{0,40}";

    private static final Pattern BEFORE = Pattern.compile("\\b(?<words>"
            + String.join(
                    "|",
                    STOPPED_BEFORE,
                    CHANGED_BEFORE,
                    PAST_BEFORE,
                    ONCE_BEFORE,
                    COURSE_BEFORE,
                    REACTED_BEFORE,
                    UNWANTED_BEFORE,
                    PROPOSED_BEFORE,
                    SPOKEN_BEFORE,
                    LABORATORY_BEFORE)
            + ")\\b[^.;]{0,60}$");

    /** What takes the drug up again after such words: "amlodipine was stopped and he is on ramipril". */
    private static final Pattern TAKEN_AGAIN = Pattern.compile(
            "(?s).*\\b(?:now on|changed to|switched to|swapped to|started|and (?:now )?takes|remains on|takes|continues|on to|was given|he is on|she is on|is on)\\b.*");

    private static final Pattern CHANGED_TO = Pattern.compile(
            "(?s)(?:switched|changed|stepped down|swapped|converted|moved|exchanged|stopped)\\b.* (?:to|for|in favour of|onto)(?: the)? $");

    /** "STOP: losartan, metformin." */
    private static final Pattern HEADING = Pattern.compile(
            "\\b(?:stop(?:ped)?|hold|held|withheld|discontinued|d/c(?:'d)?(?! ?(?:medication|drugs))|ceased|previous(?:ly)?(?: on| tried)?|past|former|intoleran(?:ces?|t)|not (?:taken|tolerated)|(?:prior|previous|past|failed) (?:trials?|therapy|therapies|treatments?)|allerg(?:y|ies|ic)(?: to)?|"
                    + "adverse(?: drug)? reactions?|tried|acute|short courses?|not (?:currently )?taking|stop taking|never taken|to (?:start|stop)|do not (?:take|give)|no longer (?:taken|on)) ?(?:medication|drugs|repeats?|items?|prescriptions?|taking|today)*(?: ?\\([^)]{0,30}\\))? ?: [^:]*$");

    private static final String AMOUNT_BETWEEN =
            "(?: (?:prn|od|bd|tds|qds|nocte|mane|daily|at night))?(?: (?:drip|gtt|infusion|tablets?|patch(?:es)?|therapy|treatment))?(?: \\d(?:(?!smok|ex )[\\w ./]){0,25})?(?: for (?:his |her |the )?\\w+)?(?: (?:and|or|nor|/|\\+) [a-z]+(?= (?:were|are|have (?:both|each|all|never|not|been|since))\\b))?,? ?(?:[(:-] ?)?";

    /** "which she has since", "but he". */
    private static final String BEING =
            "(?:but |and )?(?:which |that |this |it )?(?:(?:i|we|he|she|they|(?:his|her|the) \\w+|gp) )?(?:was |were |has been |have been |is |are |being |recently |now |since |has |have |had |all |both |each |also |again |only |just |already |then |later |soon |promptly |in (?:january|february|march|april|may|june|july|august|september|october|november|december|(?:19|20)\\d\\d),? |last (?:week|month|year),? |but )*";

    /** "never given", "but did not take it", ": not prescribed". */
    private static final String NEVER_TAKEN =
            "(?:- ?|: ?|but |and |(?:which|that) (?:\\w+ ){1,5}(?=was never|never|but never)|(?:prescribed|dispensed|issued|bought|given),? )*(?:(?:was|were|is|has been) (?:\\w+ ){1,2}but )?(?:he |she |it was |they were )?(?:never|not|don't|doesn't|hasn't|isn't|wasn't|cannot)(?: (?:yet|actually|being|currently|been|ever))? "
                    + "(?:given|took|taken|taking|take|started|begun|prescribed|continued|used|collected|collect|dispensed|tried|filled|fill)\\b";

    private static final String GIVEN_UP =
            "(?:for a (?:while|time|bit)|briefly)\\b|but (?:has |he |she )*(?:r[au]n out|gave (?:it|that|them|up)|given (?:it|that|them|up)|came off|finished)";
    private static final String STOPPED_AFTER =
            "(?:\u2192|-> ?|=> ?|- ?> ?)|stopped(?! smok| drink)|tried\\b|ended\\b|x(?= ?(?:[(,;.]|$))|no longer\\b|off since|given up|not (?:any ?more|now)\\b|(?:made|left|brought) no difference|did nothing|(?:did|has) not work\\w*|discontinued|withheld|hold\\b|ceased|withdrawn|on hold|held\\b|omitted|reversed|paused|suspended|course|(?:course )?(?:finished|completed)|d/c|dc'd|dcd|"
                    + "(?:replaced (?:by|with)|swapped (?:for|to)|switched to|changed to|exchanged for)|until (?!seen|review|the (?:procedure|appointment|visit|angiogram|day)|advised|told|further|your|you\\b|clinic)|"
                    + "(?:last taken|not (?:yet )?started|never started)|in the past|previously(?= ?(?:[,.;)]|$))";
    private static final String REACTION_AFTER =
            "(?:did not|didn't|don't|doesn't|does not) (?:agree|suit)|not tolerated|contraindicated|declined|refused|allerg(?:y|ies|ic)(?! to)|anaphylaxis|intolerance|intolerant|"
                    + "-? ?(?:rash|hives|nausea|anaphylaxis|itch\\w*|angioedema|swelling|bronchospasm|wheeze|vomiting|gi upset|upset stomach|myalgia|cough)\\b|caused|causes|makes? (?:him|her)|"
                    + "gives (?:him|her)|upsets?|made (?:him|her)|brings (?:him|her) out|sensitiv\\w+|resistan\\w+|reaction|"
                    + "(?:he|she) (?:will not|won't|cannot|doesn't|refuses to|did not|no longer) (?:take|tolerate)s?";
    private static final String USELESS_AFTER =
            "(?:did not|didn't|don't|doesn't|hasn't|has not|not) help\\w*|without (?:effect|benefit|success|relief)|made no difference|no (?:benefit|effect|help)|ineffective|failed|(?:for [a-z ]{1,20} )?without (?:effect|benefit|success|relief)";
    private static final String ONCE_AFTER =
            "(?:while|whilst|when) (?:an |in |on )?(?:in-?patient|hospital|the ward|admitted)|as an in-?patient|during (?:the |his |her |this )?(?:hospital )?(?:stay|admission)|(?:on|with|at|during) (?:each )?dialysis|not (?:available|indicated|advisable|appropriate|suitable)|gave (?:him|her)|(?:in (?:the )?hospital |iv )?was given in|(?:was|were) (?:administered|given (?:during|at|before|by|as|once|intra\\w*|pre\\w*))|"
                    + "given (?:during|at the time|in theatre|in the|by|pre|stat|once|iv|intra\\w*)|administered|(?:stat )?in (?:a&e|a & e|the emergency|emergency|casualty|the ambulance|theatre|recovery|the er\\b|the ed\\b)|bolus|"
                    + "-? ?(?:induced|associated|related|toxicity|poisoning|overdose|withdrawal|naive)";
    private static final String SPOKEN_OF =
            "(?:discussed|considered|proposed|offered|suggested|mentioned|recommended|advised|mooted|floated|raised|debated|"
                    + "put forward|requested|intended|planned|queried|contemplated|thought of|talked (?:of|about)|spoken of|"
                    + "hoped for|wanted|asked (?:for|about)|preferred by|favoured by|urged|rejected|turned down|vetoed|forgotten)";
    private static final String PROPOSED_AFTER =
            "(?:might|may|could|would|will) be (?:started|given|considered|added|helpful|useful|an option|appropriate|suitable|worth)|"
                    + "" + SPOKEN_OF
                    + "\\b|under (?:consideration|discussion)|(?:next|pending|later|awaited)(?= ?(?:[.,;)]|$))|(?:from|starting|as of|with effect from|to start|due to start) (?:next|tomorrow|monday)|and not given|in the (?:bathroom|house|cupboard|cabinet) is|"
                    + "is to be|to (?:be )?(?:start|begin|commence|follow|started|added|considered)|should be (?:considered|started)|could be (?:considered|started)|if |would be|planned|has been suggested|\\?";
    private static final String OTHER_AFTER = "level|free\\b|assay|clinic (?:attender|patient) in the past";

    private static final Pattern AFTER = Pattern.compile("^" + AMOUNT_BETWEEN + BEING + "(?:"
            + String.join(
                    "|",
                    NEVER_TAKEN,
                    GIVEN_UP,
                    STOPPED_AFTER,
                    REACTION_AFTER,
                    USELESS_AFTER,
                    ONCE_AFTER,
                    PROPOSED_AFTER,
                    OTHER_AFTER)
            + ")");

    private static final Pattern NO_DRUG = Pattern.compile(
            "^ ?-? ?(?:level|clinic|resistance|resistant|allerg|nil|therapy (?:was )?stopped|deficien|replacement|nurse|pump site|stores|dependent diabet|requiring diabet|sensitiv)");

    private static final Pattern ASKED =
            Pattern.compile("^(?:is|are|can|could|would|should|do|does|what|any|shall|might)\\b");
    private static final Pattern COURSE_GOES_ON = Pattern.compile(
            "(?s).*\\b(?:is |currently |still |now |remains )?on (?:a|his|her|the)(?: \\w+){0,2} course of .*");

    /** The other drug of a tablet that holds two: "hydrocodone-acetaminophen". */
    private static final Pattern PARTNER = Pattern.compile("^ ?[-/] ?[a-z]{5,20}+(?= ?[:,;.(-]|$| not\\b)");

    /** A dose that is given at once and not again. */
    private static final Pattern AT_ONCE = Pattern.compile(
            "^(?: (?:iv|im|po|sc))? ?\\d[\\d,.]* ?(?:mg|mcg|g|units?|iu|u|ml)(?: (?:iv|im|po|sc|orally|chewed))* (?:stat|bolus|loading|load)\\b");

    /** Drugs that are given once and by others' hands. */
    private static final Set<String> NEVER_REGULAR = Set.of(
            "alteplase",
            "streptokinase",
            "urokinase",
            "tenecteplase",
            "reteplase",
            "protamine",
            "adenosine",
            "propofol",
            "naloxone");

    /** An item of a list that is over before the drug's own item: "ticagrelor stopped 2024, pregabalin". */
    private static final Pattern STOPPED_IN_LIST = Pattern.compile(
            "(?s)(?:.*[:,] ?)?(?!he |she |has |was |we |i )[a-z-]+(?: \\d+ ?\\w+)? (?:was )?(?:stopped|discontinued|withheld|ceased)(?: (?:in )?(?:[a-z]+ )?(?:19|20)\\d\\d)?, (?:[^,]*, )*(?:and )?");

    private DrugsNotTaken() {}

    /** Whether the words around {@code drug} say that it is not taken. {@code clause}: where its clause begins. */
    static boolean named(Sentence sentence, MedicineRule.Named drug, int clause) {
        var plain = sentence.plain;
        var before = plain.substring(clause, drug.start());
        var after = PARTNER.matcher(plain.substring(drug.end())).replaceFirst("");
        if (AT_ONCE.matcher(after).find()
                || NEVER_REGULAR.contains(drug.generic())
                || NO_DRUG.matcher(after).find()
                || AFTER.matcher(after).find()
                || HEADING.matcher(plain.substring(0, drug.start())).find()) {
            return true;
        }
        if (plain.endsWith("?")
                && ASKED.matcher(plain).find()
                && !Fit.matches(before, "(?s).*\\b(?:on|takes|taking)\\b.*")) {
            return true;
        }
        var words = BEFORE.matcher(before);
        if (!words.find()) {
            return false;
        }
        var since = before.substring(words.start());
        if (STOPPED_IN_LIST.matcher(before).matches()) {
            return false;
        }
        return !TAKEN_AGAIN.matcher(before.substring(words.end("words"))).matches()
                && !CHANGED_TO.matcher(since).matches()
                && !COURSE_GOES_ON.matcher(before).matches();
    }
}
