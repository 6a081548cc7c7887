package limbqueue.shell;

/** A page on which something may be typed that is not saved yet. */
public interface KeepsWhatIsTyped {

    /** Saves what is typed; false if somebody has to decide something on the page first. */
    boolean keep();
}
