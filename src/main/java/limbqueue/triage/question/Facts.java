package limbqueue.triage.question;

/** What one referral says about the topics of an agenda. */
public final class Facts {

    private final Fact<?>[] byNumber;

    public Facts(Agenda agenda) {
        this.byNumber = new Fact<?>[agenda.size()];
    }

    public void note(Fact<?> fact) {
        byNumber[fact.topic().number()] = fact;
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
