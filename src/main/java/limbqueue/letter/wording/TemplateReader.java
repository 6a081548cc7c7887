package limbqueue.letter.wording;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.letter.LetterKind;
import limbqueue.letter.wording.Placeholder.Shape;
import limbqueue.letter.wording.Template.Block;
import limbqueue.letter.wording.Template.Line;
import limbqueue.letter.wording.Template.Mark;
import limbqueue.letter.wording.Template.Part;

/**
 * Reads the words of a letter, and says of every line that cannot stand what is wrong with it.
 *
 * <p>The first line is {@code Subject: …}; then paragraphs, parted by blank lines. A line that begins with {@code - } is an
 * entry of a list, one with {@code > } is quoted, one with {@code #} is a remark for whoever edits. {@code {{name}}} stands for
 * a value; between <code>{{#name}}</code> and <code>{{/name}}</code> stands what needs it, and <code>{{^name}}</code> begins
 * what is said without it. In the block of a list the line with {@code {{item}}} is repeated for each entry.
 */
public final class TemplateReader {

    /** About two printed pages. */
    static final int MOST_CHARACTERS = 6000;

    private static final String SUBJECT = "Subject:";
    private static final Pattern ALONE = Pattern.compile("\\s*\\{\\{\\s*([#^/])\\s*([^{}]*?)\\s*\\}\\}\\s*");
    private static final Pattern INVISIBLE = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Co}\\p{Cn}&&[^\\t]]");

    private final String file;
    private final Slots slots;
    private final List<WordingProblem> problems = new ArrayList<>();
    private final List<Part> parts = new ArrayList<>();
    private final Set<Placeholder> used = EnumSet.noneOf(Placeholder.class);
    private Optional<String> subject = Optional.empty();
    private Optional<Open> open = Optional.empty();
    /** Blocks opened within a block: wrong, and told once; they are only counted so that their ends are not told too. */
    private int within;

    private TemplateReader(String file, LetterKind kind) {
        this.file = file;
        this.slots = Slots.of(kind);
    }

    private record Open(int line, String label, Optional<Placeholder> about, boolean absent, List<Line> lines) {}

    /**
     * What was read.
     *
     * @param template empty if there is any problem
     */
    public record Reading(Optional<Template> template, List<WordingProblem> problems) {}

    /** @param file what problems call the text by */
    public static Reading read(String file, LetterKind kind, String text) {
        return new TemplateReader(file, kind).read(text);
    }

    private Reading read(String text) {
        if (text.length() > MOST_CHARACTERS) {
            problem(
                    0,
                    "It is %d characters long; a letter has room for %d. Shorten it."
                            .formatted(text.length(), MOST_CHARACTERS));
            return new Reading(Optional.empty(), List.copyOf(problems));
        }
        var lines = text.split("\\R", -1);
        for (var i = 0; i < lines.length; i++) {
            line(i + 1, lines[i].replace('\t', ' ').stripTrailing());
        }
        open.ifPresent(block -> problem(
                block.line(), "The block {{#%s}} is never closed. End it with {{/%1$s}}.".formatted(block.label())));
        if (subject.isEmpty()) {
            problem(1, "The first line says what the letter is about: begin with “Subject: ” and a few words.");
        }
        slots.needed().stream()
                .filter(needed -> !used.contains(needed))
                .forEach(needed -> problem(
                        0,
                        "It never says {{%s}} (%s), without which this letter does not do its work."
                                .formatted(needed.label(), needed.meaning())));
        if (!problems.isEmpty()) {
            return new Reading(Optional.empty(), List.copyOf(problems));
        }
        return new Reading(Optional.of(new Template(subject.orElseThrow(), parts)), List.of());
    }

    private void line(int number, String line) {
        if (line.startsWith("#")) {
            return;
        }
        if (INVISIBLE.matcher(line).find()) {
            problem(number, "It holds a character that nobody can see. Type the line anew.");
            return;
        }
        if (subject.isEmpty()) {
            subject(number, line);
            return;
        }
        var alone = ALONE.matcher(line);
        if (alone.matches()) {
            block(number, alone.group(1), alone.group(2));
            return;
        }
        var mark = line.startsWith("- ") ? Mark.ENTRY : line.startsWith("> ") ? Mark.QUOTE : Mark.PLAIN;
        var list = open.flatMap(Open::about)
                .filter(about ->
                        about.shape() == Shape.LIST && !open.orElseThrow().absent());
        var pieces = new LineReader(slots, open.map(Open::label), open.flatMap(TemplateReader::shown), list.isPresent())
                .read(mark == Mark.PLAIN ? line : line.substring(2));
        pieces.problems().forEach(what -> problem(number, what));
        used.addAll(pieces.used());
        var read = new Line(mark, pieces.pieces());
        var into = open.<List<? super Line>>map(Open::lines).orElse(parts);
        if (mark == Mark.ENTRY && !led(into)) {
            problem(number, "A list begins with a sentence that leads to it, in the line above, in the same block.");
        }
        if (read.hasEntry() && mark == Mark.PLAIN) {
            problem(number, "The line with {{item}} begins with “- ” for a list, or with “> ” for quoted words.");
        }
        into.add(read);
    }

    /** What is known within the block. */
    private static Optional<Placeholder> shown(Open block) {
        return block.absent() ? Optional.empty() : block.about();
    }

    private static boolean led(List<? super Line> before) {
        return !before.isEmpty()
                && before.getLast() instanceof Line(var mark, var pieces)
                && !pieces.isEmpty()
                && mark != Mark.QUOTE;
    }

    private void subject(int number, String line) {
        if (line.isBlank()) {
            return;
        }
        var words = line.startsWith(SUBJECT) ? line.substring(SUBJECT.length()).strip() : "";
        if (words.isEmpty()) {
            problem(number, "The first line says what the letter is about: begin with “Subject: ” and a few words.");
            subject = Optional.of("?");
            return;
        }
        if (words.contains("{{") || words.contains("}}")) {
            problem(number, "The subject stands on the outside of what is sent, so it holds no placeholder.");
        }
        subject = Optional.of(words);
    }

    private void block(int number, String sigil, String label) {
        if (sigil.equals("/")) {
            close(number, label);
            return;
        }
        if (open.isPresent()) {
            problem(
                    number,
                    "A block cannot stand within another: {{#%s}} of line %d is still open. Close it first."
                            .formatted(open.get().label(), open.get().line()));
            within++;
            return;
        }
        var about = Placeholder.labelled(label).filter(slots::allow);
        if (about.isEmpty()) {
            problem(number, LineReader.unknown(label, slots));
        } else if (about.get().shape() == Shape.TEXT) {
            problem(
                    number,
                    "{{%s}} is always known, so that a block about it changes nothing. Leave the block out."
                            .formatted(label));
        }
        var absent = sigil.equals("^");
        if (!absent) {
            about.ifPresent(used::add);
        }
        open = Optional.of(new Open(number, label, about, absent, new ArrayList<>()));
    }

    private void close(int number, String label) {
        if (within > 0) {
            within--;
            return;
        }
        if (open.isEmpty()) {
            problem(number, "{{/%s}} closes a block that was never opened. Begin it with {{#%1$s}}.".formatted(label));
            return;
        }
        var block = open.get();
        if (!block.label().equals(label)) {
            problem(
                    number,
                    "{{/%s}} closes another block than the one that line %d opened. Write {{/%s}}."
                            .formatted(label, block.line(), block.label()));
        }
        open = Optional.empty();
        block.about().ifPresent(about -> {
            if (about.shape() == Shape.LIST
                    && !block.absent()
                    && block.lines().stream().noneMatch(Line::hasEntry)) {
                problem(
                        block.line(),
                        "The list {{#%s}} never shows its entries. Give it a line “- {{item}}”.".formatted(label));
            }
            parts.add(new Block(about, block.absent(), List.copyOf(block.lines())));
        });
    }

    private void problem(int line, String what) {
        problems.add(new WordingProblem(file, line, what));
    }
}
