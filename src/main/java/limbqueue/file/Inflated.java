package limbqueue.file;

import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.Serial;
import java.nio.charset.StandardCharsets;
import java.util.zip.InflaterInputStream;

/**
 * Whether the compressed parts of a PDF stay of a size that a letter has. The library that reads PDF unpacks into
 * memory
 * without a limit, so this is looked at before it does.
 */
final class Inflated {

    /**
     * What one part may come to, in bytes: an uncompressed page of A4 in colour at 600 dots an inch is half as much.
     */
    static final long LARGEST = 200L << 20;

    /** What all of them may come to, in bytes. */
    private static final long LARGEST_TOGETHER = 2L << 30;

    private static final int DEEPEST = 4;
    private static final byte[] STREAM = "stream".getBytes(StandardCharsets.US_ASCII);

    /** A part is larger than any letter needs. */
    static final class Swells extends IOException {
        @Serial
        private static final long serialVersionUID = 1L;
    }

    private Inflated() {}

    static void check(byte[] pdf) throws Swells {
        var together = 0L;
        for (var at = 0; at + STREAM.length < pdf.length; at++) {
            if (isStream(pdf, at)) {
                together += check(pdf, at + STREAM.length);
                if (together > LARGEST_TOGETHER) {
                    throw new Swells();
                }
            }
        }
    }

    private static boolean isStream(byte[] pdf, int at) {
        for (var i = 0; i < STREAM.length; i++) {
            if (pdf[at + i] != STREAM[i]) {
                return false;
            }
        }
        return at == 0 || pdf[at - 1] != 'd';
    }

    /** What the compressed data from {@code start} on come to, in bytes; 0 if there are none. */
    static long check(byte[] bytes, int start) throws Swells {
        while (start < bytes.length && (bytes[start] == '\r' || bytes[start] == '\n')) {
            start++;
        }
        return inflated(new ByteArrayInputStream(bytes, start, bytes.length - start), 0);
    }

    /** Data that were compressed several times over are unpacked as often. */
    private static long inflated(InputStream data, int depth) throws Swells {
        var buffered = new BufferedInputStream(data);
        var counted = 0L;
        try {
            buffered.mark(2);
            var first = buffered.read();
            var second = buffered.read();
            if (depth == DEEPEST || second < 0 || (first & 0x0f) != 8 || (first << 8 | second) % 31 != 0) {
                return drained(buffered, depth);
            }
            buffered.reset();
            counted = inflated(new InflaterInputStream(buffered), depth + 1);
        } catch (Swells e) {
            throw e;
        } catch (IOException e) {
            // Damaged, or not compressed in this way after all: then nothing unpacks it either.
            return counted;
        }
        return counted;
    }

    private static long drained(InputStream data, int depth) throws IOException {
        if (depth == 0) {
            return 0;
        }
        var buffer = new byte[64 * 1024];
        var counted = 0L;
        for (var read = data.read(buffer); read >= 0; read = data.read(buffer)) {
            counted += read;
            if (counted > LARGEST) {
                throw new Swells();
            }
        }
        return counted;
    }
}
