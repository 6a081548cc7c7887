package limbqueue.start;

/** The first class of the jar. */
public final class Start {
    private Start() {}

    public static void main(String[] args) {
        System.out.println(Runtime.version());
    }
}
