package limbqueue.file;

/**
 * A file that somebody brought and that was found sound; there is no other way to get one than {@link ReferralFiles}.
 */
public final class DroppedFile {

    private static final int LONGEST_NAME = 255;

    private final String name;
    private final FileType type;
    private final byte[] content;

    DroppedFile(String name, FileType type, byte[] content) {
        this.name = cleaned(name, type);
        this.type = type;
        this.content = content;
    }

    /**
     * The name without folders, and without characters that are not seen and make a name look like another. What is
     * left
     * may be in any script.
     */
    private static String cleaned(String name, FileType type) {
        var last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
        var seen = last.codePoints()
                .filter(c -> !Character.isISOControl(c)
                        && Character.getType(c) != Character.FORMAT
                        && Character.getType(c) != Character.SURROGATE
                        && Character.getType(c) != Character.LINE_SEPARATOR
                        && Character.getType(c) != Character.PARAGRAPH_SEPARATOR)
                .limit(LONGEST_NAME)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString()
                .strip();
        return seen.isEmpty() ? "letter." + type.ending() : seen;
    }

    public String name() {
        return name;
    }

    public FileType type() {
        return type;
    }

    /** In bytes. */
    public int size() {
        return content.length;
    }

    byte[] content() {
        return content;
    }
}
