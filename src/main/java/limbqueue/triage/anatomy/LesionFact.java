package limbqueue.triage.anatomy;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.question.Topic;

/**
 * One thing about a lesion that is known or could be asked. Path and question are put together only when somebody wants
 * them: most facts are known.
 *
 * @param lesion the path of the lesion, and {@code field} what follows it
 * @param known the answer, where the referral gives it
 * @param actOn what to act on while it is unknown
 * @param choices answers that stand for all answers: one from each range that the rule tells apart
 * @param template the question, with {@code %s} where {@code words} stand; empty where nobody can be asked
 */
public record LesionFact<T>(
        String lesion, String field, Optional<T> known, T actOn, List<T> choices, String template, String words) {

    /** The field of the referral that an answer fills. */
    public String path() {
        return lesion + field;
    }

    /** The question, as it can be asked on the phone; empty where nobody can be asked. */
    public String ask() {
        return Sentence.of(template, words);
    }

    boolean canBeAsked() {
        return !template.isEmpty();
    }

    /** What to act on, known or not. */
    public T acting() {
        return known.orElse(actOn);
    }

    /** What is asked about, as it is told apart from all else about the same lesion. */
    Topic<T> topic() {
        return Topic.ofOne(field, choices);
    }
}
