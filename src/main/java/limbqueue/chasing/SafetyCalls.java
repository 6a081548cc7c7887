package limbqueue.chasing;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.referral.ProposedCase;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordScale;

/** When a patient who waits with a threatened leg is called next. Common practice, no source. */
public final class SafetyCalls {

    private SafetyCalls() {}

    /**
     * Whether a leg is threatened by what is acted on: rest pain or tissue loss (category 4 or above), acute ischaemia, or
     * chronic limb-threatening ischaemia shown.
     */
    public static boolean threatened(TriageResult proposal) {
        return Stream.of(Side.values())
                .map(side -> proposal.legs().of(side))
                .anyMatch(leg -> leg.chronicLimbThreatening() == Answer.YES
                        || leg.rutherford().category().scale() == RutherfordScale.ACUTE
                        || leg.rutherford().category().compareTo(Rutherford.CHRONIC_4) >= 0);
    }

    /** The day of the next call to this patient; empty where none is due at any time. */
    public static Optional<LocalDate> next(ProposedCase proposed, ChasingState state, ChasingDays days) {
        return switch (proposed.referral().state()) {
            case DRAFT, QUEUED, INFORMATION_NEEDED, APPROVED ->
                threatened(proposed.proposal())
                        ? due(days, proposed.tier(), proposed.referral().received(), state.calls())
                        : Optional.empty();
            case RETURNED, SENT_TO_HOSPITAL -> Optional.empty();
        };
    }

    /**
     * The day of the next call; empty where none is made for this tier.
     *
     * <p>It is counted from the last call in which the patient was reached, or from the day of receipt. Whoever was not reached
     * is called again the next day.
     *
     * @param tier the one decided, else the one proposed
     * @param calls every call about the referral, in any order
     */
    public static Optional<LocalDate> due(ChasingDays days, Tier tier, LocalDate received, List<PhoneCall> calls) {
        return days.callEvery(tier).map(every -> {
            var safety = calls.stream()
                    .filter(call -> call.kind() == Kind.SAFETY)
                    .sorted(Comparator.comparing(PhoneCall::calledOn).thenComparing(PhoneCall::id))
                    .toList();
            var regular = safety.stream()
                    .filter(call -> !call.outcome().equals(Optional.of(Outcome.NOT_REACHED)))
                    .reduce((one, later) -> later)
                    .map(PhoneCall::calledOn)
                    .orElse(received)
                    .plusDays(every);
            var last = safety.isEmpty() ? Optional.<PhoneCall>empty() : Optional.of(safety.getLast());
            return last.filter(call -> call.outcome().equals(Optional.of(Outcome.NOT_REACHED)))
                    .map(call -> call.calledOn().plusDays(1))
                    .orElse(regular);
        });
    }
}
