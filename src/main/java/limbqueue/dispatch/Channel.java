package limbqueue.dispatch;

/** How a letter travels. */
public enum Channel {
    EMAIL("e-mail"),
    /** By e-mail to a gateway that dials. */
    FAX("fax"),
    /** Printed here and carried to the post by a person. */
    POST("post");

    private final String word;

    Channel(String word) {
        this.word = word;
    }

    public String word() {
        return word;
    }
}
