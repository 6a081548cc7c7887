package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.ThresholdFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The data files of numbers and sources are read strictly. */
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
        assertThat(RuleBook.shipped().thresholds().thresholds().stream().map(ThresholdFile.Threshold::limit))
                .containsOnly(Limit.values());
    }

    /**
     * ACC/AHA 2005, figure on asymptomatic disease: over 1.30 is abnormal. ACCF/AHA focused update, published 29 September
     * 2011: over 1.40 cannot be compressed, 1.00 to 1.40 is normal.
     */
    @Test
    void anIndexOf135BecameNormalWithTheGuidelineOf2011() {
        var document = Facts.of("L.abi=1.35").document();
        assertThat(band(document, LocalDate.of(2011, 9, 28))).isEqualTo(AbiBand.NONCOMPRESSIBLE);
        assertThat(band(document, LocalDate.of(2011, 9, 29))).isEqualTo(AbiBand.NORMAL);
    }

    private static AbiBand band(ReferralDocument document, LocalDate asOf) {
        return Triage.triage(document, Policy.standard(), asOf)
                .legs()
                .left()
                .abi()
                .orElseThrow()
                .band();
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
}
