package limbqueue.live;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class ChangedTest {

    @Test
    void whatIsToldTwiceIsOneChange() {
        assertThat(Changed.of(List.of(7L, 9L, 7L))).isEqualTo(new Changed(Set.of(7L, 9L), false));
    }

    @Test
    void nothingStandsForEveryReferral() {
        var changed = Changed.of(List.of(0L, 7L));

        assertThat(changed).isEqualTo(new Changed(Set.of(7L), true));
        assertThat(changed.concerns(8)).isTrue();
    }

    @Test
    void aChangeConcernsItsReferralsOnly() {
        var changed = Changed.of(List.of(7L));

        assertThat(changed.concerns(7)).isTrue();
        assertThat(changed.concerns(8)).isFalse();
    }

    @Test
    void twoChangesTogetherAreBoth() {
        assertThat(Changed.of(List.of(7L)).and(Changed.of(List.of(9L)))).isEqualTo(Changed.of(List.of(7L, 9L)));
        assertThat(Changed.of(List.of(7L)).and(Changed.anything())).isEqualTo(new Changed(Set.of(7L), true));
    }
}
