package limbqueue.triage.question;

import java.util.Arrays;

/** What one referral says about the topics of an agenda. */
public final class Facts {

    private final Fact<?>[] byNumber;

    /** What is acted on, by the place of the answer in its topic: together, since diagrams go by it. */
    private final byte[] acting;

    public Facts(Agenda agenda) {
        this.byNumber = new Fact<?>[agenda.size()];
        this.acting = new byte[agenda.size()];
        Arrays.fill(acting, (byte) -1);
    }

    public void note(Fact<?> fact) {
        var number = fact.topic().number();
        byNumber[number] = fact;
        acting[number] = (byte) fact.actingIndex();
    }

    /** Place of the answer that is acted on among the answers of the topic; -1 if nothing was noted about it. */
    int acting(int number) {
        return acting[number];
    }

    /** @throws IllegalStateException if nothing was noted about {@code topic} */
    @SuppressWarnings("unchecked") // a fact stands under its own topic
    public <T> Fact<T> of(Topic<T> topic) {
        var fact = byNumber[topic.number()];
        if (fact == null) {
            throw new IllegalStateException("nothing is said about " + topic);
        }
        return (Fact<T>) fact;
    }
}
