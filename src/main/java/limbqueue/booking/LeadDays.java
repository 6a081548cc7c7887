package limbqueue.booking;

/**
 * How many days things take that no session is needed for (common practice, no source; each practice sets its own).
 *
 * @param notice from planning until a patient can come at the soonest
 * @param bloodTests until a blood test that is taken today is in
 * @param duplexReport from pressures and duplex until their report is there
 * @param ctaReport from CTA until its report is there
 * @param outsideRecords until records of another hospital are there
 * @param prescriber until the prescriber of a drug has said whether and when to hold it
 */
public record LeadDays(
        int notice, int bloodTests, int duplexReport, int ctaReport, int outsideRecords, int prescriber) {

    /** What holds where a practice says nothing else. */
    public static LeadDays usual() {
        return new LeadDays(1, 2, 0, 1, 7, 2);
    }

    /** @throws IllegalArgumentException if one is negative */
    public LeadDays {
        if (notice < 0 || bloodTests < 0 || duplexReport < 0 || ctaReport < 0 || outsideRecords < 0 || prescriber < 0) {
            throw new IllegalArgumentException("days are 0 or more");
        }
    }
}
