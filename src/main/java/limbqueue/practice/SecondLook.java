package limbqueue.practice;

/**
 * Which decisions a second physician looks at, by the practice's choice before they count.
 *
 * @param loweredAgainstRedFlag a tier that was lowered although a red flag stood
 * @param loweredBelowLimbThreat a tier that was lowered below what a limb-threatening grade calls for
 */
public record SecondLook(boolean loweredAgainstRedFlag, boolean loweredBelowLimbThreat) {

    private static final SecondLook STANDARD = new SecondLook(true, true);

    /** What the product comes with (common practice, no source). */
    public static SecondLook standard() {
        return STANDARD;
    }
}
