package limbqueue.triage.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import limbqueue.triage.threshold.Limit;
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

    /** What the book of an earlier version lacks: a source, the threshold and the rules that came with it. */
    private static Map<String, String> earlier() {
        var files = files();
        files.computeIfPresent("sources.txt", (name, text) -> text.replaceAll("(?m)^lee-1999 .*\n", ""));
        files.computeIfPresent(
                "thresholds.txt",
                (name, text) -> text.replaceAll("(?m)^cardiac-risk-creatinine-more-than .*\n", "")
                        .replaceFirst("(?m)^(leaves-within +\\| )30 ", "$121 "));
        files.computeIfPresent(
                "rules.txt",
                (name, text) -> text.replaceFirst("rule     work-up-cardiac-risk\n(?:.+\n)+", "")
                        .replace("compares leaves-within\n", ""));
        return files;
    }

    @Test
    void aBookOfAnEarlierVersionIsReadWithWhatItHadNotYet() {
        assertThatThrownBy(() -> RuleBook.of(earlier())).isInstanceOf(IllegalArgumentException.class);
        var kept = RuleBook.kept(earlier());
        assertThat(kept.files()).isEqualTo(earlier());
        assertThat(kept.id()).isNotEqualTo(RuleBook.shipped().id());
        assertThat(kept.rules()).hasSameSizeAs(RuleBook.shipped().rules());
        assertThat(kept.sourceOf("work-up-cardiac-risk")).isEqualTo("lee-1999");
        var limits = kept.on(LocalDate.of(2026, 3, 2));
        assertThat(limits.of(Limit.CARDIAC_RISK_CREATININE_MORE_THAN))
                .isEqualTo(RuleBook.shipped().on(LocalDate.of(2026, 3, 2)).of(Limit.CARDIAC_RISK_CREATININE_MORE_THAN));
        assertThat(limits.of(Limit.LEAVES_WITHIN)).isEqualTo(21);
    }

    @Test
    void aBookWithAThresholdThatIsNoMoreCannotBeRead() {
        var files = files();
        files.computeIfPresent(
                "thresholds.txt",
                (name, text) -> text + "no-more | 1 | 1 | 2012-12-11 | - | common-practice | x | memory\n");
        assertThatThrownBy(() -> RuleBook.kept(files)).hasMessageContaining("no-more");
    }

    @Test
    void aKeptBookThatLacksNothingIsTheBook() {
        assertThat(RuleBook.kept(files())).isEqualTo(RuleBook.shipped());
        assertThat(RuleBook.kept(files()).rules()).isEqualTo(RuleBook.shipped().rules());
    }
}
