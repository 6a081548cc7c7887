package limbqueue.referral;

import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import limbqueue.document.Draft;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import limbqueue.triage.rule.RuleBook;
import org.springframework.stereotype.Component;

/**
 * Triage of whole lists, each document once: the same document, day, policy and rule book have the same proposal, so what
 * is remembered under all four is never out of date. So the next referral of a queue is worked out before it is asked for.
 */
@Component
final class TriagedDocuments {

    /** Some queues of ordinary length; the one that was asked for longest ago gives way. */
    private static final int REMEMBERED = 400;

    private final Map<Question, Triaged> remembered =
            Collections.synchronizedMap(new LinkedHashMap<>(REMEMBERED, 0.75f, true) {
                @Override
                protected boolean removeEldestEntry(Map.Entry<Question, Triaged> eldest) {
                    return size() > REMEMBERED;
                }
            });

    private record Question(String document, LocalDate asOf, Policy policy, String book) {}

    /** @param document as JSON text, exactly as it is held */
    Triaged triage(String document, Policy policy, RuleBook book, LocalDate asOf) {
        var question = new Question(document, asOf, policy, book.id());
        var known = remembered.get(question);
        if (known != null) {
            return known;
        }
        var reading = Draft.of(document).read(asOf);
        var triaged = new Triaged(reading, Triage.triage(reading.document(), policy, book, asOf));
        remembered.put(question, triaged);
        return triaged;
    }
}
