package limbqueue.file;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import javax.imageio.ImageIO;

/** Pictures of letters, looked at only as far as to say that they are pictures of a size that can be read. */
final class Pictures {

    /** Dots of the largest picture that is handed on: two pages of A4 side by side at 600 dots an inch. */
    static final long MOST_DOTS = 100_000_000;

    private Pictures() {}

    /** @throws UnfitFile if it is damaged, or far larger than a page */
    static byte[] checked(byte[] picture, FileType type) throws UnfitFile {
        var readers = ImageIO.getImageReadersByFormatName(type.name());
        if (!readers.hasNext()) {
            throw new IllegalStateException("no reader for " + type);
        }
        var reader = readers.next();
        try (var in = ImageIO.createImageInputStream(new ByteArrayInputStream(picture))) {
            reader.setInput(in);
            var dots = (long) reader.getWidth(0) * reader.getHeight(0);
            if (dots > MOST_DOTS) {
                throw new UnfitFile(
                        ("The picture is too large: it has %d million dots, and at most %d million are read."
                                        + " Scan the page in grey at 300 dots per inch.")
                                .formatted(dots / 1_000_000, MOST_DOTS / 1_000_000));
            }
            return picture;
        } catch (IOException | RuntimeException e) {
            throw new UnfitFile(
                    "The picture is damaged and cannot be opened. Scan the page again, or ask the sender for it again.",
                    e);
        } finally {
            reader.dispose();
        }
    }
}
