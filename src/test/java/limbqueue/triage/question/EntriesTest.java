package limbqueue.triage.question;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class EntriesTest {

    private static final List<Integer> NUMBERS = List.of(3, 8, 5, 10);

    private static boolean even(int number) {
        return number % 2 == 0;
    }

    @Test
    void anyNeedsOneAndAllNeedsEveryOne() {
        assertThat(Entries.any(NUMBERS, EntriesTest::even)).isTrue();
        assertThat(Entries.any(List.of(1, 3), EntriesTest::even)).isFalse();
        assertThat(Entries.all(NUMBERS, EntriesTest::even)).isFalse();
        assertThat(Entries.all(List.of(2, 4), EntriesTest::even)).isTrue();
    }

    @Test
    void ofNoneThereIsNotAnyAndItHoldsOfAll() {
        assertThat(Entries.any(List.<Integer>of(), EntriesTest::even)).isFalse();
        assertThat(Entries.all(List.<Integer>of(), EntriesTest::even)).isTrue();
    }

    @Test
    void thoseAndTheirNumberAreFoundInTheirOrder() {
        assertThat(Entries.those(NUMBERS, EntriesTest::even)).containsExactly(8, 10);
        assertThat(Entries.count(NUMBERS, EntriesTest::even)).isEqualTo(2);
        assertThat(Entries.each(NUMBERS, number -> "n" + number)).containsExactly("n3", "n8", "n5", "n10");
    }

    @Test
    void nobodyCanChangeWhatWasFound() {
        assertThatThrownBy(() -> Entries.those(NUMBERS, EntriesTest::even).clear())
                .isInstanceOf(UnsupportedOperationException.class);
        assertThatThrownBy(() -> Entries.each(NUMBERS, number -> number).clear())
                .isInstanceOf(UnsupportedOperationException.class);
    }
}
