package limbqueue.file;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.apache.tika.metadata.Metadata;
import org.apache.tika.mime.MimeTypes;

/** What a file is, by its content. Its name only serves to tell a program from a letter where both are plain text. */
final class ContentType {

    private static final MimeTypes TYPES = MimeTypes.getDefaultMimeTypes();
    private static final String NAME = "resourceName";

    /** What the name of a letter in plain text may say that it is. */
    private static final Set<String> TEXT_BY_NAME =
            Set.of("application/octet-stream", "text/plain", "text/x-web-markdown", "text/x-log", "text/x-matlab");

    private static final Map<String, FileType> TAKEN = Map.of(
            "application/pdf", FileType.PDF,
            "image/png", FileType.PNG,
            "image/jpeg", FileType.JPEG,
            "image/tiff", FileType.TIFF);

    private static final String SAVE_AS_PDF = "Save the letter as PDF and drop it again.";

    private ContentType() {}

    /** @throws UnfitFile if it is nothing that is taken as a letter */
    static FileType of(byte[] bytes, String name) throws UnfitFile {
        if (bytes.length == 0) {
            throw new UnfitFile("The file is empty: it has 0 bytes. Ask the sender for it again.");
        }
        var content = detect(bytes, "");
        var taken = TAKEN.get(content);
        if (taken != null) {
            return taken;
        }
        if (startsWith(bytes, 'P', 'K', 3, 4) || startsWith(bytes, 'P', 'K', 5, 6)) {
            WordText.check(bytes);
            return FileType.DOCX;
        }
        if (isText(bytes)) {
            return text(content, detect(new byte[0], name), name);
        }
        throw new UnfitFile(refusal(content, bytes));
    }

    private static FileType text(String content, String byName, String name) throws UnfitFile {
        if (isMarkup(content) || isProgram(content)) {
            throw new UnfitFile(refusal(content, new byte[0]));
        }
        var saysText = TEXT_BY_NAME.contains(byName)
                || byName.startsWith("image/")
                || TAKEN.containsKey(byName)
                || byName.equals(FileType.DOCX.mediaType());
        if (!saysText) {
            throw new UnfitFile(
                    ("The name ends in “%s”, which is no letter. If it is one, save it as plain text (.txt) or"
                                    + " PDF and drop it again.")
                            .formatted(endingOf(name)));
        }
        return FileType.TEXT;
    }

    private static String refusal(String content, byte[] bytes) {
        if (content.equals("text/html") || content.equals("application/xhtml+xml")) {
            return "This is a web page (HTML), which is not kept because it can run programs. " + SAVE_AS_PDF;
        }
        if (content.equals("image/svg+xml")) {
            return "This is an SVG drawing, which is not kept because it can run programs. Save it as PNG or"
                    + " PDF and drop"
                    + " it again.";
        }
        if (content.endsWith("xml")) {
            return "This is an XML file, not a letter. " + SAVE_AS_PDF;
        }
        if (content.equals("application/rtf") || content.equals("text/rtf")) {
            return "This is a rich text file (RTF), which cannot be read here. Open it, save it as Word"
                    + " document (.docx)"
                    + " or PDF, and drop it again.";
        }
        if (startsWith(bytes, 0xD0, 0xCF, 0x11, 0xE0)) {
            return contains(bytes, "EncryptedPackage")
                    ? "This document is protected with a password and cannot be opened here. Open it with the password,"
                            + " save it without one, and drop it again; or ask the sender for it unprotected."
                    : "This is an Office file of the old kind (such as .doc), which cannot be read here and may hold"
                            + " programs. Open it, save it as Word document (.docx) or PDF, and drop it again.";
        }
        if (content.startsWith("image/")) {
            return "Pictures of this kind (%s) cannot be read here. Save it as JPEG or PNG and drop it again."
                    .formatted(content.substring("image/".length()));
        }
        if (content.startsWith("audio/") || content.startsWith("video/")) {
            return "This is a recording (%s), not a letter. Type what it says.".formatted(content);
        }
        if (isProgram(content)) {
            return "This is a program, not a letter. It was not kept. Do not open it; ask the sender what it is.";
        }
        if (isArchive(content)) {
            return "This is an archive (%s), not a letter. Unpack it and drop the letter in it.".formatted(content);
        }
        return "This file is no text, PDF, Word document (.docx) or picture (PNG, JPEG, TIFF)%s. %s"
                .formatted(content.equals("application/octet-stream") ? "" : ", but " + content, SAVE_AS_PDF);
    }

    /**
     * Text that is more than words; any other kind that a text is taken for is chance, as its first words happen to be.
     */
    private static boolean isMarkup(String content) {
        return content.equals("text/html") || content.endsWith("xml") || content.endsWith("/rtf");
    }

    private static boolean isProgram(String content) {
        return content.contains("executable")
                || content.contains("msdownload")
                || content.contains("script")
                || content.startsWith("text/x-")
                || content.endsWith("-sh")
                || content.endsWith("elf");
    }

    private static boolean isArchive(String content) {
        return content.contains("zip")
                || content.contains("compressed")
                || content.contains("-tar")
                || content.contains("rar")
                || content.contains("-xz");
    }

    /**
     * The note to a file whose name says another type than it is; empty if name and content agree, or the name says
     * nothing.
     */
    static String disagreement(FileType type, String name) {
        var byName = detect(new byte[0], name);
        var said = byName.equals(FileType.DOCX.mediaType()) ? FileType.DOCX : TAKEN.get(byName);
        return said == null && !byName.equals("text/plain") || said == type || said == null && type == FileType.TEXT
                ? ""
                : "The name ends in “%s”, but the file is %s and is kept as that."
                        .formatted(endingOf(name), type.words());
    }

    private static String endingOf(String name) {
        var dot = name.lastIndexOf('.');
        return dot < 0 ? name : name.substring(dot).toLowerCase(Locale.ROOT);
    }

    private static String detect(byte[] bytes, String name) {
        var metadata = new Metadata();
        if (!name.isEmpty()) {
            metadata.set(NAME, name.replaceAll("[\\p{Cntrl}/\\\\:?#]", "_"));
        }
        try {
            return TYPES.detect(bytes.length == 0 ? null : new ByteArrayInputStream(bytes), metadata)
                    .getBaseType()
                    .toString();
        } catch (IOException e) {
            throw new UncheckedIOException("bytes in memory cannot be read", e);
        }
    }

    /** Whether these are the bytes of a text: none that only occur in data, except in UTF-16 with its mark. */
    private static boolean isText(byte[] bytes) {
        if (PlainText.hasUtf16Mark(bytes)) {
            return bytes.length % 2 == 0;
        }
        for (var b : bytes) {
            if (b >= 0 && b < 0x20 && b != '\t' && b != '\n' && b != '\r' && b != '\f' && b != 0x1A && b != 0x0B) {
                return false;
            }
        }
        return true;
    }

    private static boolean startsWith(byte[] bytes, int... start) {
        if (bytes.length < start.length) {
            return false;
        }
        for (var i = 0; i < start.length; i++) {
            if ((bytes[i] & 0xff) != start[i]) {
                return false;
            }
        }
        return true;
    }

    /** Whether {@code word} occurs as UTF-16, as names inside of old Office files are written. */
    private static boolean contains(byte[] bytes, String word) {
        for (var at = 0; at + 2 * word.length() <= bytes.length; at++) {
            var same = 0;
            while (same < word.length() && bytes[at + 2 * same] == word.charAt(same) && bytes[at + 2 * same + 1] == 0) {
                same++;
            }
            if (same == word.length()) {
                return true;
            }
        }
        return false;
    }
}
