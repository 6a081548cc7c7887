package limbqueue.shell;

/** Numbers with what they count, as the screens say them: {@code 1 minute}, {@code 2 minutes}, {@code 0 minutes}. */
public final class CountedWords {

    private CountedWords() {}

    /** @param one what is counted, of which there are more with an s behind it */
    public static String of(long count, String one) {
        return of(count, one, one + "s");
    }

    public static String of(long count, String one, String many) {
        return count + " " + (count == 1 ? one : many);
    }
}
