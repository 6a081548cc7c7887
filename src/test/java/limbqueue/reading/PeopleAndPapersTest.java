package limbqueue.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** What pieces of letters say of people, papers, earlier procedures, medicines and laboratory values. */
class PeopleAndPapersTest {

    @TestFactory
    Stream<DynamicTest> aPieceOfALetterSaysThis() throws IOException {
        return lines().stream().filter(line -> line.contains("=>")).map(line -> {
            var arrow = line.indexOf("=>");
            var piece = line.substring(0, arrow).strip();
            return dynamicTest(piece, () -> {
                var found = read(piece.replace(" / ", "\n"));
                for (var expected : Arrays.stream(line.substring(arrow + 2).split(";", 0))
                        .map(String::strip)
                        .toList()) {
                    var equals = expected.indexOf('=');
                    if (expected.startsWith("!")) {
                        assertThat(found).doesNotContainKey(expected.substring(1));
                    } else {
                        assertThat(found).containsEntry(expected.substring(0, equals), expected.substring(equals + 1));
                    }
                }
            });
        });
    }

    private static List<String> lines() throws IOException {
        var lines = new ArrayList<String>();
        for (var file : List.of("papers.txt", "people.txt", "spoken.txt")) {
            try (var in = PeopleAndPapersTest.class.getResourceAsStream(file)) {
                assertThat(in).isNotNull();
                new String(in.readAllBytes(), StandardCharsets.UTF_8)
                        .lines()
                        .filter(line -> !line.startsWith("#"))
                        .forEach(lines::add);
            }
        }
        return lines;
    }

    private static Map<String, String> read(String text) {
        return LetterReader.read(text).found().stream()
                .collect(Collectors.toMap(
                        FoundField::field, found -> found.value().asString(), (one, _) -> one));
    }
}
