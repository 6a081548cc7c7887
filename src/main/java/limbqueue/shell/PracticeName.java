package limbqueue.shell;

/** Tells the shell what the practice calls itself. */
public interface PracticeName {

    String practiceName();
}
