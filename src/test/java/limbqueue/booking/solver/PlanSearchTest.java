package limbqueue.booking.solver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import limbqueue.booking.GeneratedPractice;
import limbqueue.booking.Search;
import org.junit.jupiter.api.Test;

class PlanSearchTest {

    /** Each of the two is what that search finds by itself, and now one is better and now the other. */
    @Test
    void ofTwoSearchesThatGoOnAtOnceTheBetterIsTaken() {
        var waiting = GeneratedPractice.steady(1, 40);
        var differences = new HashSet<Integer>();
        for (var seed = 1; seed <= 6; seed++) {
            var search = Search.of(seed, 2_000);
            var one = PlanSearch.score(PlanSearch.best(waiting, search));
            var other = PlanSearch.score(PlanSearch.best(waiting, PlanSearch.other(search)));
            differences.add(Integer.signum(one.compareTo(other)));
            assertThat(PlanSearch.score(PlanSearch.bestOfTwo(waiting, search)))
                    .as("seed %d", seed)
                    .isEqualTo(one.compareTo(other) > 0 ? one : other);
        }
        assertThat(differences).contains(-1, 1);
    }
}
