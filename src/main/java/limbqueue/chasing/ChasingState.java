package limbqueue.chasing;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What is asked of others for one referral.
 *
 * @param requests oldest first
 * @param calls newest first
 */
public record ChasingState(long referralId, List<RecordsRequest> requests, List<PhoneCall> calls) {

    /** The request about which something is done first; empty when nothing is waited for. */
    public Optional<RecordsRequest> nextRequest() {
        return requests.stream()
                .filter(RecordsRequest::open)
                .min(Comparator.comparing(RecordsRequest::dueOn).thenComparing(RecordsRequest::id));
    }

    /**
     * The day on which to ask again for what the physician wanted to know: the one agreed on the telephone last, else so many
     * days after it was asked.
     */
    public LocalDate informationDue(LocalDate askedOn, ChasingDays days) {
        return calls.stream()
                .filter(call -> call.kind() == PhoneCall.Kind.INFORMATION
                        && !call.calledOn().isBefore(askedOn))
                .findFirst()
                .flatMap(PhoneCall::againOn)
                .orElse(askedOn.plusDays(days.reply(0)));
    }
}
