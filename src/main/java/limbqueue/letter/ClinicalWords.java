package limbqueue.letter;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.referral.ReferralDecided;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Smoking;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordScale;
import limbqueue.triage.TriageResult.WorkUpItem;

/** What a letter says of a patient's legs, in words of its own: none of the sentences that triage wrote for the clinician. */
final class ClinicalWords {

    /** More would not be answered, nor leave the caution on the first page; the rest is asked on the phone. */
    private static final int MOST_QUESTIONS = 6;

    /** Questions about these touch on how a colleague acted or why haste was asked for: for the phone, not on paper. */
    private static final List<String> NOT_ON_PAPER = List.of("asked.", "procedures", "deferredElsewhere", "imaging");

    /** Work-up codes of what a referring doctor can send. */
    private static final Set<String> CAN_SEND = Set.of(
            "kidney-function",
            "blood-count",
            "inr",
            "potassium",
            "hba1c",
            "thyroid-function",
            "outside-report",
            "outside-images");

    private final Vocabulary words;

    private final QuestionWords questions;

    ClinicalWords(Vocabulary words, QuestionWords questions) {
        this.words = words;
        this.questions = questions;
    }

    /** As in "we plan to see the patient <em>within 14 days</em>", with the days that the practice's policy gives. */
    String howSoon(Tier tier, Policy policy) {
        var days = policy.days().get(tier);
        if (days == null) {
            return words.say("soon.none");
        }
        if (days == 0) {
            return words.say("soon.same-day");
        }
        if (days >= 21 && days % 7 == 0) {
            return words.say("soon.weeks", days / 7);
        }
        return days == 1 ? words.say("soon.one-day") : words.say("soon.days", days);
    }

    /** The leg or legs that call for what is done; nothing if neither does. */
    Optional<String> concerns(ReferralDecided decided) {
        var left = decided.proposal().legs().left().tier();
        var right = decided.proposal().legs().right().tier();
        if (left.moreUrgentThan(right)) {
            return Optional.of(words.say("legs.LEFT"));
        }
        if (right.moreUrgentThan(left)) {
            return Optional.of(words.say("legs.RIGHT"));
        }
        return left == Tier.ADVICE_ONLY ? Optional.empty() : Optional.of(words.say("legs.both"));
    }

    /** How each leg that is there is graded. */
    List<String> grades(ReferralDecided decided) {
        return Stream.of(Side.values())
                .filter(side -> decided.document()
                        .legs()
                        .of(side)
                        .amputation()
                        .filter(Amputation::aboveAnkle)
                        .isEmpty())
                .map(side -> words.say("grade." + side.name(), grade(decided, side)))
                .toList();
    }

    private String grade(ReferralDecided decided, Side side) {
        var proposed = decided.proposal().legs().of(side);
        var changed = Optional.ofNullable(decided.decision().categories().get(side));
        var category = changed.orElse(proposed.rutherford().category());
        var settled = changed.isPresent() || proposed.rutherford().possible().size() <= 1;
        if (category == Rutherford.CHRONIC_0 && !settled) {
            return words.say("grade.unknown");
        }
        var acute = category.scale() == RutherfordScale.ACUTE;
        var rutherford = words.say(
                acute ? "grade.acute" : "grade.chronic", category.label(), words.say("rutherford." + category.name()));
        // A category that the physician changed leaves no Fontaine stage behind it that anybody has looked at.
        var graded = changed.isPresent() || acute
                ? rutherford
                : words.say(
                        "grade.with-fontaine",
                        rutherford,
                        proposed.fontaine().grade().label());
        return settled ? graded : words.say("grade.open", graded);
    }

    static boolean claudicationOnly(ReferralDecided decided) {
        return Stream.of(Side.values())
                .allMatch(side ->
                        Optional.ofNullable(decided.decision().categories().get(side))
                                        .orElse(decided.proposal()
                                                .legs()
                                                .of(side)
                                                .rutherford()
                                                .category())
                                        .compareTo(Rutherford.CHRONIC_3)
                                <= 0);
    }

    List<String> canSend(TriageResult proposal) {
        return proposal.workUp().stream()
                .filter(WorkUpItem::needed)
                .map(WorkUpItem::code)
                .filter(CAN_SEND::contains)
                .distinct()
                .map(code -> words.say("wanted." + code))
                .toList();
    }

    /** Treatment for every patient with blocked leg arteries (acc-aha-2024), without doses. */
    List<String> measures(ReferralDocument document, boolean exercise) {
        var history = document.history();
        var measures = new ArrayList<String>();
        if (exercise) {
            measures.add(words.say("measure.exercise"));
        }
        measures.add(words.say(history.statin().orElse(false) ? "measure.statin.on" : "measure.statin"));
        measures.add(
                words.say(history.antiplatelet().orElse(false) ? "measure.antiplatelet.on" : "measure.antiplatelet"));
        if (history.smoking().isEmpty()) {
            measures.add(words.say("measure.smoking"));
        } else if (history.smoking().get() == Smoking.CURRENT) {
            measures.add(words.say("measure.smoking.on"));
        }
        return List.copyOf(measures);
    }

    /** The question in the language of the letter. */
    String ask(Question question, ReferralDocument document) {
        return Typed.line(questions.ask(question, document));
    }

    static List<Question> questions(TriageResult proposal) {
        return proposal.questions().stream()
                .filter(ClinicalWords::isForPaper)
                .limit(MOST_QUESTIONS)
                .toList();
    }

    /** Whether a letter may ask it. */
    static boolean isForPaper(Question question) {
        return NOT_ON_PAPER.stream().noneMatch(question.field()::startsWith)
                && !question.couldChange().equals(List.of("redFlags"));
    }

    /** The day by which answers help most; nothing if it is not after {@code today}. */
    static Optional<LocalDate> answerBy(List<Question> questions, LocalDate today) {
        return questions.stream().map(Question::askBy).min(LocalDate::compareTo).filter(day -> day.isAfter(today));
    }
}
