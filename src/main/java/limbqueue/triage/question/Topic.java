package limbqueue.triage.question;

import java.util.List;

/**
 * Something that rules ask about, with every answer that they tell apart. A topic belongs to the rules, not to a referral:
 * what one referral says about it is a {@link Fact}.
 *
 * @param <T> an answer
 */
public final class Topic<T> {

    private final String name;
    private final List<T> answers;

    private Topic(String name, List<T> answers) {
        if (answers.size() > Integer.SIZE - 1) {
            throw new IllegalArgumentException(name + " has too many answers: " + answers);
        }
        this.name = name;
        this.answers = List.copyOf(answers);
    }

    public static <T> Topic<T> of(String name, List<T> answers) {
        return new Topic<>(name, answers);
    }

    public static Topic<Boolean> yesOrNo(String name) {
        return of(name, List.of(false, true));
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
