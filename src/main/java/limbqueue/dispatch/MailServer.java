package limbqueue.dispatch;

import java.util.Optional;

/** The mail server that the practice uses. */
interface MailServer {

    /** Why nothing can be handed to it, in words for the office; nothing if it is set up. */
    Optional<String> missing();

    /** What stands behind the @ of a Message-ID. */
    String domain();

    /**
     * Hands a message over. When this returns, the server has taken it.
     *
     * @throws NotTakenException if it was refused, or nobody knows
     */
    void take(Mail mail) throws NotTakenException;

    /** A message was refused, or the server could not be reached, or broke off. */
    class NotTakenException extends Exception {

        private final boolean forGood;

        /** @param forGood whether trying again would be the same again */
        NotTakenException(String why, boolean forGood, Throwable cause) {
            super(why, cause);
            this.forGood = forGood;
        }

        boolean forGood() {
            return forGood;
        }

        String why() {
            return String.valueOf(getMessage());
        }
    }
}
