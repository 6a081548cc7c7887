package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.triage.flag.FlagRule;
import limbqueue.triage.flag.RedFlags;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Source;
import limbqueue.triage.threshold.ThresholdFile;
import limbqueue.triage.urgency.LegUrgency;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The data files of numbers and sources are read strictly, and nothing in them goes unused. */
class ThresholdFileTest {

    private static final Path FOLDER = Path.of("src/main/resources/limbqueue/triage");

    private static List<String> lines(String name) throws IOException {
        return new ArrayList<>(Files.readAllLines(FOLDER.resolve(name)));
    }

    private static void read(List<String> sources, List<String> thresholds) {
        ThresholdFile.parse("sources.txt", sources, "thresholds.txt", thresholds);
    }

    @Test
    void theShippedFilesAreRead() throws IOException {
        read(lines("sources.txt"), lines("thresholds.txt"));
        assertThat(RuleBook.shipped().thresholds().thresholds()).hasSameSizeAs(Limit.values());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "a stray line;a stray line;give it 8 cells",
                "abi-abnormal-at-most | 0.9 | 1 | 2012-12-11 | - | acc-aha-2024 | rec. | confirmed | more;stray;8 cells",
                "abi-abnormal-at-most | | 1 | 2012-12-11 | - | acc-aha-2024 | rec. | confirmed;stray;none empty",
                "no-such-limit | 1 | 1 | 2012-12-11 | - | acc-aha-2024 | rec. | confirmed;no rule knows;correct its id",
                "deferred-at-least | 14 | furlong | 2012-12-11 | - | common-practice | x | memory;unknown unit furlong;use one of",
                "deferred-at-least | 14 | d | 2012-12-11 | - | hearsay | x | memory;unknown source hearsay;add it to the list",
                "deferred-at-least | many | d | 2012-12-11 | - | common-practice | x | memory;not a number: many;write it as",
                "deferred-at-least | NaN | d | 2012-12-11 | - | common-practice | x | memory;not a number: NaN;write it as",
                "deferred-at-least | 14 | d | today | - | common-practice | x | memory;not a date: today;write it as",
                "deferred-at-least | 14 | d | 2012-12-11 | soon | common-practice | x | memory;not a date: soon;write it as",
                "deferred-at-least | 14 | d | 2012-12-11 | - | common-practice | x | believed;unknown mark believed;use confirmed"
            })
    void aLineThatIsWrongStopsTheReadingWithFileLineAndRemedy(String line, String wrong, String remedy)
            throws IOException {
        var thresholds = lines("thresholds.txt");
        thresholds.add(line);
        assertThatThrownBy(() -> read(lines("sources.txt"), thresholds))
                .hasMessageContaining("thresholds.txt, line " + thresholds.size())
                .hasMessageContaining(wrong)
                .hasMessageContaining(remedy);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "2024-01-31;2024-02-02;gap or an overlap",
                "2024-01-31;2024-01-31;gap or an overlap",
                "2018-01-31;2018-02-01;ends before it begins",
                "-;2024-02-01;must have one value still in force",
            })
    void aGapOrAnOverlapInTimeStopsTheReading(String until, String from, String wrong) throws IOException {
        var thresholds = lines("thresholds.txt");
        thresholds.replaceAll(line -> line.startsWith("deferred-at-least")
                ? "deferred-at-least | 14 | d | 2019-06-01 | " + until + " | common-practice | x | memory"
                : line);
        thresholds.add("deferred-at-least | 15 | d | " + from + " | - | common-practice | x | memory");
        assertThatThrownBy(() -> read(lines("sources.txt"), thresholds))
                .hasMessageContaining("thresholds.txt, line ")
                .hasMessageContaining("deferred-at-least")
                .hasMessageContaining(wrong);
    }

    @Test
    void aValueThatNeverEndsMustBeTheLast() throws IOException {
        var thresholds = lines("thresholds.txt");
        thresholds.replaceAll(
                line -> line.startsWith("deferred-at-least") ? line.replace("| - |", "| 2024-01-31 |") : line);
        assertThatThrownBy(() -> read(lines("sources.txt"), thresholds))
                .hasMessageContaining("deferred-at-least must have one value still in force");
    }

    @Test
    void aValueMustKeepItsUnit() throws IOException {
        var thresholds = lines("thresholds.txt");
        thresholds.replaceAll(
                line -> line.startsWith("deferred-at-least") ? line.replace("| - |", "| 2024-01-31 |") : line);
        thresholds.add("deferred-at-least | 2 | wk | 2024-02-01 | - | common-practice | x | memory");
        assertThatThrownBy(() -> read(lines("sources.txt"), thresholds)).hasMessageContaining("changes its unit");
    }

    @Test
    void aMissingLimitStopsTheReading() throws IOException {
        var thresholds = lines("thresholds.txt");
        thresholds.removeIf(line -> line.startsWith("leaves-within"));
        assertThatThrownBy(() -> read(lines("sources.txt"), thresholds))
                .hasMessageContaining("thresholds.txt")
                .hasMessageContaining("leaves-within is missing")
                .hasMessageContaining("add a line");
    }

    @Test
    void aSourceThatStandsTwiceStopsTheReading() throws IOException {
        var sources = lines("sources.txt");
        sources.add("gvg-2019 | again");
        assertThatThrownBy(() -> read(sources, lines("thresholds.txt")))
                .hasMessageContaining("sources.txt, line " + sources.size())
                .hasMessageContaining("gvg-2019 stands twice")
                .hasMessageContaining("remove one");
    }

    @Test
    void theValueInForceIsTheOneOfTheDay() throws IOException {
        var thresholds = lines("thresholds.txt");
        thresholds.replaceAll(
                line -> line.startsWith("deferred-at-least") ? line.replace("| - |", "| 2024-01-31 |") : line);
        thresholds.add("deferred-at-least | 21 | d | 2024-02-01 | - | common-practice | x | memory");
        var file = ThresholdFile.parse("sources.txt", lines("sources.txt"), "thresholds.txt", thresholds);
        assertThat(file.on(LocalDate.of(2024, 1, 31)).whole(Limit.DEFERRED_AT_LEAST))
                .isEqualTo(14);
        assertThat(file.on(LocalDate.of(2024, 2, 1)).whole(Limit.DEFERRED_AT_LEAST))
                .isEqualTo(21);
        assertThat(file.on(LocalDate.of(2026, 2, 1)).of(Limit.LEAVES_WITHIN)).isEqualTo(30);
        assertThat(file.on(LocalDate.of(1900, 1, 1)).whole(Limit.DEFERRED_AT_LEAST))
                .isEqualTo(14);
    }

    @Test
    void everyRuleNamesASourceThatIsListed() {
        var named = new TreeSet<String>();
        RedFlags.rules().stream().map(FlagRule::source).forEach(named::add);
        Arrays.stream(LegUrgency.Rule.values()).map(LegUrgency.Rule::source).forEach(named::add);
        assertThat(RuleBook.shipped().thresholds().sources().keySet()).containsAll(named);
    }

    /** A source stands in the list because a rule, a number or a computation names it. */
    @Test
    void everySourceThatIsListedIsUsed() throws IOException {
        var used = RuleBook.shipped().thresholds().thresholds().stream()
                .map(ThresholdFile.Threshold::source)
                .collect(Collectors.toCollection(TreeSet::new));
        try (Stream<Path> files = Files.walk(Path.of("src/main/java/limbqueue/triage"))) {
            for (var file : files.filter(path -> path.toString().endsWith(".java"))
                    .filter(path -> !path.endsWith("Source.java"))
                    .toList()) {
                var text = Files.readString(file);
                for (var source : RuleBook.shipped().thresholds().sources().keySet()) {
                    if (text.contains(source)
                            || text.contains("Source."
                                    + source.toUpperCase(java.util.Locale.ROOT).replace('-', '_'))) {
                        used.add(source);
                    }
                }
            }
        }
        assertThat(used)
                .containsExactlyInAnyOrderElementsOf(
                        RuleBook.shipped().thresholds().sources().keySet());
    }

    @Test
    void theSourcesOfTheCodeAreThoseOfTheFile() throws IOException {
        var named = Pattern.compile("\"([a-z0-9-]+)\"")
                .matcher(Files.readString(Path.of("src/main/java/limbqueue/triage/threshold/Source.java")))
                .results()
                .map(match -> match.group(1))
                .toList();
        assertThat(named)
                .containsExactlyInAnyOrderElementsOf(
                        RuleBook.shipped().thresholds().sources().keySet());
        assertThat(Source.COMMON_PRACTICE).isIn(named);
    }
}
