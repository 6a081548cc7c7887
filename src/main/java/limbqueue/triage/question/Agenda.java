package limbqueue.triage.question;

import java.util.List;

/** The topics that some rules ask about, numbered so that what a referral says of them is found at once. */
public final class Agenda {

    private int size;

    public <T> Topic<T> topic(String name, List<T> answers) {
        return new Topic<>(size++, name, answers);
    }

    public Topic<Boolean> yesOrNo(String name) {
        return topic(name, List.of(false, true));
    }

    /** How many topics there are. */
    public int size() {
        return size;
    }
}
