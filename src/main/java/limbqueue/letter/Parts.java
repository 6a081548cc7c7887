package limbqueue.letter;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import org.jspecify.annotations.Nullable;

/**
 * The words of a letter, part by part: what is stored, and all that its plain text and its printed page are made from.
 *
 * @param language tag of the language it is written in
 * @param addressee name, organisation and address lines
 * @param regarding whom and what the letter is about, a line each
 * @param farewell from the closing words to the signatory, a line each
 */
public record Parts(
        String language,
        Letterhead letterhead,
        String dated,
        List<String> addressee,
        String subject,
        List<String> regarding,
        String salutation,
        List<Passage> body,
        List<String> farewell) {

    /**
     * The practice as a letter names it.
     *
     * @param lines address lines
     * @param contact how to reach the practice
     * @param window of the envelope that the letter is set for
     */
    public record Letterhead(String name, List<String> lines, List<String> contact, EnvelopeWindow window) {

        /** @param window none in letters from before a practice could choose; all of them were on A4 */
        public Letterhead(String name, List<String> lines, List<String> contact, @Nullable EnvelopeWindow window) {
            this.name = name;
            this.lines = lines;
            this.contact = contact;
            this.window = window == null ? EnvelopeWindow.DIN_5008_B : window;
        }

        public static Letterhead of(Practice practice) {
            return of(practice, Vocabulary.of("en-GB"));
        }

        /** With what the numbers are called in the language of the letter. */
        public static Letterhead of(Practice practice, Vocabulary words) {
            return new Letterhead(
                    Typed.line(practice.name()),
                    practice.addressLines().stream()
                            .map(Typed::line)
                            .filter(line -> !line.isEmpty())
                            .toList(),
                    Stream.of(
                                    labelled(words, "letterhead.phone", practice.phone()),
                                    labelled(words, "letterhead.fax", practice.fax()),
                                    labelled(words, "letterhead.email", practice.email()))
                            .flatMap(Optional::stream)
                            .toList(),
                    practice.window());
        }

        private static Optional<String> labelled(Vocabulary words, String key, String typed) {
            return Optional.of(Typed.line(typed))
                    .filter(line -> !line.isEmpty())
                    .map(line -> words.say(key, line));
        }
    }

    public enum Kind {
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
    public record Passage(Kind kind, String text, List<String> items) {

        public static Passage paragraph(String text) {
            return new Passage(Kind.PARAGRAPH, text, List.of());
        }

        public static Passage quoted(List<String> lines) {
            return new Passage(Kind.QUOTED, "", lines);
        }

        public static Passage list(String lead, List<String> items) {
            return new Passage(Kind.LIST, lead, items);
        }

        public static Passage caution(String text) {
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

    /** The same letter with another body. */
    Parts with(List<Passage> other) {
        return new Parts(
                language, letterhead, dated, addressee, subject, regarding, salutation, List.copyOf(other), farewell);
    }

    /** The whole letter as plain text. */
    public String asText() {
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
