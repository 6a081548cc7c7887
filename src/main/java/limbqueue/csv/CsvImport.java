package limbqueue.csv;

import java.time.Instant;
import java.util.Optional;

/**
 * A file on its way in.
 *
 * @param rows rows of the file without its header
 * @param mapping what its columns are, once somebody has said it
 * @param seen rows looked at; the sum of the three that follow
 * @param entered rows that became referrals
 * @param known rows that had become referrals before
 * @param refused rows that cannot be read as a whole
 */
public record CsvImport(
        long id,
        String name,
        State state,
        int rows,
        Optional<Mapping> mapping,
        int seen,
        int entered,
        int known,
        int refused,
        String author,
        Instant at) {

    public enum State {
        LOADED,
        RUNNING,
        CANCELLED,
        DONE
    }
}
