package limbqueue.bench;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** The least that any program over referrals does: reads each of a list with Jackson, prints it again, one a line. */
public final class Reprint {

    private Reprint() {}

    public static void main(String[] arguments) throws IOException {
        var json = new ObjectMapper();
        try (var in = new BufferedInputStream(Files.newInputStream(Path.of(arguments[0])));
                var out = new BufferedOutputStream(new FileOutputStream(FileDescriptor.out), 1 << 16);
                var referrals = json.readerFor(JsonNode.class).<JsonNode>readValues(in)) {
            while (referrals.hasNextValue()) {
                out.write(json.writeValueAsString(referrals.nextValue()).getBytes(StandardCharsets.UTF_8));
                out.write('\n');
            }
        }
    }
}
