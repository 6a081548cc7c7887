package limbqueue.letter;

import java.util.Locale;

/** What a letter tells, and whom. */
public enum LetterKind {
    RECEIVED("Received", false, false),
    INFORMATION_NEEDED("Information needed", false, true),
    TRIAGED("Triaged", false, true),
    ADVICE("Advice", false, true),
    SENT_TO_HOSPITAL("Sent to hospital", false, true),
    RETURNED("Returned", false, true),
    BOOKED("Booked", false, false),
    CHANGED("Date changed", false, false),
    CANCELLED("Date cancelled", false, false),
    DONE("Done", false, false),
    PATIENT_APPOINTMENT("To the patient: date", true, false),
    PATIENT_CHANGED("To the patient: date changed", true, false),
    PATIENT_CANCELLED("To the patient: date cancelled", true, false);

    private final String words;
    private final boolean toPatient;
    private final boolean tellsOfDecision;

    LetterKind(String words, boolean toPatient, boolean tellsOfDecision) {
        this.words = words;
        this.toPatient = toPatient;
        this.tellsOfDecision = tellsOfDecision;
    }

    /** Which one tells of a date that was given, or of one that changed a date told before. */
    static LetterKind ofDate(boolean toPatient, boolean changed) {
        if (toPatient) {
            return changed ? PATIENT_CHANGED : PATIENT_APPOINTMENT;
        }
        return changed ? CHANGED : BOOKED;
    }

    /** What it is called in a list. */
    public String words() {
        return words;
    }

    /** Whether the patient reads it; else the referring doctor does. */
    public boolean toPatient() {
        return toPatient;
    }

    /** Whether it tells of a decision, and so waits until that is final. */
    public boolean tellsOfDecision() {
        return tellsOfDecision;
    }

    /** How many passages at its end are those that it is never without: who decides, where somebody did, and the caution. */
    int standingPassages() {
        return this == RECEIVED ? 1 : 2;
    }

    /** As in file names: {@code sent-to-hospital}. */
    public String fileName() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
