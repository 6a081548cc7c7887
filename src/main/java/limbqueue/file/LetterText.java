package limbqueue.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The text of a letter that came as a file: plain text, PDF, Word document (.docx), or a picture, for which the program
 * {@code tesseract} must be on the path. The same file gives the same text, and whatever the file, this fails only
 * with a
 * sentence.
 */
public final class LetterText {

    /** Larger files are not opened, in bytes: 25 MB. */
    public static final int LARGEST_FILE = 25 * 1024 * 1024;

    /** As many characters as the public format holds of a letter; what a file has beyond that is left out, and said. */
    public static final int LONGEST_TEXT = 200_000;

    private LetterText() {}

    /** The text of the file at {@code file}. */
    public static Extracted of(Path file) {
        var name = String.valueOf(file.getFileName());
        try {
            if (!Files.isRegularFile(file)) {
                return unfit(Files.isDirectory(file) ? "This is a folder, not a file." : "There is no such file.");
            }
            var size = Files.size(file);
            if (size > LARGEST_FILE) {
                return unfit(tooLarge(size, LARGEST_FILE));
            }
            try (var in = Files.newInputStream(file)) {
                var bytes = in.readNBytes(LARGEST_FILE + 1);
                return of(bytes, name);
            }
        } catch (IOException e) {
            return unfit("The file cannot be opened. Check that it may be read, and try again.");
        }
    }

    /**
     * The text of a file with this content.
     *
     * @param name its name, from which nothing is concluded but what cannot be seen in the content; may be empty
     */
    public static Extracted of(byte[] bytes, String name) {
        return of(bytes, name, Tesseract.onThePath(), LARGEST_FILE);
    }

    /** @param largest the most bytes that are taken */
    static Extracted of(byte[] bytes, String name, Tesseract tesseract, int largest) {
        if (bytes.length > largest) {
            return unfit(tooLarge(bytes.length, largest));
        }
        try {
            var type = ContentType.of(bytes, name);
            var notes = new ArrayList<String>();
            var disagreement = ContentType.disagreement(type, name);
            if (!disagreement.isEmpty()) {
                notes.add(disagreement);
            }
            var text = switch (type) {
                case TEXT -> PlainText.decode(bytes);
                case DOCX -> WordText.of(bytes);
                case PDF -> PdfText.of(bytes, tesseract, notes);
                case PNG, JPEG, TIFF -> tesseract.read(Pictures.checked(bytes, type), type);
            };
            return read(PlainText.tidy(text), type, notes);
        } catch (UnreadFile unread) {
            return new Extracted.NotRead(unread.sentence(), Optional.of(unread.type()));
        } catch (UnfitFile unfit) {
            return unfit(unfit.sentence());
        }
    }

    private static Extracted read(String text, FileType type, List<String> notes) {
        if (text.isBlank()) {
            return type == FileType.TEXT || type == FileType.DOCX
                    ? unfit("There are no words in the file. Ask the sender for the letter again, or type what"
                            + " it says.")
                    : new Extracted.NotRead(
                            "No words could be read in it: it is blank, or too faint. Type what it says.",
                            Optional.of(type));
        }
        if (text.length() > LONGEST_TEXT) {
            var end = Character.isHighSurrogate(text.charAt(LONGEST_TEXT - 1)) ? LONGEST_TEXT - 1 : LONGEST_TEXT;
            notes.add("The letter is very long: only its first %s characters are read. Look at the rest in the file."
                    .formatted(String.format(Locale.ROOT, "%,d", LONGEST_TEXT)));
            return new Extracted.Read(text.substring(0, end), type, notes);
        }
        return new Extracted.Read(text, type, notes);
    }

    private static Extracted unfit(String sentence) {
        return new Extracted.NotRead(sentence, Optional.empty());
    }

    /** What is said of a file of {@code size} bytes where at most {@code largest} are taken. */
    static String tooLarge(long size, long largest) {
        return ("The file is too large: it has %s, and at most %s are taken. Drop only the letter, or save it"
                        + " smaller: as PDF, or scanned in grey at 300 dots per inch.")
                .formatted(inWords(size), inWords(largest));
    }

    /** As {@code 2.0 GB}, {@code 25 MB} or {@code 900 bytes}. */
    static String inWords(long bytes) {
        if (bytes >= 1L << 30) {
            return String.format(Locale.ROOT, "%.1f GB", bytes / (double) (1L << 30));
        }
        if (bytes >= 1L << 20) {
            return String.format(
                    Locale.ROOT, bytes % (1L << 20) == 0 ? "%.0f MB" : "%.1f MB", bytes / (double) (1L << 20));
        }
        return bytes >= 1024 ? (bytes + 1023) / 1024 + " kB" : bytes + " bytes";
    }
}
