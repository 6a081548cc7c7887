package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What one referral says about a topic, or how it could be asked.
 *
 * @param <T> an answer
 */
public final class Fact<T> {

    private final Topic<T> topic;
    private final String place;
    private final String field;
    private final String ask;
    private final String words;
    private final boolean known;
    private final int acting;
    private final int possible;
    private final Optional<Reading<T>> part;
    private @Nullable String path;

    private Fact(
            Topic<T> topic,
            String place,
            String field,
            String ask,
            String words,
            boolean known,
            int acting,
            int possible,
            Optional<Reading<T>> part) {
        this.topic = topic;
        this.place = place;
        this.field = field;
        this.ask = ask;
        this.words = words;
        this.known = known;
        this.acting = acting;
        this.possible = possible;
        this.part = part;
    }

    /**
     * @param path the field of the referral that an answer fills
     * @param known the answer, where the referral gives it
     * @param actOn what to act on while it is unknown: for a measurement that nothing else replaces the most serious
     *     value, for a complaint the one that invents nothing
     * @param choices the answers that are possible while it is unknown
     * @param ask the question, as it can be asked on the phone
     */
    public static <T> Fact<T> of(Topic<T> topic, String path, Optional<T> known, T actOn, List<T> choices, String ask) {
        return of(topic, "", path, known, actOn, choices, ask, "");
    }

    /**
     * As above, with path and question put together only when somebody wants them.
     *
     * @param place what the path of the field begins with
     * @param words what stands in the question where {@code ask} has {@code %s}
     */
    public static <T> Fact<T> of(
            Topic<T> topic,
            String place,
            String field,
            Optional<T> known,
            T actOn,
            List<T> choices,
            String ask,
            String words) {
        if (known.isPresent()) {
            return known(topic, known.get());
        }
        return new Fact<>(
                topic, place, field, ask, words, false, topic.indexOf(actOn), topic.bits(choices), Optional.empty());
    }

    /** A fact that nobody has to ask about. */
    public static <T> Fact<T> known(Topic<T> topic, T answer) {
        var index = topic.indexOf(answer);
        return new Fact<>(topic, "", "", "", "", true, index, 1 << index, Optional.empty());
    }

    /** Nothing is known of {@code topic}, and every answer is possible. */
    static <T> Fact<T> open(Topic<T> topic) {
        return of(topic, topic.toString(), Optional.empty(), topic.answers().getFirst(), topic.answers(), "");
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
        return new Fact<>(topic, "", "", "", "", false, topic.indexOf(reading.actOn()), 0, Optional.of(reading));
    }

    public Topic<T> topic() {
        return topic;
    }

    /** The field of the referral that an answer fills; empty when known. */
    public String path() {
        var put = path;
        if (put == null) {
            put = place.isEmpty() ? field : place + field;
            path = put;
        }
        return put;
    }

    /** The question, as it can be asked on the phone; empty when known. */
    public String ask() {
        return ask.replace("%s", words);
    }

    public boolean known() {
        return part.isEmpty() ? known : Integer.bitCount(possibleBits()) == 1;
    }

    /** The answer that is acted on, known or not. */
    public T acting() {
        return topic.answers().get(acting);
    }

    /** Every answer that is possible. */
    public List<T> possible() {
        var answers = new ArrayList<T>(Integer.bitCount(possibleBits()));
        for (var i = 0; i < topic.answers().size(); i++) {
            if (allows(i)) {
                answers.add(topic.answers().get(i));
            }
        }
        return answers;
    }

    /** What rules of their own make of the referral, for a topic that has such. */
    public Optional<Reading<T>> part() {
        return part;
    }

    int actingIndex() {
        return acting;
    }

    boolean allows(int answer) {
        return (possibleBits() >> answer & 1) == 1;
    }

    /** One bit for each answer that is possible; what rules of their own leave is read only when somebody wants it. */
    private int possibleBits() {
        return part.isEmpty() ? possible : (int) part.get().possibleBits();
    }
}
