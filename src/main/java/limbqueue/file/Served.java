package limbqueue.file;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A kept file on its way to somebody's browser.
 *
 * @param headers of the answer: by them no browser shows the content as a page, guesses at its type or runs anything
 * in it
 */
@SuppressWarnings("ArrayRecordComponent") // Handed on once, and never compared.
public record Served(Map<String, String> headers, byte[] content) {

    static Served of(KeptFile file, byte[] content) {
        var headers = new LinkedHashMap<String, String>();
        headers.put("Content-Type", file.type().mediaType());
        headers.put("Content-Disposition", disposition(file));
        headers.put("X-Content-Type-Options", "nosniff");
        headers.put("Content-Security-Policy", "sandbox; default-src 'none'; frame-ancestors 'none'");
        headers.put("Cross-Origin-Resource-Policy", "same-origin");
        headers.put("Cache-Control", "private, no-store");
        return new Served(headers, content);
    }

    /** To be saved, never shown; the name with the ending of the true type (RFC 6266, and RFC 8187 for its letters). */
    private static String disposition(KeptFile file) {
        var name = savedAs(file);
        var plain = name.replaceAll("[^A-Za-z0-9 ._-]", "_");
        return "attachment; filename=\"%s\"; filename*=UTF-8''%s".formatted(plain, encoded(name));
    }

    static String savedAs(KeptFile file) {
        var ending = "." + file.type().ending();
        var name = file.name();
        var dot = name.lastIndexOf('.');
        var said = dot < 0 ? "" : name.substring(dot).toLowerCase(java.util.Locale.ROOT);
        return said.equals(ending)
                        || file.type() == FileType.JPEG && said.equals(".jpeg")
                        || file.type() == FileType.TIFF && said.equals(".tiff")
                ? name
                : name + ending;
    }

    private static String encoded(String name) {
        var encoded = new StringBuilder();
        for (var b : name.getBytes(StandardCharsets.UTF_8)) {
            var c = (char) (b & 0xff);
            if (c >= 'a' && c <= 'z'
                    || c >= 'A' && c <= 'Z'
                    || c >= '0' && c <= '9'
                    || c == '.'
                    || c == '-'
                    || c == '_') {
                encoded.append(c);
            } else {
                encoded.append('%').append("%02X".formatted((int) c));
            }
        }
        return encoded.toString();
    }
}
