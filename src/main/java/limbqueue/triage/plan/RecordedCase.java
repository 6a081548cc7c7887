package limbqueue.triage.plan;

/**
 * A case that the practice has done.
 *
 * @param minutes from the patient's coming into the room to leaving it, above 0
 */
public record RecordedCase(CaseFeatures features, double minutes) {

    /** @throws IllegalArgumentException if {@code minutes} is not a number above 0 */
    public RecordedCase {
        if (!(minutes > 0) || Double.isInfinite(minutes)) {
            throw new IllegalArgumentException("a case takes more than 0 minutes, not " + minutes);
        }
    }
}
