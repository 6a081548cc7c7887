package limbqueue.letter.wording;

/**
 * What is wrong with the words of a letter.
 *
 * @param file where they stand
 * @param line from 1; 0 where it concerns the whole
 * @param what in words, with what to do about it
 */
public record WordingProblem(String file, int line, String what) {

    /** {@code triaged.es.txt, line 4: …}. */
    public String asText() {
        return line == 0 ? file + ": " + what : file + ", line " + line + ": " + what;
    }
}
