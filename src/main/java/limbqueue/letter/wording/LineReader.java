package limbqueue.letter.wording;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.letter.wording.Placeholder.Shape;
import limbqueue.letter.wording.Template.Clause;
import limbqueue.letter.wording.Template.Entry;
import limbqueue.letter.wording.Template.Piece;
import limbqueue.letter.wording.Template.Value;
import limbqueue.letter.wording.Template.Words;

/** Reads one line of the words of a letter: its words, placeholders, and clauses that need a value. */
final class LineReader {

    private static final Pattern TAG = Pattern.compile("\\{\\{\\s*([#^/]?)\\s*([^{}]*?)\\s*\\}\\}");
    private static final String ITEM = "item";

    private final Slots slots;
    private final Optional<String> block;
    private final Optional<Placeholder> known;
    private final boolean inList;
    private final List<String> problems = new ArrayList<>();
    private final Set<Placeholder> used = EnumSet.noneOf(Placeholder.class);
    private final List<Piece> pieces = new ArrayList<>();
    private Optional<Open> open = Optional.empty();

    /**
     * @param block the block that the line stands in, as it is written
     * @param known what is known within that block
     * @param inList whether it is the block of a list, so that an entry of it can be shown
     */
    LineReader(Slots slots, Optional<String> block, Optional<Placeholder> known, boolean inList) {
        this.slots = slots;
        this.block = block;
        this.known = known;
        this.inList = inList;
    }

    private record Open(String label, Optional<Placeholder> about, boolean absent, List<Piece> pieces) {}

    record Reading(List<Piece> pieces, Set<Placeholder> used, List<String> problems) {}

    Reading read(String line) {
        var tag = TAG.matcher(line);
        var from = 0;
        while (tag.find()) {
            words(line.substring(from, tag.start()));
            from = tag.end();
            switch (tag.group(1)) {
                case "" -> value(tag.group(2));
                case "/" -> close(tag.group(2));
                default -> clause(tag.group(2), tag.group(1).equals("^"));
            }
        }
        words(line.substring(from));
        open.ifPresent(clause -> problems.add(
                "The block {{#%s}} begins in the midst of this line and must end in it: write {{/%1$s}} behind what needs it."
                        .formatted(clause.label())));
        return new Reading(List.copyOf(pieces), used, List.copyOf(problems));
    }

    static String unknown(String label, Slots slots) {
        return "This letter knows no {{%s}}. It knows %s.".formatted(label, slots.labels());
    }

    private List<Piece> into() {
        return open.map(Open::pieces).orElse(pieces);
    }

    private void words(String text) {
        if (text.isEmpty()) {
            return;
        }
        if (text.contains("{{") || text.contains("}}")) {
            problems.add("Braces are open here. A placeholder is written {{name}}, in one line.");
        }
        into().add(new Words(text));
    }

    private void value(String label) {
        if (label.equals(ITEM)) {
            if (inList) {
                into().add(new Entry());
            } else {
                problems.add("{{item}} stands for an entry of a list, and only in the block of a list.");
            }
            return;
        }
        var placeholder = Placeholder.labelled(label).filter(slots::allow);
        if (placeholder.isEmpty()) {
            problems.add(unknown(label, slots));
            return;
        }
        var one = placeholder.get();
        if (one.shape() == Shape.LIST) {
            problems.add(
                    "{{%s}} is a list. Write {{#%1$s}}, then a line “- {{item}}”, then {{/%1$s}}, each in a line of its own."
                            .formatted(label));
        } else if (one.shape() == Shape.PERHAPS && !isKnown(one)) {
            problems.add(
                    "{{%s}} is not always known. Put what needs it between {{#%1$s}} and {{/%1$s}}.".formatted(label));
        }
        used.add(one);
        into().add(new Value(one));
    }

    private boolean isKnown(Placeholder placeholder) {
        return known.filter(placeholder::equals).isPresent()
                || open.filter(clause -> !clause.absent())
                        .flatMap(Open::about)
                        .filter(placeholder::equals)
                        .isPresent();
    }

    private void clause(String label, boolean absent) {
        var around = open.map(Open::label).or(() -> block);
        if (around.isPresent()) {
            problems.add("A block cannot stand within another: {{#%s}} is still open. Close it first."
                    .formatted(around.get()));
            if (open.isPresent()) {
                return;
            }
        }
        var about = Placeholder.labelled(label).filter(slots::allow);
        if (about.isEmpty()) {
            problems.add(unknown(label, slots));
        } else if (about.get().shape() == Shape.LIST) {
            problems.add("{{#%s}} is a list, so its block has lines of its own: nothing else stands beside {{#%1$s}}."
                    .formatted(label));
        } else if (about.get().shape() == Shape.TEXT) {
            problems.add("{{%s}} is always known, so that a block about it changes nothing. Leave the block out."
                    .formatted(label));
        }
        open = Optional.of(new Open(label, about, absent, new ArrayList<>()));
    }

    private void close(String label) {
        if (open.isEmpty()) {
            problems.add("{{/%s}} closes a block that was not opened in this line.".formatted(label));
            return;
        }
        var clause = open.get();
        if (!clause.label().equals(label)) {
            problems.add(
                    "{{/%s}} closes another block than {{#%s}}. Write {{/%2$s}}.".formatted(label, clause.label()));
        }
        open = Optional.empty();
        clause.about().ifPresent(about -> pieces.add(new Clause(about, clause.absent(), List.copyOf(clause.pieces()))));
    }
}
