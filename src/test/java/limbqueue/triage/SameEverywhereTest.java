package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import limbqueue.document.DocumentFormat;
import limbqueue.document.ResultFormat;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class SameEverywhereTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private final Locale before = Locale.getDefault();

    @AfterEach
    void putBack() {
        Locale.setDefault(before);
    }

    @Test
    void aResultDoesNotDependOnTheLanguageOfTheMachine() throws IOException {
        Locale.setDefault(Locale.ROOT);
        var here = results();
        assertThat(here).hasSizeGreaterThan(20);
        for (var language : List.of("tr-TR", "de-DE", "ar-EG-u-nu-arab")) {
            Locale.setDefault(Locale.forLanguageTag(language));
            assertThat(results()).as(language).isEqualTo(here);
        }
    }

    private static List<String> results() throws IOException {
        try (var files = Files.list(Path.of("demo-referrals"))) {
            return files.filter(file -> file.toString().endsWith(".referral.json"))
                    .sorted()
                    .map(SameEverywhereTest::result)
                    .toList();
        }
    }

    private static String result(Path file) {
        try {
            var reading = DocumentFormat.parse(Files.readString(file), TODAY);
            return ResultFormat.write(Triage.triage(reading.document(), Policy.standard(), TODAY));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
