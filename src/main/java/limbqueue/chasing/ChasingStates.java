package limbqueue.chasing;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.chasing.jdbc.ChasingDaysStore;
import limbqueue.chasing.jdbc.ChasingStore;
import org.springframework.stereotype.Component;

/** What is asked of others, for the application itself; people ask {@link Chasing}. */
@Component
public class ChasingStates {

    private final ChasingStore store;
    private final ChasingDaysStore days;

    ChasingStates(ChasingStore store, ChasingDaysStore days) {
        this.store = store;
        this.days = days;
    }

    /** What is asked of others for each of these referrals. */
    public Map<Long, ChasingState> of(Collection<Long> referralIds) {
        var requests = store.requests(referralIds).stream().collect(Collectors.groupingBy(RecordsRequest::referralId));
        var calls = store.calls(referralIds).stream().collect(Collectors.groupingBy(PhoneCall::referralId));
        return referralIds.stream()
                .distinct()
                .collect(Collectors.toMap(
                        Function.identity(),
                        id -> new ChasingState(
                                id, requests.getOrDefault(id, List.of()), calls.getOrDefault(id, List.of()))));
    }

    /** The days in force. */
    public ChasingDays days() {
        return days.newest().days();
    }
}
