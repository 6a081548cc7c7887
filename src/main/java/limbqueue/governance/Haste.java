package limbqueue.governance;

/** Whether the referring doctor asked for haste: to be taken sooner, or with a priority above routine. */
public enum Haste {
    ASKED,
    NOT_ASKED,
    NOT_TOLD
}
