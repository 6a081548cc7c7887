package limbqueue.directory;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;

/** The medicines of {@code medicines.txt}, where their source is said. */
public final class GenericMedicines {

    private static final String FILE = "/limbqueue/directory/medicines.txt";
    private static final List<GenericMedicine> ALL = read();

    private GenericMedicines() {}

    /** In the order of the alphabet. */
    public static List<GenericMedicine> all() {
        return ALL;
    }

    private static List<GenericMedicine> read() {
        try (var file = Objects.requireNonNull(GenericMedicines.class.getResourceAsStream(FILE), FILE)) {
            return parse(new String(file.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(FILE, unreadable);
        }
    }

    /** @throws IllegalArgumentException naming the line that is not {@code generic;brand,brand}, or says a name again */
    static List<GenericMedicine> parse(String text) {
        var medicines = new ArrayList<GenericMedicine>();
        var names = new HashSet<String>();
        var number = 0;
        for (var line : text.lines().toList()) {
            number++;
            if (line.isBlank() || line.startsWith("#")) {
                continue;
            }
            var parts = line.split(";", -1);
            if (parts.length != 2 || parts[0].isBlank() || !parts[0].equals(parts[0].strip())) {
                throw new IllegalArgumentException(
                        "medicines.txt, line " + number + ": write generic;brand,brand, not: " + line);
            }
            var medicine =
                    new GenericMedicine(parts[0], parts[1].isEmpty() ? List.of() : List.of(parts[1].split(",", -1)));
            for (var name : Stream.concat(Stream.of(medicine.name()), medicine.brands().stream())
                    .toList()) {
                if (name.isBlank() || !names.add(name.toLowerCase(Locale.ROOT))) {
                    throw new IllegalArgumentException(
                            "medicines.txt, line " + number + ": a name is empty or stands twice: " + line);
                }
            }
            medicines.add(medicine);
        }
        return List.copyOf(medicines);
    }
}
