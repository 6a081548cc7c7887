package limbqueue.referral.ui;

import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Rutherford;

/** Decisions in words. */
final class DecisionWords {

    private DecisionWords() {}

    static String of(DecisionKind kind) {
        return switch (kind) {
            case APPROVED -> "Approved";
            case CHANGED -> "Changed and approved";
            case INFORMATION_ASKED -> "Information asked for";
            case RETURNED -> "Returned to the referring doctor";
            case SENT_TO_HOSPITAL -> "Sent to hospital";
        };
    }

    /** What was decided, without who and when: {@code Approved: within 14 days, by 9 Dec 2026}. */
    static String of(DecisionRecord decision) {
        return switch (decision.kind()) {
            case APPROVED -> of(decision.kind()) + ": " + tier(decision.tier(), decision.targetDate());
            case CHANGED ->
                of(decision.kind()) + ": " + tier(decision.tier(), decision.targetDate())
                        + (decision.tier() == decision.proposedTier()
                                ? ""
                                : " instead of " + TierWords.inSentence(decision.proposedTier()))
                        + categories(decision.categories());
            case INFORMATION_ASKED, RETURNED, SENT_TO_HOSPITAL -> of(decision.kind());
        };
    }

    /** {@code within 14 days, by 9 Dec 2026}. */
    static String tier(Tier tier, Optional<LocalDate> targetDate) {
        var what = TierWords.what(tier, targetDate);
        return TierWords.inSentence(tier) + (what.isEmpty() ? "" : ", " + what);
    }

    /** What an approval approves: the tier with its date, and the category of each leg. */
    static String proposal(TriageResult proposal) {
        return tier(proposal.urgency().tier(), proposal.urgency().targetDate())
                + "; Rutherford "
                + GradeWords.AS_PATIENT_FACES.stream()
                        .map(side -> GradeWords.side(side) + " "
                                + TierWords.category(
                                        proposal.legs().of(side).rutherford().category()))
                        .collect(Collectors.joining(", "));
    }

    private static String categories(Map<Side, Rutherford> categories) {
        return GradeWords.AS_PATIENT_FACES.stream()
                .flatMap(side -> Optional.ofNullable(categories.get(side))
                        .map(category -> "; Rutherford " + GradeWords.side(side) + " " + TierWords.category(category))
                        .stream())
                .collect(Collectors.joining());
    }
}
