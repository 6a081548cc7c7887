package limbqueue.worklist;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;

/**
 * Everything that is to be done, as it stood when it was asked for.
 *
 * @param today the day as of which it was worked out
 * @param lists every list, what is due first on top
 */
public record Work(LocalDate today, Map<WorkList, List<WorkLine>> lists) {

    public List<WorkLine> of(WorkList list) {
        return lists.getOrDefault(list, List.of());
    }

    public int count(WorkList list) {
        return of(list).size();
    }
}
