package limbqueue.preparation;

import java.util.List;

/** Whether a case may go to the room. */
public sealed interface Readiness {

    /** Everything that must be there is there. */
    record Ready() implements Readiness {}

    /** @param reasons never empty */
    record NotReady(List<Obstacle> reasons) implements Readiness {}

    /** A physician goes ahead all the same. */
    record Overridden(List<Obstacle> reasons, ReadinessOverride by) implements Readiness {}

    /** Whether the case may go to the room. */
    default boolean open() {
        return !(this instanceof NotReady);
    }

    /** What stands in the way, overridden or not. */
    default List<Obstacle> obstacles() {
        return switch (this) {
            case Ready _ -> List.of();
            case NotReady(var reasons) -> reasons;
            case Overridden(var reasons, var by) -> reasons;
        };
    }

    /**
     * Why a case is not ready.
     *
     * @param kind what kind of reason
     * @param what the fact, as a sentence
     * @param remedy what to do, as a sentence
     */
    record Obstacle(Kind kind, String what, String remedy) {}

    /** Kinds of reasons. */
    enum Kind {
        /** No physician's approval stands. */
        NOT_APPROVED(false),
        /** No date is booked, so nothing can be counted against it. */
        NO_DATE(false),
        /** Something of the work-up is open. */
        WORK_UP(true),
        SIDE_NOT_KNOWN(true),
        /** The vessel's diameter is not known, so nobody can say which stent fits. */
        DIAMETER_NOT_KNOWN(true),
        NO_STENT_IN_STOCK(true),
        STENT_NOT_CONFIRMED(true),
        STENT_DOES_NOT_FIT(true),
        STENT_EXPIRED(true),
        STENT_USED_UP(true);

        private final boolean overridable;

        Kind(boolean overridable) {
            this.overridable = overridable;
        }

        /** Whether a physician may go ahead all the same. */
        public boolean overridable() {
            return overridable;
        }
    }
}
