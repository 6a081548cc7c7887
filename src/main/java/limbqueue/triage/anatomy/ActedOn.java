package limbqueue.triage.anatomy;

/** Gives for unknown details what is to be acted on, and notes whether one was looked at that could be asked. */
final class ActedOn implements Details {

    private boolean unknown;

    @Override
    public <T> T of(Detail<T> detail) {
        if (detail.known().isPresent()) {
            return detail.known().get();
        }
        unknown |= !detail.ask().isEmpty();
        return detail.actOn();
    }

    boolean sawUnknown() {
        return unknown;
    }
}
