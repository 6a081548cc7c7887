package limbqueue.triage.question;

import java.util.List;

/**
 * Something that rules ask about, with every answer that they tell apart. A topic belongs to the rules, not to a referral:
 * what one referral says about it is a {@link Fact}.
 *
 * @param <T> an answer
 */
public final class Topic<T> {

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

    /** Its place on the agenda. */
    int number() {
        return number;
    }

    public List<T> answers() {
        return answers;
    }

    int indexOf(T answer) {
        var index = answers.indexOf(answer);
        if (index < 0) {
            throw new IllegalArgumentException(answer + " is no answer to " + name);
        }
        return index;
    }

    @Override
    public String toString() {
        return name;
    }
}
