package limbqueue.preparation.ui;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import limbqueue.preparation.NextThing;
import limbqueue.preparation.Standing;
import limbqueue.referral.ReferralState;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.DayWords;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;

/** Dates, states and standings in the words of these screens. */
final class Words {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);

    private Words() {}

    static String date(LocalDate date) {
        return DayWords.date(date);
    }

    /** Day and time of a procedure: {@code Mon 9 Mar, 08:30}. */
    static String dayAndTime(LocalDateTime starts) {
        return DAY.format(starts) + ", " + TIME.format(starts);
    }

    /** The same with the year: {@code Mon 9 Mar 2026, 08:30}. */
    static String procedure(LocalDateTime starts) {
        return DAY.format(starts) + " " + starts.getYear() + ", " + TIME.format(starts);
    }

    static String moment(Instant at) {
        return DayWords.moment(at);
    }

    /** How far off a day is: {@code today}, {@code tomorrow}, {@code in 5 days}, {@code 3 days late}. */
    static String until(LocalDate day, LocalDate today) {
        return DayWords.until(day, today);
    }

    /** The tier at the beginning of a line: {@code Within 14 days}. */
    static String tier(Tier tier, Policy policy) {
        var phrase = TierPhrase.of(tier, policy);
        return phrase.substring(0, 1).toUpperCase(Locale.ROOT) + phrase.substring(1);
    }

    static String of(ReferralState state) {
        return switch (state) {
            case DRAFT -> "being entered";
            case QUEUED -> "with the physician";
            case INFORMATION_NEEDED -> "information needed";
            case APPROVED -> "approved";
            case RETURNED -> "returned to referrer";
            case SENT_TO_HOSPITAL -> "sent to hospital";
        };
    }

    static String of(NextThing.Group group) {
        return switch (group) {
            case CHASE -> "Chase now";
            case ASK -> "To ask";
            case DATE_AND_STENT -> "Date and stent";
            case WAIT -> "Waiting";
            case BOOKED -> "Booked";
            case PHYSICIAN -> "With the physician";
            case READY -> "Ready";
            case IN_ROOM -> "In the room";
        };
    }

    static String of(Standing standing) {
        return switch (standing) {
            case Standing.Wanted _ -> "to ask";
            case Standing.Asked(var of, var on, var chaseOn) ->
                "asked of " + of + " on " + date(on) + ", chase on " + date(chaseOn);
            case Standing.Booked(var on, var where) -> "booked for " + date(on) + ", " + where;
            case Standing.In(var on) -> "in since " + date(on);
            case Standing.NotNeeded(var reason) -> "not needed: " + reason;
        };
    }

    /** The name of a kept state, as {@code ASKED}. */
    static String state(String name) {
        return switch (name) {
            case "WANTED" -> "to ask again";
            case "ASKED" -> "asked";
            case "BOOKED" -> "booked";
            case "IN" -> "in";
            case "NOT_NEEDED" -> "not needed";
            default -> name;
        };
    }
}
