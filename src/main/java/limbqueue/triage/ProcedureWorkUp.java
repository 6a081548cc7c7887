package limbqueue.triage;

import java.time.LocalDateTime;
import java.util.List;

/**
 * The work-up for a procedure that has a time.
 *
 * @param procedureAt the booked time, on the clock of the place
 * @param drugs what is proposed for each drug that is not simply taken on
 */
public record ProcedureWorkUp(LocalDateTime procedureAt, List<TriageResult.WorkUpItem> items, List<DrugTiming> drugs) {}
