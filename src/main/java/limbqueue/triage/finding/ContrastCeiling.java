package limbqueue.triage.finding;

import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * How much contrast medium the kidneys bear: volume in mL held against the eGFR (common practice, no source).
 *
 * @param thinkFrom the volume in mL from which to think twice
 * @param keepUnder the volume in mL under which to stay
 */
public record ContrastCeiling(Span thinkFrom, Span keepUnder) {

    /** What a volume means. */
    public enum Judgement {
        FINE,
        THINK_TWICE,
        TOO_MUCH
    }

    /** @param egfr in mL/min per 1.73 m2 */
    public static ContrastCeiling of(Span egfr, Limits limits) {
        return new ContrastCeiling(
                egfr.times(limits.of(Limit.CONTRAST_TO_EGFR_WARN_AT_LEAST)),
                egfr.times(limits.of(Limit.CONTRAST_TO_EGFR_CEILING_AT_LEAST)));
    }

    /** The judgement by the lowest kidney function that is possible. */
    public Judgement of(double millilitres) {
        if (millilitres >= keepUnder.least()) {
            return Judgement.TOO_MUCH;
        }
        return millilitres >= thinkFrom.least() ? Judgement.THINK_TWICE : Judgement.FINE;
    }

    public String words() {
        return Sentence.of(
                "think twice from %s mL on, stay under %s mL; the lower figure counts",
                thinkFrom.words(), keepUnder.words());
    }
}
