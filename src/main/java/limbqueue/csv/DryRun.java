package limbqueue.csv;

import java.util.List;

/**
 * What would become of a file.
 *
 * @param fresh rows that would become referrals, those with something to mend among them
 * @param known rows that are in already
 * @param refused rows that cannot be read as a whole
 * @param problems everything that is wrong, in the order of the file
 */
public record DryRun(int fresh, int known, int refused, List<CellProblem> problems) {

    public DryRun {
        problems = List.copyOf(problems);
    }
}
