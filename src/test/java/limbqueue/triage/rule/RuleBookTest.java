package limbqueue.triage.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** A rule book is a value, named by what its files say. */
class RuleBookTest {

    private static Map<String, String> files() {
        return new HashMap<>(RuleBook.shipped().files());
    }

    @Test
    void theSameFilesMakeTheSameBook() {
        var again = RuleBook.of(files());
        assertThat(again).isEqualTo(RuleBook.shipped()).hasSameHashCodeAs(RuleBook.shipped());
        assertThat(again.id()).isEqualTo(RuleBook.shipped().id()).matches("[0-9a-f]{16}");
    }

    @Test
    void anotherWordInAFileMakesAnotherBook() {
        for (var name : files().keySet()) {
            var changed = files();
            changed.computeIfPresent(name, (same, text) -> text + "# one more remark\n");
            assertThat(RuleBook.of(changed).id())
                    .as(name)
                    .isNotEqualTo(RuleBook.shipped().id());
            assertThat(RuleBook.of(changed)).as(name).isNotEqualTo(RuleBook.shipped());
        }
    }

    @Test
    void endsOfLinesOfAnotherSystemMakeNoOtherBook() {
        var windows = files();
        windows.replaceAll((name, text) -> text.replace("\n", "\r\n"));
        assertThat(RuleBook.of(windows)).isEqualTo(RuleBook.shipped());
    }

    @Test
    void aMissingFileStopsTheReading() {
        for (var name : files().keySet()) {
            var less = files();
            less.remove(name);
            assertThatThrownBy(() -> RuleBook.of(less))
                    .hasMessageContaining(name)
                    .hasMessageContaining("add it");
        }
    }

    @Test
    void aFileThatNothingReadsStopsTheReading() {
        var more = files();
        more.put("notes.txt", "");
        assertThatThrownBy(() -> RuleBook.of(more))
                .hasMessageContaining("notes.txt")
                .hasMessageContaining("keep to");
    }
}
