package limbqueue.picture;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import limbqueue.document.Draft;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;

/** Documents of the public format, and their pictures. */
final class Pictured {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private Pictured() {}

    static LegPicture picture(String json) {
        var reading = Draft.of(json).read(TODAY);
        return LegPicture.of(reading.document(), Triage.triage(reading.document(), Policy.standard(), TODAY));
    }

    /** The demo referrals, as text. */
    static List<String> demo() {
        try (var files = Files.list(Path.of("demo-referrals"))) {
            return files.filter(file -> file.toString().endsWith(".referral.json"))
                    .sorted()
                    .map(Pictured::read)
                    .toList();
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
