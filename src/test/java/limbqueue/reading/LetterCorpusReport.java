package limbqueue.reading;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/**
 * Prints precision and recall of each field, for the letters that the rules were written with and for those that were
 * never looked at. Mistakes are shown of the first half only, so that the second stays unseen.
 */
class LetterCorpusReport {

    @Test
    void printsPrecisionAndRecallOfEachField() throws IOException {
        for (var half : new String[] {"known", "unseen"}) {
            var letters = Corpus.letters(half);
            var score = Corpus.score(letters);
            System.out.printf("%n%s: %d letters%n", half, letters.size());
            System.out.printf(
                    "%-46s %8s %6s %6s %10s %7s%n", "field", "labelled", "read", "right", "precision", "recall");
            score.byField().forEach(LetterCorpusReport::print);
            print("all", score.all());
            if (half.equals("known")) {
                score.mistakes().forEach(System.out::println);
            }
        }
    }

    private static void print(String field, Corpus.Tally tally) {
        System.out.printf(
                "%-46s %8d %6d %6d %10.3f %7.3f%n",
                field, tally.labelled, tally.read, tally.right, tally.precision(), tally.recall());
    }
}
