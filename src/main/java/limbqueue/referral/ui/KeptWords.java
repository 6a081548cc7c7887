package limbqueue.referral.ui;

import com.vaadin.flow.spring.annotation.SpringComponent;
import com.vaadin.flow.spring.annotation.VaadinSessionScope;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import limbqueue.referral.DecisionKind;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;

/**
 * What a physician has typed and chosen in the dialogs but not yet decided. It outlives a dialog closed by mistake, a page
 * left and a page reloaded, and ends with the session.
 */
@SpringComponent
@VaadinSessionScope
class KeptWords {

    private final Map<Key, String> words = new HashMap<>();
    private final Map<Long, Choice> choices = new HashMap<>();

    private record Key(long referral, DecisionKind kind) {}

    /** A change half made. */
    record Choice(Optional<Tier> tier, Map<Side, Rutherford> categories) {

        Choice {
            categories = Map.copyOf(categories);
        }
    }

    Optional<String> words(long referral, DecisionKind kind) {
        return Optional.ofNullable(words.get(new Key(referral, kind)));
    }

    void keep(long referral, DecisionKind kind, String typed) {
        words.put(new Key(referral, kind), typed);
    }

    Optional<Choice> choice(long referral) {
        return Optional.ofNullable(choices.get(referral));
    }

    void keep(long referral, Choice choice) {
        choices.put(referral, choice);
    }

    /** Forgets everything about a referral, since it is decided. */
    void forget(long referral) {
        words.keySet().removeIf(key -> key.referral() == referral);
        choices.remove(referral);
    }
}
