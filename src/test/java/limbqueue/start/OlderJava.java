package limbqueue.start;

import java.util.Arrays;
import java.util.List;

/** Begins as on a Java 17. The first argument says where to look for a newer one: {@code usual} or {@code nowhere}. */
final class OlderJava {

    private OlderJava() {}

    public static void main(String[] args) throws Exception {
        var folders = args[0].equals("usual") ? folders() : List.<String>of();
        Start.lead(17, folders, Arrays.copyOfRange(args, 1, args.length));
    }

    private static List<String> folders() {
        // The Java of the tests is new enough, wherever it is installed.
        return List.of(System.getProperty("java.home"));
    }
}
