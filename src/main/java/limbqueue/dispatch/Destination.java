package limbqueue.dispatch;

/** Where a letter goes, or why it cannot go there. */
sealed interface Destination {

    Channel channel();

    /** As far as known. */
    String address();

    record Known(Channel channel, String address) implements Destination {}

    /** @param why in words for the office: what is wrong, and what to do */
    record NotRight(Channel channel, String address, String why) implements Destination {}
}
