package limbqueue.triage.workup;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.TriageResult.Calculation;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;

/** The list of a work-up while it is written. */
final class Sheet {

    private static final List<String> NO_ITEM = List.of("access-plan", "procedure");

    private final Occasion on;
    private final RuleBook book;
    private final List<WorkUpItem> items = new ArrayList<>();

    Sheet(Occasion on, RuleBook book) {
        this.on = on;
        this.book = book;
    }

    /** An item that is to be done. */
    void need(Item item, String text, String why, Calculation... calculations) {
        add(item, text, why, true, Optional.empty(), List.of(calculations));
    }

    /** An item that something held for good may satisfy. */
    void once(Item item, String text, String why, boolean held) {
        add(item, text, why, !held, Optional.empty(), List.of());
    }

    /** An item that a result still valid on the day of the procedure satisfies. */
    void dated(Item item, String text, String why, Validity.Held held, Calculation... calculations) {
        add(item, text, why, !enough(held), Optional.of(held), List.of(calculations));
    }

    boolean enough(Validity.Held held) {
        return held.lastDay().map(last -> !last.isBefore(on.day())).orElse(false);
    }

    private void add(
            Item item,
            String text,
            String why,
            boolean needed,
            Optional<Validity.Held> held,
            List<Calculation> calculations) {
        var lastDay = held.flatMap(Validity.Held::lastDay);
        var expires = needed && lastDay.map(last -> !last.isBefore(on.asOf())).orElse(false);
        items.add(new WorkUpItem(
                item.code(),
                text + held.filter(_ -> needed).map(this::renewal).orElse(""),
                why,
                needed,
                lastDay,
                book.sourceOf(item.rule()),
                item.who(),
                held.map(Validity.Held::validity).map(Validity::words),
                expires,
                item.unlocks(),
                calculations));
    }

    /** What has become or will become of the result that is held. */
    private String renewal(Validity.Held held) {
        return held.lastDay()
                .map(last -> last.isBefore(on.asOf())
                        ? Sentence.of(". The one held counted until %s", last)
                        : Sentence.of(
                                ". The one held counts until %s and runs out before %s %s: a new one from %s on still"
                                        + " counts then",
                                last,
                                on.at().isPresent() ? "the procedure of" : "the target date,",
                                on.day(),
                                held.validity().earliest(on.day())))
                .orElse("");
    }

    Calculation calculation(Item of, String what, String value) {
        return new Calculation(what, value, book.sourceOf(of.rule()));
    }

    Calculation calculation(String source, String what, String value) {
        return new Calculation(what, value, source);
    }

    /** The list, in which nothing waits for an item that is not on it. */
    List<WorkUpItem> items() {
        var listed = new HashSet<>(NO_ITEM);
        for (var item : items) {
            listed.add(item.code());
        }
        var list = new ArrayList<WorkUpItem>(items.size());
        for (var item : items) {
            list.add(listed.containsAll(item.unlocks()) ? item : unlocking(item, listed));
        }
        return List.copyOf(list);
    }

    /** {@code item} with only those of {@code listed} waiting for it. */
    private static WorkUpItem unlocking(WorkUpItem item, Set<String> listed) {
        return new WorkUpItem(
                item.code(),
                item.text(),
                item.why(),
                item.needed(),
                item.validUntil(),
                item.source(),
                item.who(),
                item.validFor(),
                item.expires(),
                Entries.those(item.unlocks(), listed::contains),
                item.calculations());
    }
}
