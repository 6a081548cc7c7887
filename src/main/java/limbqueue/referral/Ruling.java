package limbqueue.referral;

import java.time.LocalDate;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.referral.Decision.Approve;
import limbqueue.referral.Decision.AskForInformation;
import limbqueue.referral.Decision.Change;
import limbqueue.referral.Decision.ReturnToReferrer;
import limbqueue.referral.Decision.SendToHospital;
import limbqueue.triage.Policy;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Rutherford;

/** What a decision comes to, measured against the proposal it was made on: a thing to record, or a refusal in words. */
sealed interface Ruling {

    record Stands(
            DecisionKind kind,
            ReferralState leadsTo,
            Tier tier,
            Optional<LocalDate> targetDate,
            Map<Side, Rutherford> categories,
            String reason)
            implements Ruling {}

    record Refused(String why) implements Ruling {}

    /**
     * Measures {@code decision} against {@code proposal}.
     *
     * @param received the day from which target dates are counted
     */
    static Ruling on(Decision decision, TriageResult proposal, Policy policy, LocalDate received) {
        var urgency = proposal.urgency();
        return switch (decision) {
            case Approve() ->
                urgency.tier() == Tier.SAME_DAY
                        ? new Refused(
                                "The proposal is the same day, which is no place in the queue. Send the patient to"
                                        + " hospital, or change the tier and say why.")
                        : new Stands(
                                DecisionKind.APPROVED,
                                ReferralState.APPROVED,
                                urgency.tier(),
                                urgency.targetDate(),
                                Map.of(),
                                "");
            case Change change -> change(change, proposal, policy, received);
            case AskForInformation(var what) ->
                saysNothing(what)
                        ? new Refused("Say what the office must ask.")
                        : new Stands(
                                DecisionKind.INFORMATION_ASKED,
                                ReferralState.INFORMATION_NEEDED,
                                urgency.tier(),
                                urgency.targetDate(),
                                Map.of(),
                                what.strip());
            case ReturnToReferrer(var reason) ->
                saysNothing(reason)
                        ? new Refused("Say why the referral goes back: the referring doctor is told these words.")
                        : new Stands(
                                DecisionKind.RETURNED,
                                ReferralState.RETURNED,
                                urgency.tier(),
                                urgency.targetDate(),
                                Map.of(),
                                reason.strip());
            case SendToHospital(var told) ->
                saysNothing(told)
                        ? new Refused("Say whom you told, and how: nobody goes to hospital unannounced.")
                        : new Stands(
                                DecisionKind.SENT_TO_HOSPITAL,
                                ReferralState.SENT_TO_HOSPITAL,
                                Tier.SAME_DAY,
                                Optional.of(proposal.asOf()),
                                Map.of(),
                                told.strip());
        };
    }

    private static Ruling change(Change change, TriageResult proposal, Policy policy, LocalDate received) {
        if (change.tier() == Tier.SAME_DAY) {
            return new Refused("The same day is no place in the queue. To have the patient seen today, choose to send"
                    + " the patient to hospital.");
        }
        var differing = new EnumMap<Side, Rutherford>(Side.class);
        change.categories().forEach((side, category) -> {
            if (category != proposal.legs().of(side).rutherford().category()) {
                differing.put(side, category);
            }
        });
        if (change.tier() == proposal.urgency().tier() && differing.isEmpty()) {
            return new Refused(
                    "This is what is proposed, so nothing would change. Approve it, or choose another tier or category.");
        }
        if (saysNothing(change.reason())) {
            return new Refused("Say why you change the proposal: the reason is kept with the decision.");
        }
        if (Lowering.of(change.tier(), proposal).stands() && words(change.reason()) < SENTENCE) {
            return new Refused(
                    "This is less urgent than proposed, although a red flag or a threatened leg stands against it."
                            + " Give the reason in a sentence; to raise the urgency a word is enough.");
        }
        return new Stands(
                DecisionKind.CHANGED,
                ReferralState.APPROVED,
                change.tier(),
                policy.targetDate(change.tier(), received),
                Map.copyOf(differing),
                change.reason().strip());
    }

    /** Words from which on a reason is one (common practice, no source). */
    int SENTENCE = 3;

    Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}]+");

    private static long words(String reason) {
        return BETWEEN_WORDS
                .splitAsStream(reason)
                .filter(word -> !word.isEmpty())
                .count();
    }

    /** Blanks of any kind, and dots or dashes typed to get past a field, are no words. */
    private static boolean saysNothing(String words) {
        return words.codePoints().noneMatch(Character::isLetterOrDigit);
    }
}
