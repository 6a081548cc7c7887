package limbqueue.file;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;

/** Text from bytes, and text made fit to be kept and counted in. */
final class PlainText {

    private static final Charset WINDOWS = Charset.forName("windows-1252");
    private static final char MARK = '\uFEFF';

    private PlainText() {}

    /**
     * UTF-8, or UTF-16 where it begins with the byte order mark, else Windows-1252, in which every byte means
     * something.
     */
    static String decode(byte[] bytes) {
        if (hasUtf16Mark(bytes)) {
            return withoutMark(new String(bytes, StandardCharsets.UTF_16));
        }
        try {
            return withoutMark(StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes))
                    .toString());
        } catch (CharacterCodingException e) {
            return new String(bytes, WINDOWS);
        }
    }

    static boolean hasUtf16Mark(byte[] bytes) {
        return bytes.length >= 2
                && (bytes[0] == (byte) 0xFE && bytes[1] == (byte) 0xFF
                        || bytes[0] == (byte) 0xFF && bytes[1] == (byte) 0xFE);
    }

    private static String withoutMark(String text) {
        return !text.isEmpty() && text.charAt(0) == MARK ? text.substring(1) : text;
    }

    /**
     * {@code text} with line ends of one kind and blanks for control characters, which no store and no screen holds
     * faithfully. Half a character becomes the replacement character.
     */
    static String tidy(String text) {
        var tidy = new StringBuilder(text.length());
        for (var i = 0; i < text.length(); i++) {
            var c = text.charAt(i);
            if (c == '\r') {
                if (i + 1 < text.length() && text.charAt(i + 1) == '\n') {
                    i++;
                }
                tidy.append('\n');
            } else if (c == '\n' || c == '\t') {
                tidy.append(c);
            } else if (c == '\f' || c == '\u2028' || c == '\u2029' || c == '\u0085') {
                tidy.append('\n');
            } else if (Character.isISOControl(c)) {
                tidy.append(' ');
            } else if (Character.isHighSurrogate(c)
                    && i + 1 < text.length()
                    && Character.isLowSurrogate(text.charAt(i + 1))) {
                tidy.append(c).append(text.charAt(++i));
            } else if (Character.isSurrogate(c)) {
                tidy.append('\uFFFD');
            } else {
                tidy.append(c);
            }
        }
        return tidy.toString();
    }
}
