package limbqueue.reading;

import java.util.EnumMap;
import java.util.Map;
import java.util.regex.Pattern;

/** Whether a claudication gets worse, stays as it is, or came on suddenly. */
final class ClaudicationCourse {

    private static final Pattern COURSE_WORSE = Pattern.compile(
            "\\b(?:worse(?:n(?:ing|ed|s)?)?|progressive(?:ly)?|progress(?:ing|ed)|deteriorat\\w+|getting shorter|shorten(?:ed|ing|s)|declin(?:ing|ed)|going downhill|(?:come|gone|went|came|is|now) down (?:from|to)|(?:distance|dist\\w*|walking) (?:is |now )?down|down (?:from|to) \\d|(?:used to be|it was|was) \\d{2,4}(?= (?:at|in|last|a year|before|m|metre|yard|block|when)|[.,;]|$)|(?:increasing|decreasing|reducing|falling|shrinking|dwindling)(?:ly)?|shorter (?:and shorter|every|each)|(?:ever|progressively|increasingly|steadily) shorter|less and less|sooner every|dropped|fallen|crescendo)\\b");
    private static final Pattern COURSE_STABLE = Pattern.compile(
            "\\b(?:stable|unchanged|no change|not (?:changed|changing|worse|worsening|progressed|progressing|deteriorat\\w+)|hasn't (?:changed|progressed|worsened|got\\w* (?:any )?worse|deteriorated)|(?:don't|doesn't|never) change\\w*|not altered|hasn't altered|(?:don't|not) (?:think|believe|feel) (?:it|this|that it) has (?:altered|changed|worsened|progressed)|nothing has altered|static|steady|no worse|no (?:recent )?(?:progression|deterioration|worsening)|same (?:for|as|over)|(?:neither|no|not) (?:any )?(?:better,? (?:and |n?or |and no |and not )?(?:no |not )?(?:any )?worse|worse,? (?:and |n?or )(?:no |not )?(?:any )?better)|isn't (?:getting |becoming |any |got )*worse|(?:no|not|hardly|isn't|any) (?:any )?different (?:from|than|to)|nothing has changed|(?:trend|course) ?:? ?(?:stable|unchanged|static)|much the same|has been the same)\\b");
    private static final Pattern COURSE_SUDDEN = Pattern.compile(
            "\\b(?:sudden(?:ly)?(?: onset)?|overnight|out of the blue|abrupt(?:ly)?|from one day to the next|came on (?:all )?at once)\\b");
    private static final Pattern SUBJECT = Pattern.compile(
            "\\b(?:claudication|trouble|problem|condition|walking|walk|distance|symptoms?|leg pain|pain|it|this|calf|complaint|things|nothing|its|trend|(?:the|his|her) leg (?:is|has)|course|cramp\\w*|tolerance|these)\\b");

    /** "The right leg is worse": than the other, and not than before. */
    private static final Pattern THE_WORSE_LEG = Pattern.compile(
            "\\b(?:left|right)(?: leg| side| one| calf| foot)? (?:is|was|being)(?: (?:the|much|far|rather))* $");

    private ClaudicationCourse() {}

    static void read(Page page, Sentence sentence, ClaudicationRule.Topic topic, Findings findings, boolean later) {
        var plain = sentence.plain;
        if (later
                && !SUBJECT.matcher(plain).find()
                && !Fit.matches(
                        plain,
                        "(?s)(?:(?:x ?)?\\d+ ?/ ?\\d+,? |(?:left|right)(?: leg| side| one)? ?[:=]? ?(?:is |now |getting )*)?(?:slowly |gradually |now |steadily |no |not )?(?:getting|worse|progress|deteriorat|stable|unchanged|static|change).*")) {
            return;
        }
        if (Fit.matches(plain, "(?s).*\\b(?:rest pain|ulcer|wound)\\b.*") && later) {
            return;
        }
        String value;
        var match = COURSE_SUDDEN.matcher(plain);
        if (match.find() && !plain.contains("claudication stable") && Polarity.of(sentence, match) == Polarity.STATED) {
            value = "sudden";
        } else {
            match = COURSE_STABLE.matcher(plain);
            if (match.find() && sameSubject(sentence, match.start(), match.end())) {
                value = "stable";
            } else {
                match = COURSE_WORSE.matcher(plain);
                if (!match.find()
                        || Polarity.of(sentence, match) != Polarity.STATED
                        || plain.substring(Math.max(0, match.start() - 6), match.start())
                                .contains("no ")
                        || Fit.matches(
                                plain.substring(match.end()),
                                "(?s) (?:(?:on|than(?! (?:in (?:the )?)?(?:summer|winter|spring|autumn|last|a (?:year|month)|before|it was|christmas|easter|\\d|[a-z]+uary))|at|with|if|when|after|going|during|walking) .*|in (?:the )?(?:left|right|cold|morning|winter).*|uphill.*)")
                        || !sameSubject(sentence, match.start(), match.end())
                        || Fit.matches(match.group(), "worse")
                                && Fit.matches(
                                        plain.substring(match.end()),
                                        "(?s) (?:the )?(?:left|right)(?: (?:leg|side|calf|one))? ?(?:[.,;)].*|)")
                        || Fit.matches(match.group(), "worse")
                                && THE_WORSE_LEG
                                        .matcher(plain.substring(0, match.start()))
                                        .find()
                                && Fit.matches(plain.substring(match.end()), "(?s) ?(?:[.:;,]|of (?:the )?2).*|")
                        || Fit.matches(match.group(), "dropped|fallen|falling|increasing|decreasing|reducing")
                                && !Fit.matches(
                                        plain,
                                        "(?s).*\\b(?:distance|walking|claudication|\\d ?(?:metre|yard|m|block)s?)\\b.*")) {
                    return;
                }
                value = "worse";
            }
        }
        if (eachItsOwn(page, sentence, topic, findings)) {
            return;
        }
        for (var side : topic.sides()) {
            findings.putIfUnknown(side.leg("claudication.course"), value, sentence.span(match));
        }
    }

    /** "Right worse lately, left stable". */
    private static boolean eachItsOwn(Page page, Sentence sentence, ClaudicationRule.Topic topic, Findings findings) {
        var own = new EnumMap<Side, Map.Entry<String, Span>>(Side.class);
        for (var value : Map.of("worse", COURSE_WORSE, "stable", COURSE_STABLE).entrySet()) {
            var match = value.getValue().matcher(sentence.plain);
            while (match.find()) {
                var near = page.legs.near(sentence, match.start(), match.end());
                if (near.sides().size() == 1
                        && topic.sides().containsAll(near.sides())
                        && Polarity.of(sentence, match) == Polarity.STATED) {
                    own.put(near.sides().iterator().next(), Map.entry(value.getKey(), sentence.span(match)));
                }
            }
        }
        if (own.size() != 2) {
            return false;
        }
        own.forEach((side, value) ->
                findings.putIfUnknown(side.leg("claudication.course"), value.getKey(), value.getValue()));
        return true;
    }

    /** Whether no other complaint stands nearer to the words than the claudication. */
    private static boolean sameSubject(Sentence sentence, int start, int end) {
        var piece = sentence.plain.substring(sentence.pieceStart(start), sentence.pieceEnd(end));
        return !Fit.matches(
                piece,
                "(?s).*\\b(?:renal|kidney|angina|cardiac|copd|ulcer|wound|ckd|egfr|creatinine|heart|rest pain|weight|aneurysm|diabetes|hba1c|asthma|breath\\w*|infection|bp|blood pressure|haemodynamically|vision|memory)\\b.*");
    }
}
