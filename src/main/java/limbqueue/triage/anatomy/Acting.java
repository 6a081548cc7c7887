package limbqueue.triage.anatomy;

/** Answers what is unknown by what is to be acted on, and notes whether somebody could have been asked. */
final class Acting implements LesionAnswers {

    private boolean open;

    @Override
    public <T> T of(LesionFact<T> fact) {
        if (fact.known().isPresent()) {
            return fact.known().get();
        }
        open |= fact.canBeAsked();
        return fact.actOn();
    }

    /** Something that somebody can be asked was not known. */
    boolean open() {
        return open;
    }
}
