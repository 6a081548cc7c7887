package limbqueue.letter;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * The words of a letter, part by part: what is stored, and all that its plain text and its printed page are made from.
 *
 * @param language tag of the language it is written in
 * @param addressee name, organisation and address lines
 * @param regarding whom and what the letter is about, a line each
 * @param farewell from the closing words to the signatory, a line each
 */
record Parts(
        String language,
        Letterhead letterhead,
        String dated,
        List<String> addressee,
        String subject,
        List<String> regarding,
        String salutation,
        List<Passage> body,
        List<String> farewell) {

    /** @param lines address lines, then how to reach the practice */
    record Letterhead(String name, List<String> lines, List<String> contact) {}

    enum Kind {
        PARAGRAPH,
        /** The words of a physician, as given. */
        QUOTED,
        LIST,
        CAUTION
    }

    /**
     * @param text the paragraph, or the sentence that leads to the list
     * @param items entries of the list, or lines quoted
     */
    record Passage(Kind kind, String text, List<String> items) {

        static Passage paragraph(String text) {
            return new Passage(Kind.PARAGRAPH, text, List.of());
        }

        static Passage quoted(List<String> lines) {
            return new Passage(Kind.QUOTED, "", lines);
        }

        static Passage list(String lead, List<String> items) {
            return new Passage(Kind.LIST, lead, items);
        }

        static Passage caution(String text) {
            return new Passage(Kind.CAUTION, text, List.of());
        }

        private String asText() {
            return switch (kind) {
                case PARAGRAPH, CAUTION -> text;
                case QUOTED -> items.stream().map(line -> "    " + line).collect(Collectors.joining("\n"));
                case LIST -> text + items.stream().map(item -> "\n  - " + item).collect(Collectors.joining());
            };
        }
    }

    /** The whole letter as plain text. */
    String asText() {
        var blocks = new ArrayList<String>();
        blocks.add(letterhead.name() + "\n" + String.join("\n", letterhead.lines()));
        blocks.add(String.join("\n", letterhead.contact()));
        blocks.add(dated);
        blocks.add(String.join("\n", addressee));
        blocks.add(subject + "\n" + String.join("\n", regarding));
        blocks.add(salutation);
        body.forEach(passage -> blocks.add(passage.asText()));
        blocks.add(String.join("\n", farewell));
        return blocks.stream().filter(block -> !block.isBlank()).collect(Collectors.joining("\n\n")) + "\n";
    }
}
