package limbqueue.forecast;

/**
 * One session while it is filled.
 *
 * <p>Urgent cases may use all of it. Others may use what is not held, and of what is held and no urgent case uses the share
 * that finds somebody after its release:
 *
 * <pre>
 * for others = minutes - held + filled * max(0, held - minutes of urgent cases)
 * </pre>
 */
final class Filling {

    private final Outset.Place place;
    private double ofUrgent;
    private double ofOthers;
    private boolean begun;

    Filling(Outset.Place place) {
        this.place = place;
    }

    /** Whether nobody fits into it any more, of cases that all take {@code least} minutes or more as planned. */
    boolean isFull(double least) {
        return begun && ofUrgent + ofOthers + least > place.minutes();
    }

    /**
     * Whether a case fits into it. Whatever is longer than any session begins one that is empty, except for a case that would
     * use time which is held for others.
     */
    boolean fits(double planned, boolean urgent) {
        var fitsIn = ofUrgent + ofOthers + planned <= place.minutes();
        return urgent || place.held() == 0 ? !begun || fitsIn : fitsIn && ofOthers + planned <= forOthers();
    }

    private double forOthers() {
        return place.minutes() - place.held() + place.filled() * Math.max(0, place.held() - ofUrgent);
    }

    void take(double minutes, boolean urgent) {
        begun = true;
        if (urgent) {
            ofUrgent += minutes;
        } else {
            ofOthers += minutes;
        }
    }
}
