package limbqueue.triage.workup;

import java.util.Optional;
import limbqueue.triage.finding.BleedingClass;
import limbqueue.triage.finding.Span;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * How long drugs against clotting are held before a procedure (sir-2019; value from memory), row for row, by the bleeding
 * class of the procedure and the creatinine clearance; a clearance that is not known leaves every row possible. Beside it
 * what a guideline on atrial fibrillation prints (af-2023).
 */
final class HoldingTable {

    /** What the table says of one drug. */
    sealed interface Row {}

    record Continue() implements Row {}

    /**
     * @param restartHours hours after the procedure; the earliest where two are printed
     * @param restart when it is taken again, as printed
     * @param beside what else is printed of it
     */
    record HoldFor(Hold hold, int restartHours, String restart, String beside) implements Row {}

    /** @param why why the table is of no help */
    record None(String why) implements Row {}

    private static final int NEXT_DAY = 24;
    private static final String A_DAY_LATER = "24 hours after";

    private HoldingTable() {}

    /** @param clearance creatinine clearance in mL/min; empty while it is not known */
    static Row of(String drug, BleedingClass bleeding, Optional<Span> clearance, Limits limits) {
        if (bleeding == BleedingClass.LOW) {
            return low(drug);
        }
        return switch (drug) {
            case "aspirin" -> new HoldFor(Hold.days(3, 5), NEXT_DAY, "the next day", "");
            case "clopidogrel" -> new HoldFor(Hold.days(5, 5), 6, "6 hours after, 24 after a loading dose", "");
            case "ticagrelor" -> new HoldFor(Hold.days(5, 5), NEXT_DAY, "the next day", "");
            case "prasugrel" -> new HoldFor(Hold.days(7, 7), NEXT_DAY, "the next day", "");
            case "cilostazol" -> new Continue();
            case "warfarin" ->
                new HoldFor(
                        Hold.days(5, 5),
                        NEXT_DAY,
                        "the next day",
                        "INR at most 1.8 before the puncture. " + crossCheck(5));
            case "heparin" ->
                new HoldFor(
                        Hold.hours(4, 6),
                        6,
                        "6 to 8 hours after",
                        "An infusion is meant; other copies print 4 to 6" + " hours for the restart.");
            case "enoxaparin" ->
                new HoldFor(
                        Hold.hours(12, 24),
                        12,
                        "12 to 24 hours after",
                        "12 hours where it only prevents clots, 24 where it treats them.");
            case "fondaparinux" ->
                new HoldFor(
                        byClearance(
                                clearance,
                                limits.of(Limit.HOLDING_CLEARANCE_LESS_THAN),
                                Hold.days(2, 3),
                                Hold.days(3, 5)),
                        NEXT_DAY,
                        A_DAY_LATER,
                        "");
            case "apixaban" ->
                new HoldFor(
                        byClearance(
                                clearance,
                                limits.of(Limit.HOLDING_CLEARANCE_LESS_THAN),
                                Hold.doses(4, 2),
                                Hold.doses(6, 2)),
                        NEXT_DAY,
                        A_DAY_LATER,
                        crossCheck(2) + " That holds for a clearance over 25 mL/min; lower, 1 to 3 days more.");
            case "dabigatran" ->
                new HoldFor(
                        byClearance(
                                clearance,
                                limits.of(Limit.HOLDING_CLEARANCE_LESS_THAN),
                                Hold.doses(4, 2),
                                new Hold(6, 8, Hold.Unit.DOSES_TWICE_A_DAY)),
                        NEXT_DAY,
                        A_DAY_LATER,
                        crossCheck(2) + " From 30 to 50 mL/min 4 full days; lower, 1 to 3 days more.");
            case "edoxaban" ->
                new HoldFor(
                        Hold.doses(2, 1),
                        NEXT_DAY,
                        A_DAY_LATER,
                        crossCheck(2) + " That holds for a clearance over 15 mL/min; lower, 1 to 3 days more.");
            case "rivaroxaban" -> rivaroxaban(clearance, limits);
            default -> new None("the table has no row for it");
        };
    }

    private static Row low(String drug) {
        return switch (drug) {
            case "warfarin" ->
                new None("with a low bleeding class the table lets it go on up to an INR of 3, but an artery is not"
                        + " punctured above the INR of its access");
            case "aspirin",
                    "clopidogrel",
                    "ticagrelor",
                    "prasugrel",
                    "cilostazol",
                    "heparin",
                    "enoxaparin",
                    "fondaparinux",
                    "apixaban",
                    "rivaroxaban",
                    "edoxaban",
                    "dabigatran" -> new Continue();
            default -> new None("the table has no row for it");
        };
    }

    private static Row rivaroxaban(Optional<Span> clearance, Limits limits) {
        if (clearance
                .map(span -> span.least() < limits.of(Limit.HOLDING_CLEARANCE_VERY_LOW_LESS_THAN))
                .orElse(false)) {
            return new None("the table has no row for so low a clearance");
        }
        return new HoldFor(
                byClearance(
                        clearance,
                        limits.of(Limit.HOLDING_CLEARANCE_LOW_LESS_THAN),
                        Hold.doses(2, 1),
                        Hold.doses(3, 1)),
                NEXT_DAY,
                A_DAY_LATER,
                crossCheck(2) + " That holds for a clearance over 30 mL/min; lower, 1 to 3 days more.");
    }

    /** Both rows while the clearance is not known, or may lie on either side of the limit. */
    private static Hold byClearance(Optional<Span> clearance, double limit, Hold good, Hold low) {
        var mayBeLow = clearance.map(span -> span.least() < limit).orElse(true);
        var mayBeGood = clearance.map(span -> span.most() >= limit).orElse(true);
        return mayBeLow && mayBeGood ? good.or(low) : mayBeLow ? low : good;
    }

    /** Whether the creatinine clearance decides how long {@code drug} is held. */
    static boolean asksClearance(String drug) {
        return switch (drug) {
            case "fondaparinux", "apixaban", "dabigatran", "rivaroxaban" -> true;
            default -> false;
        };
    }

    private static String crossCheck(int fullDays) {
        return "A guideline on atrial fibrillation prints " + fullDays + " full days without it.";
    }
}
