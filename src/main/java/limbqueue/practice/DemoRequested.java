package limbqueue.practice;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import tools.jackson.databind.json.JsonMapper;

/**
 * An empty database is to be filled with the demo of this folder. Published once, within one transaction and under the
 * name of the demo's coordinator; a listener that throws undoes the whole demo.
 *
 * @param folder holds {@code practice.json} and the demo referrals
 * @param coordinator sign-in name of the demo's coordinator
 * @param physician sign-in name of the demo's physician
 */
public record DemoRequested(Path folder, String coordinator, String physician) {

    /**
     * What the demo's folder tells in {@code file}; empty where there is no such file.
     *
     * @throws UncheckedIOException if it cannot be read
     * @throws tools.jackson.core.JacksonException if it does not say what {@code type} asks
     */
    public <T> Optional<T> read(String file, Class<T> type, JsonMapper json) {
        var path = folder.resolve(file);
        if (!Files.isRegularFile(path)) {
            return Optional.empty();
        }
        try {
            return Optional.of(json.readValue(Files.readString(path), type));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(file + " of the demo cannot be read", unreadable);
        }
    }
}
