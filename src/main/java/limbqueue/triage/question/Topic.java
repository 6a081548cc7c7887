package limbqueue.triage.question;

import java.util.List;

/**
 * Something that rules ask about, with every answer that they tell apart. A topic belongs to the rules, not to a referral:
 * what one referral says about it is a {@link Fact}.
 *
 * @param <T> an answer
 */
public final class Topic<T> {

    private static final int ON_NO_AGENDA = -1;

    private final int number;
    private final String name;
    private final List<T> answers;

    Topic(int number, String name, List<T> answers) {
        if (answers.size() > Integer.SIZE - 1) {
            throw new IllegalArgumentException(name + " has too many answers: " + answers);
        }
        this.number = number;
        this.name = name;
        this.answers = List.copyOf(answers);
    }

    /**
     * A topic of its own, on no agenda, that two of the same name and with the same answers are one of: for what only some
     * referrals have, as a lesion.
     */
    public static <T> Topic<T> ofOne(String name, List<T> answers) {
        return new Topic<>(ON_NO_AGENDA, name, answers);
    }

    /** Its place on the agenda. */
    int number() {
        return number;
    }

    public List<T> answers() {
        return answers;
    }

    /** One bit for each of {@code some} answers. */
    int bits(List<T> some) {
        if (some == answers) {
            return (1 << answers.size()) - 1;
        }
        var bits = 0;
        for (var answer : some) {
            bits |= 1 << indexOf(answer);
        }
        return bits;
    }

    int indexOf(T answer) {
        var index = answers.indexOf(answer);
        if (index < 0) {
            throw new IllegalArgumentException(answer + " is no answer to " + name);
        }
        return index;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Topic<?> topic
                && number == topic.number
                && name.equals(topic.name)
                && answers.equals(topic.answers);
    }

    @Override
    public int hashCode() {
        return name.hashCode();
    }

    @Override
    public String toString() {
        return name;
    }
}
