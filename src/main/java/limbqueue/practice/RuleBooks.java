package limbqueue.practice;

import java.util.Optional;
import limbqueue.practice.jdbc.RuleBookStore;
import limbqueue.triage.rule.RuleBook;

/** The rule book by which this version of the product triages, and those by which it ever did here. */
public final class RuleBooks {

    private final RuleBookStore store;
    private final RuleBook inForce;

    public RuleBooks(RuleBookStore store, RuleBook inForce) {
        this.store = store;
        this.inForce = inForce;
    }

    /** The book that proposals are made by. */
    public RuleBook inForce() {
        return inForce;
    }

    /** Keeps the text of the book in force, unless it is kept already. */
    public void keep() {
        store.keep(inForce.id(), inForce.files());
    }

    /**
     * The book with this id, as far as this version of the product can read it.
     *
     * @throws IllegalArgumentException if it cannot, saying why
     */
    public Optional<RuleBook> find(String id) {
        return id.equals(inForce.id()) ? Optional.of(inForce) : store.find(id).map(RuleBook::kept);
    }
}
