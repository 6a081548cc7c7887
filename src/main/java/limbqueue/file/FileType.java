package limbqueue.file;

/** What is taken as a letter or its enclosure. Nothing else is kept. */
public enum FileType {
    TEXT("text/plain", "txt", "plain text"),
    PDF("application/pdf", "pdf", "a PDF"),
    DOCX("application/vnd.openxmlformats-officedocument.wordprocessingml.document", "docx", "a Word document"),
    PNG("image/png", "png", "a PNG picture"),
    JPEG("image/jpeg", "jpg", "a JPEG picture"),
    TIFF("image/tiff", "tif", "a TIFF picture");

    private final String mediaType;
    private final String ending;
    private final String words;

    FileType(String mediaType, String ending, String words) {
        this.mediaType = mediaType;
        this.ending = ending;
        this.words = words;
    }

    /** As registered with IANA. */
    public String mediaType() {
        return mediaType;
    }

    /** How the names of such files end, without the dot. */
    public String ending() {
        return ending;
    }

    /** As {@code a PNG picture}. */
    public String words() {
        return words;
    }

    boolean isPicture() {
        return this == PNG || this == JPEG || this == TIFF;
    }
}
