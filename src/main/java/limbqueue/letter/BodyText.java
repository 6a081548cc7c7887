package limbqueue.letter;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.Parts.Passage;
import limbqueue.letter.wording.Template;

/** The passages of a letter as lines that a person edits, by the signs that the words of letters have: lists by “- ”. */
final class BodyText {

    private static final String ENTRY = "- ";
    private static final String QUOTE = "> ";

    private BodyText() {}

    static String of(List<Passage> passages) {
        return passages.stream().map(BodyText::of).collect(Collectors.joining("\n\n"));
    }

    private static String of(Passage passage) {
        return switch (passage.kind()) {
            case PARAGRAPH, CAUTION -> passage.text();
            case QUOTED -> marked(QUOTE, passage.items()).collect(Collectors.joining("\n"));
            case LIST ->
                Stream.concat(Stream.of(passage.text()).filter(lead -> !lead.isEmpty()), marked(ENTRY, passage.items()))
                        .collect(Collectors.joining("\n"));
        };
    }

    private static Stream<String> marked(String sign, List<String> lines) {
        return lines.stream().map(line -> sign + line);
    }

    /** What was typed, without anything that nobody can see. Empty where nothing was. */
    static List<Passage> read(String typed) {
        return Template.byHand(typed.lines().map(Typed::line).toList());
    }
}
