package limbqueue.governance;

import java.util.List;

/**
 * The figures of one period.
 *
 * @param mostOverruled at most ten rules, those surest to be overruled first
 */
public record GovernanceReport(
        Period period,
        Agreement agreement,
        List<Overruling> mostOverruled,
        Outcomes outcomes,
        Waiting waiting,
        Equity equity) {}
