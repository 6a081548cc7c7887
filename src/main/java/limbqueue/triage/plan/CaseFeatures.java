package limbqueue.triage.plan;

/**
 * What the time of a case depends on.
 *
 * @param narrowed lesions that are narrowed, 0 or more
 * @param closed lesions that are closed, 0 or more
 * @param closedAboveGroin whether one of these is of the aorta or an iliac artery
 * @param lengthMm length of all lesions together in millimetres, 0 or more
 * @param heavilyCalcified lesions with severe calcification, 0 or more
 * @param earlierFailure whether an earlier attempt failed
 * @param fromArm whether the first attempt uses an arm
 */
public record CaseFeatures(
        int narrowed,
        int closed,
        boolean closedAboveGroin,
        double lengthMm,
        int heavilyCalcified,
        boolean earlierFailure,
        boolean fromArm) {

    /** Cases from which a practice learns together. */
    public enum CaseClass {
        NARROWED,
        CLOSED_BELOW_GROIN,
        CLOSED_ABOVE_GROIN
    }

    /** @throws IllegalArgumentException if a number is negative or no number */
    public CaseFeatures {
        if (narrowed < 0 || closed < 0 || heavilyCalcified < 0 || !(lengthMm >= 0) || Double.isInfinite(lengthMm)) {
            throw new IllegalArgumentException("numbers and length of lesions are 0 or more");
        }
    }

    public CaseClass caseClass() {
        if (closed == 0) {
            return CaseClass.NARROWED;
        }
        return closedAboveGroin ? CaseClass.CLOSED_ABOVE_GROIN : CaseClass.CLOSED_BELOW_GROIN;
    }
}
