package limbqueue.triage.question;

import java.util.Optional;
import java.util.function.Function;

/**
 * Rules that conclude something from facts which no rule outside the part looks at, as the grade of an infection from
 * its signs. Since the facts are the part's own, what it can conclude is worked out once and combined with the rest.
 *
 * @param <T> what the part concludes
 */
public final class Part<T> {

    private final Function<Answers, T> rules;
    private Optional<Exploration<T>> explored = Optional.empty();

    public Part(Function<Answers, T> rules) {
        this.rules = rules;
    }

    T conclude(Answers answers) {
        return rules.apply(answers);
    }

    /** Everything that the part's unknown facts allow. */
    public Exploration<T> explore() {
        if (explored.isEmpty()) {
            explored = Optional.of(Exploration.of(rules));
        }
        return explored.get();
    }
}
