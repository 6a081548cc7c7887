package limbqueue.preparation;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import limbqueue.preparation.Standing.In;
import limbqueue.preparation.Standing.NotNeeded;
import limbqueue.preparation.Standing.Wanted;
import limbqueue.triage.TriageResult.WorkUpItem;

/**
 * One item of the work-up of one case: what is proposed, and how far it has come.
 *
 * @param proposed whether the proposal of today still names it
 * @param needed whether it must still be had: not held, or what is held counts no longer on the day of the procedure
 * @param validUntil the last day on which the result held may be used; empty when none is held
 * @param version 0 for an item that nobody has touched
 * @param author display name of who touched it last; empty for one that nobody has
 */
public record CaseItem(
        String code,
        String what,
        String why,
        String source,
        boolean proposed,
        boolean needed,
        Optional<LocalDate> validUntil,
        int version,
        Standing standing,
        String author,
        Optional<Instant> at) {

    /** The gate looks at the stent itself, not at this item. */
    private static final String COVERED_STENT = "covered-stent-stock";

    /** Good care that no room waits for. Common practice, no source. */
    private static final Set<String> KEEPS_NOBODY_WAITING = Set.of(
            "antiplatelet",
            "antiplatelet-continues",
            "statin",
            "smoking",
            "exercise-therapy",
            "fasting",
            "hba1c",
            COVERED_STENT);

    static CaseItem of(WorkUpItem item, Optional<TrackedItem> tracked, Optional<LocalDate> procedure) {
        var counts = item.validUntil().flatMap(until -> procedure.map(day -> !until.isBefore(day)));
        return new CaseItem(
                item.code(),
                name(item.text()),
                item.why(),
                item.source(),
                true,
                counts.map(enough -> !enough).orElse(item.needed()),
                item.validUntil(),
                tracked.map(TrackedItem::version).orElse(0),
                tracked.map(TrackedItem::standing).orElse(new Wanted()),
                tracked.map(TrackedItem::author).orElse(""),
                tracked.map(TrackedItem::at));
    }

    /** The first sentence; how long what is held counts is said beside it. */
    private static String name(String text) {
        var end = text.indexOf(". ");
        return end < 0 ? text : text.substring(0, end);
    }

    /** An item that somebody has touched and that is not proposed any more. */
    static CaseItem notProposed(TrackedItem tracked) {
        return new CaseItem(
                tracked.code(),
                tracked.what(),
                "",
                "",
                false,
                false,
                Optional.empty(),
                tracked.version(),
                tracked.standing(),
                tracked.author(),
                Optional.of(tracked.at()));
    }

    /** Whether nothing more has to be done about it. */
    public boolean settled() {
        return !needed
                || switch (standing) {
                    case NotNeeded _ -> true;
                    // What came was not typed in, and what is held is too old: its figures are not known.
                    case In _ -> validUntil.isEmpty();
                    case Wanted _, Standing.Asked _, Standing.Booked _ -> false;
                };
    }

    /** Whether the case is not ready while it is open. */
    public boolean red() {
        return !settled() && !KEEPS_NOBODY_WAITING.contains(code);
    }

    /** Whether it is the stent in the room, which is confirmed and not asked for. */
    public boolean aboutStents() {
        return code.equals(COVERED_STENT);
    }

    /** Whether the result came but its figures are not in the referral, where an older one stands. */
    public boolean cameButNotTypedIn() {
        return needed && standing instanceof In && validUntil.isPresent();
    }
}
