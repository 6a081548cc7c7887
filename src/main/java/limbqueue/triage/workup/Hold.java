package limbqueue.triage.workup;

import java.time.LocalDateTime;
import limbqueue.triage.finding.Span;
import limbqueue.triage.question.Sentence;

/**
 * How long before a procedure a drug is not taken, as a table prints it.
 *
 * @param fewest the shorter time printed
 * @param most the longer time printed, which is acted on
 */
record Hold(int fewest, int most, Unit unit) {

    /** What the table counts. */
    enum Unit {
        /** Doses of a drug taken twice a day. */
        DOSES_TWICE_A_DAY("doses", 12),
        /** Doses of a drug taken once a day. */
        DOSES_ONCE_A_DAY("doses", 24),
        DAYS("days", 24),
        HOURS("hours", 1);

        private final String words;
        private final int hours;

        Unit(String words, int hours) {
            this.words = words;
            this.hours = hours;
        }
    }

    static Hold doses(int most, int aDay) {
        return new Hold(most, most, aDay == 2 ? Unit.DOSES_TWICE_A_DAY : Unit.DOSES_ONCE_A_DAY);
    }

    static Hold days(int fewest, int most) {
        return new Hold(fewest, most, Unit.DAYS);
    }

    static Hold hours(int fewest, int most) {
        return new Hold(fewest, most, Unit.HOURS);
    }

    /** Both, where an unknown leaves two rows possible. */
    Hold or(Hold other) {
        return new Hold(Math.min(fewest, other.fewest), Math.max(most, other.most), unit);
    }

    /** The latest time of the last dose before {@code procedure}: that many intervals of the drug earlier. */
    LocalDateTime lastDose(LocalDateTime procedure) {
        return procedure.minusHours((long) most * unit.hours);
    }

    String words() {
        var count = new Span(fewest, most).words();
        return unit == Unit.DAYS || unit == Unit.HOURS
                ? Sentence.of("%s %s", count, unit.words)
                : Sentence.of("%s %s left out", count, unit.words);
    }
}
