package limbqueue.dispatch;

/** Where a letter is on its way out. */
public enum DispatchState {
    /** It leaves by itself, or with the day's post, as soon as it may. */
    TO_SEND,
    /** A server is handing it over to the mail server at this moment, or died while it did. */
    SENDING,
    SENT,
    /** The mail server refused it, or could not be reached for a day. */
    FAILED,
    /** The mail server took it, and it came back. */
    BOUNCED,
    /** A person has to look at it first. */
    HELD,
    /** The decision that it tells of was taken back. */
    WITHDRAWN
}
