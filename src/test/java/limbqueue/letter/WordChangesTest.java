package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import limbqueue.letter.WordChanges.Kind;
import limbqueue.letter.WordChanges.Run;
import org.junit.jupiter.api.Test;

class WordChangesTest {

    @Test
    void aWordThatWasReplacedIsGoneAndNewAndAllElseIsTheSame() {
        assertThat(WordChanges.between("Come on Monday at nine.", "Come on Tuesday at nine."))
                .containsExactly(
                        new Run(Kind.SAME, "Come on "),
                        new Run(Kind.GONE, "Monday"),
                        new Run(Kind.NEW, "Tuesday"),
                        new Run(Kind.SAME, " at nine."));
        assertThat(WordChanges.between("", "New")).containsExactly(new Run(Kind.NEW, "New"));
        assertThat(WordChanges.between("Old", "")).containsExactly(new Run(Kind.GONE, "Old"));
        assertThat(WordChanges.between("Same\n\nwords", "Same\n\nwords"))
                .containsExactly(new Run(Kind.SAME, "Same\n\nwords"));
    }

    @Test
    void bothTextsCanBePutTogetherFromTheChanges() {
        var random = new Random(20260305);
        for (var i = 0; i < 2000; i++) {
            var before = text(random);
            var after = text(random);
            var runs = WordChanges.between(before, after);
            assertThat(joined(runs, Kind.NEW)).as("%s | %s", before, after).isEqualTo(before);
            assertThat(joined(runs, Kind.GONE)).as("%s | %s", before, after).isEqualTo(after);
        }
    }

    private static String joined(java.util.List<Run> runs, Kind without) {
        return runs.stream()
                .filter(run -> run.kind() != without)
                .map(Run::words)
                .collect(Collectors.joining());
    }

    private static String text(Random random) {
        return IntStream.range(0, random.nextInt(12))
                .mapToObj(_ -> new String[] {"one", "two", "three", " ", "\n", "\n\n", "- ", "é"}[random.nextInt(8)])
                .collect(Collectors.joining());
    }
}
