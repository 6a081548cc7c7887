package limbqueue.letter.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import limbqueue.letter.Parts.Passage;

/** The words of a kind of letter in one language, checked. */
public final class Template {

    /** How a line begins, and so what it is. */
    enum Mark {
        PLAIN,
        ENTRY,
        QUOTE
    }

    /** A piece of a line. */
    sealed interface Piece {}

    record Words(String text) implements Piece {}

    record Value(Placeholder placeholder) implements Piece {}

    /** The entry of the list whose block this is. */
    record Entry() implements Piece {}

    /** Within one line. */
    record Clause(Placeholder about, boolean absent, List<Piece> pieces) implements Piece {}

    /** A line, or a block of lines. */
    sealed interface Part {}

    /** A blank line has no pieces. */
    record Line(Mark mark, List<Piece> pieces) implements Part {

        boolean hasEntry() {
            return pieces.contains(new Entry());
        }
    }

    record Block(Placeholder about, boolean absent, List<Line> lines) implements Part {}

    private record Written(Mark mark, String text) {}

    private final String subject;
    private final List<Part> parts;

    Template(String subject, List<Part> parts) {
        this.subject = subject;
        this.parts = List.copyOf(parts);
    }

    public String subject() {
        return subject;
    }

    /** The passages of a letter: those whose every value is known, in their order. */
    public List<Passage> render(Values values) {
        var lines = new ArrayList<Written>();
        for (var part : parts) {
            switch (part) {
                case Line line -> add(lines, line, values, "");
                case Block block when values.known(block.about()) == block.absent() -> {}
                case Block block ->
                    block.lines().forEach(line -> {
                        if (line.hasEntry()) {
                            values.list(block.about()).forEach(entry -> add(lines, line, values, entry));
                        } else {
                            add(lines, line, values, "");
                        }
                    });
            }
        }
        return passages(lines);
    }

    /** The passages of words that a person wrote for one letter, by the same signs, without placeholders. */
    public static List<Passage> byHand(List<String> lines) {
        return passages(lines.stream().map(Template::byHand).toList());
    }

    private static Written byHand(String line) {
        // A sign with nothing behind it has lost its blank.
        if (line.startsWith("- ") || line.equals("-")) {
            return new Written(Mark.ENTRY, line.substring(1).strip());
        }
        return line.startsWith("> ") || line.equals(">")
                ? new Written(Mark.QUOTE, line.substring(1).strip())
                : new Written(Mark.PLAIN, line);
    }

    /** A line that comes to nothing, since what it needs is not known, is no paragraph break. */
    private static void add(List<Written> lines, Line line, Values values, String entry) {
        var text = text(line.pieces(), values, entry).strip();
        if (!text.isEmpty() || line.pieces().isEmpty()) {
            lines.add(new Written(line.mark(), text));
        }
    }

    private static String text(List<Piece> pieces, Values values, String entry) {
        return pieces.stream()
                .map(piece -> switch (piece) {
                    case Words(var words) -> words;
                    case Value(var placeholder) -> values.text(placeholder);
                    case Entry _ -> entry;
                    case Clause(var about, var absent, var inner) ->
                        values.known(about) == absent ? "" : text(inner, values, entry);
                })
                .collect(Collectors.joining());
    }

    private static List<Passage> passages(List<Written> lines) {
        var passages = new ArrayList<Passage>();
        var i = 0;
        while (i < lines.size()) {
            var plain = run(lines, i, Mark.PLAIN);
            i += plain.size();
            var entries = run(lines, i, Mark.ENTRY);
            i += entries.size();
            var text = String.join(" ", plain);
            if (!entries.isEmpty()) {
                passages.add(Passage.list(text, entries));
            } else if (!text.isBlank()) {
                passages.add(Passage.paragraph(text));
            }
            var quoted = run(lines, i, Mark.QUOTE);
            i += quoted.size();
            if (!quoted.isEmpty()) {
                passages.add(Passage.quoted(quoted));
            }
            if (i < lines.size() && lines.get(i).text().isEmpty()) {
                i++;
            }
        }
        return List.copyOf(passages);
    }

    private static List<String> run(List<Written> lines, int from, Mark mark) {
        return lines.subList(from, lines.size()).stream()
                .takeWhile(line -> line.mark() == mark && !line.text().isEmpty())
                .map(Written::text)
                .toList();
    }
}
