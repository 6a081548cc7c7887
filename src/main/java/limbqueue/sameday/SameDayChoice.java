package limbqueue.sameday;

/**
 * What the practice has chosen for same-day cases. The minutes that the product comes with are the practice's choice to change,
 * no source.
 *
 * @param minutes after which a case that nobody has taken is asked of the lead physician and the managers, 1 to 240
 * @param hospital where such patients go, at most 120 characters; empty where nobody has said
 * @param hospitalPhone its number, at most 60 characters
 * @param leadPhone the number of whoever leads the physicians, at most 60 characters
 */
public record SameDayChoice(int minutes, String hospital, String hospitalPhone, String leadPhone) {

    private static final int MOST_MINUTES = 240;
    private static final int LONGEST_NAME = 120;
    private static final int LONGEST_PHONE = 60;

    /** @throws IllegalArgumentException if the minutes are out of their range or a text is too long */
    public SameDayChoice {
        if (minutes < 1 || minutes > MOST_MINUTES) {
            throw new IllegalArgumentException("Minutes are a number from 1 to " + MOST_MINUTES + ".");
        }
        if (hospital.length() > LONGEST_NAME) {
            throw new IllegalArgumentException("A name has at most " + LONGEST_NAME + " characters.");
        }
        if (hospitalPhone.length() > LONGEST_PHONE || leadPhone.length() > LONGEST_PHONE) {
            throw new IllegalArgumentException("A telephone number has at most " + LONGEST_PHONE + " characters.");
        }
    }
}
