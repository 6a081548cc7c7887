package limbqueue.referral;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.jdbc.ReferralQuery.Event;
import limbqueue.referral.jdbc.ReferralQuery.Happening;
import limbqueue.triage.Policy;

/** Tells in words what happened to a referral. */
final class Timeline {

    private Timeline() {}

    /**
     * @param events newest first; when one person saved several times on end, only the last is told
     * @param policy for the words of the tiers
     */
    static List<TimelineEntry> of(List<Event> events, Policy policy) {
        var entries = new ArrayList<TimelineEntry>();
        for (var i = 0; i < events.size(); i++) {
            var event = events.get(i);
            if (i > 0 && savedAgain(event, events.get(i - 1))) {
                continue;
            }
            entries.add(new TimelineEntry(event.at(), event.who(), words(event, policy)));
        }
        return List.copyOf(entries);
    }

    private static boolean savedAgain(Event event, Event next) {
        return event.happening() == Happening.SAVED
                && next.happening() == Happening.SAVED
                && event.who().equals(next.who())
                && event.state().equals(next.state());
    }

    private static String words(Event event, Policy policy) {
        return switch (event.happening()) {
            case ENTERED -> "began the referral";
            case SAVED ->
                event.state().equals(Optional.of(ReferralState.QUEUED))
                        ? "corrected the referral in the queue"
                        : "saved the referral";
            case RESULTS -> "entered results";
            case REOPENED -> "put the referral back before the physician, since results changed it. " + event.reason();
            case OVERTAKEN -> "saved a version that somebody else had overtaken; both are kept";
            case SUBMITTED -> "put the referral before the physician";
            case DECIDED -> decided(event, policy);
            case TOOK_IN -> "made " + event.reason() + " part of this referral: the same person, entered twice";
            case TAKEN_IN -> "made this referral part of " + event.reason() + ": the same person, entered twice";
            case GAVE_BACK -> "took " + event.reason() + " out of this referral again";
            case ESCALATED -> "found that nobody had taken the same-day case for " + event.reason();
            case TAKEN -> "took the same-day case";
            case TAKEN_BACK -> "took the decision back: it is before the physicians again";
            case SECOND_LOOK ->
                "would lower the proposal: " + TierPhrase.of(event.tier().orElseThrow(), policy)
                        + ", once a second physician agrees. Reason: " + event.reason();
            case AGREED ->
                "agreed, as the second physician, to lower it: "
                        + TierPhrase.of(event.tier().orElseThrow(), policy);
            case NOT_AGREED ->
                "did not agree, as the second physician, to lower it to "
                        + TierPhrase.of(event.tier().orElseThrow(), policy) + ": " + event.reason();
            case GIVEN_BACK -> "took this referral out of " + event.reason() + " again";
            case LETTER_SENT -> "sent the letter " + event.reason();
            case LETTER_MARKED -> "marked the letter as sent: " + event.reason();
            case LETTER_HELD -> "held the letter " + event.reason();
            case LETTER_RELEASED -> "had the letter sent on its way: " + event.reason();
            case LETTER_FAILED -> "could not send the letter " + event.reason();
            case LETTER_CORRECTED -> "corrected the letter " + event.reason() + " by hand";
            case LETTER_BOUNCED -> "took in that the letter came back: " + event.reason();
        };
    }

    private static String decided(Event event, Policy policy) {
        var tier = TierPhrase.of(event.tier().orElseThrow(), policy);
        return switch (event.decision().orElseThrow()) {
            case APPROVED -> "approved the proposal: " + tier;
            case CHANGED -> "changed the proposal: " + tier + ". Reason: " + event.reason();
            case INFORMATION_ASKED -> "asked for information: " + event.reason();
            case RETURNED -> "returned the referral to the referring doctor: " + event.reason();
            case SENT_TO_HOSPITAL -> "sent the patient to hospital. Told: " + event.reason();
        };
    }
}
