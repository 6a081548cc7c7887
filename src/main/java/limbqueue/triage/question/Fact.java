package limbqueue.triage.question;

import java.util.List;
import java.util.Optional;

/**
 * What one referral says about a topic, or how it could be asked.
 *
 * @param path the field of the referral that an answer fills
 * @param known the answer, where the referral gives it
 * @param actOn what to act on while it is unknown: for a measurement that nothing else replaces the most serious value,
 *     for a complaint the one that invents nothing
 * @param choices the answers that are possible while it is unknown
 * @param ask the question, as it can be asked on the phone
 * @param part for a topic with rules of its own, what they make of the referral
 */
public record Fact<T>(
        Topic<T> topic,
        String path,
        Optional<T> known,
        T actOn,
        List<T> choices,
        String ask,
        Optional<Reading<T>> part) {

    public static <T> Fact<T> of(Topic<T> topic, String path, Optional<T> known, T actOn, List<T> choices, String ask) {
        return new Fact<>(topic, path, known, actOn, choices, ask, Optional.empty());
    }

    /** A fact that nobody has to ask about. */
    public static <T> Fact<T> known(Topic<T> topic, T answer) {
        return of(topic, "", Optional.of(answer), answer, List.of(answer), "");
    }

    /** A yes-or-no complaint or condition, not invented while it is unknown. */
    public static Fact<Boolean> yesOrNo(Topic<Boolean> topic, String path, Optional<Boolean> known, String ask) {
        return of(topic, path, known, false, topic.answers(), ask);
    }

    /**
     * What rules of their own conclude from facts that nobody else asks about, as the grade of an infection from its
     * signs. The answers of {@code topic} are the conclusions of those rules, in their order.
     */
    public static <T> Fact<T> concluded(Topic<T> topic, Reading<T> reading) {
        if (!reading.conclusions().equals(topic.answers())) {
            throw new IllegalArgumentException(topic + " has other answers than its rules have conclusions");
        }
        var possible = reading.possible();
        var actOn = reading.actOn();
        return new Fact<>(
                topic,
                "",
                possible.size() == 1 ? Optional.of(actOn) : Optional.empty(),
                actOn,
                possible,
                "",
                Optional.of(reading));
    }

    /** The answer that is acted on, known or not. */
    public T acting() {
        return known.orElse(actOn);
    }

    /** Every answer that is possible. */
    public List<T> possible() {
        return known.map(List::of).orElse(choices);
    }

    int actingIndex() {
        return topic.indexOf(acting());
    }

    /** One bit for each answer of the topic that is possible. */
    int mask() {
        var mask = 0;
        for (var answer : possible()) {
            mask |= 1 << topic.indexOf(answer);
        }
        return mask;
    }
}
