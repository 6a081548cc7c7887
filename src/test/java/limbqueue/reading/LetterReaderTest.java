package limbqueue.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LetterReaderTest {

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    /** Sources stand in the file, above the phrases that they are for. */
    @TestFactory
    Stream<DynamicTest> aPhraseStatesThisAndNothingElse() {
        return Stream.of(
                        "phrases.txt",
                        "pulses.txt",
                        "perfusion.txt",
                        "claudication.txt",
                        "restpain.txt",
                        "wounds.txt",
                        "acute.txt",
                        "infection.txt")
                .flatMap(LetterReaderTest::lines)
                .filter(line -> line.contains("=>") && !line.startsWith("#"))
                .map(line -> {
                    var arrow = line.indexOf("=>");
                    var phrase = line.substring(0, arrow).strip();
                    var expected = new TreeMap<String, String>();
                    for (var field : line.substring(arrow + 2).split(";", 0)) {
                        if (!field.isBlank()) {
                            var equals = field.indexOf('=');
                            var path = field.substring(0, equals).strip();
                            var value = field.substring(equals + 1).strip();
                            for (var leg :
                                    path.startsWith("B.") ? List.of("L.", "R.") : List.of(path.substring(0, 2))) {
                                expected.put(
                                        (leg + path.substring(2))
                                                .replaceFirst("^L\\.", "legs.left.")
                                                .replaceFirst("^R\\.", "legs.right."),
                                        value);
                            }
                        }
                    }
                    return dynamicTest(phrase, () -> assertThat(read(phrase)).isEqualTo(expected));
                });
    }

    private static Stream<String> lines(String file) {
        try (var in = LetterReaderTest.class.getResourceAsStream(file)) {
            assertThat(in).isNotNull();
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** All that is found but the sex, which a pronoun tells. */
    private static Map<String, String> read(String text) {
        return LetterReader.read(text).found().stream()
                .filter(found -> !found.field().equals("patient.sex"))
                .collect(Collectors.toMap(
                        FoundField::field, found -> found.value().asString(), (one, _) -> one, TreeMap::new));
    }

    @Test
    void aDurationSinceADayIsCountedToTheDayOfTheLetter() {
        var letter = "12 March 2026\n\nDear colleague,\n\nUlcer of the left heel since 2 March.";
        assertThat(read(letter)).containsEntry("legs.left.wound.sinceDays", "10");
    }

    @Test
    void aDateThatIsTwoDatesInTwoCountriesIsNone() {
        assertThat(read("Mrs Ada Lorne, born 03/04/1950")).doesNotContainKey("patient.born");
        assertThat(read("Mrs Ada Lorne, born 17/04/1950")).containsEntry("patient.born", "1950-04-17");
        assertThat(read("Mrs Ada Lorne, born 04/17/1950")).containsEntry("patient.born", "1950-04-17");
        assertThat(read("Mrs Ada Lorne, born (DD/MM/YYYY) 03/04/1950")).containsEntry("patient.born", "1950-04-03");
    }

    @Test
    void theOnsetOfANewIschaemiaIsADayOrATimeOfTheLetter() {
        var letter =
                "2 March 2026\n\nRight leg suddenly cold, white and painful since 7 am today. Foot numb, moves well.";
        assertThat(read(letter))
                .containsEntry("legs.right.acute.present", "true")
                .containsEntry("legs.right.acute.onset", "2026-03-02T07:00")
                .containsEntry("legs.right.acute.sensory", "beyondToes")
                .containsEntry("legs.right.acute.motor", "none");
    }

    @Test
    void anUlcerOfUnsaidDepthIsAskedAbout() {
        var text = "Ulcer of the left heel.";
        var unclear = LetterReader.read(text).unclear();
        assertThat(unclear).singleElement().satisfies(asked -> {
            assertThat(asked.sentence()).isEqualTo("An ulcer is mentioned: ask how deep it is.");
            assertThat(text.substring(asked.start(), asked.end())).isEqualTo("Ulcer");
        });
    }

    @Test
    void twoDifferentValuesForOneFieldAreEnteredByNobody() {
        var read = LetterReader.read("She smokes ten a day. The nurse writes: ex-smoker.");
        assertThat(read.found().stream().map(FoundField::field)).doesNotContain("history.smoking");
        assertThat(read.unclear()).isNotEmpty();
    }

    @Test
    void theWordsThatAFieldRestsOnAreThoseOfTheLetter() {
        var text = "ABI right 0.61";
        var abi = LetterReader.read(text).found().getFirst();
        assertThat(text.substring(abi.start(), abi.end())).contains("0.61");
    }

    /** Time of the processor, whatever else the machine does. A letter is at most a few pages; what is sent in by mistake must not hold up the server. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "a",
                " ",
                "0",
                ".",
                "\n",
                ",",
                "L ",
                "ab ",
                "1 ",
                "no ",
                "left ",
                "Dr ",
                "(",
                "pain, ",
                "-",
                "ABI 0.5 ",
                "12 March 2026 ",
                "\ud83e",
                "A",
                "Mr Aa "
            })
    void aTextOfFiveMillionCharactersIsReadWithinTwoSeconds(String piece) {
        var text = piece.repeat(5_000_000 / piece.length());
        LetterReader.read("ABI right 0.61");
        var begin = THREADS.getCurrentThreadCpuTime();
        LetterReader.read(text);
        assertThat(Duration.ofNanos(THREADS.getCurrentThreadCpuTime() - begin)).isLessThan(Duration.ofSeconds(2));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "\n\n\n",
                "\u0000",
                "\ud83e",
                "\udd75",
                "\ufeff",
                "\u202e\u05d0",
                "<script>alert(1)</script>",
                "'",
                "- ",
                "R",
                "L.",
                "0,",
                "1/0",
                "31/02/2026",
                "ABI",
                "no"
            })
    void oddTextsAreReadAndNothingIsFound(String text) {
        assertThat(LetterReader.read(text).found()).isEmpty();
    }

    @Test
    void lettersReadSideBySideGiveWhatTheyGiveOneByOne() throws Exception {
        var letters = Corpus.letters("known").stream().map(Corpus.Letter::text).toList();
        var alone = letters.stream().map(LetterReader::read).toList();
        try (var threads = Executors.newFixedThreadPool(4)) {
            var tasks = IntStream.range(0, 3 * letters.size())
                    .mapToObj(i -> (Callable<ReadLetter>) () -> LetterReader.read(letters.get(i % letters.size())))
                    .toList();
            var results = threads.invokeAll(tasks);
            for (var i = 0; i < results.size(); i++) {
                assertThat(results.get(i).get()).isEqualTo(alone.get(i % letters.size()));
            }
        }
    }

    @Test
    void theListOfDrugsHasAtLeast250GenericNamesAndNoNameStandsForTwo() {
        var generics = WordFile.lines("drugs.txt").stream()
                .map(line -> line.split(";", 2)[0])
                .toList();
        assertThat(generics).hasSizeGreaterThanOrEqualTo(250).doesNotHaveDuplicates();
        var names = WordFile.lines("drugs.txt").stream()
                .flatMap(line -> Arrays.stream(line.split("[;,]")))
                .map(name -> WordFile.lower(name.strip()).replace('-', ' '))
                .toList();
        assertThat(names).doesNotHaveDuplicates();
    }
}
