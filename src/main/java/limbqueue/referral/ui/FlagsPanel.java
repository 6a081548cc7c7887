package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/** Red flags and contradictions, each with the answers it rests on; and values that could not be read. */
class FlagsPanel extends Div {

    private static final List<String> LEGS = List.of("left leg, ", "right leg, ");
    private static final int AT_MOST_WHEN_SHORT = 2;

    private static final String CLICKED = "event.target.closest('.lq-proof-open')";
    private static final String WHICH = CLICKED + "?.dataset.proof";

    private final ReferralPage page;
    /** What each place rests on that leads to the letter. */
    private final List<List<EvidenceWords.Fact>> proofs = new ArrayList<>();

    /** @param toLetter opens the letter at these facts */
    FlagsPanel(ReferralPage page, Consumer<List<EvidenceWords.Fact>> toLetter) {
        this.page = page;
        addClassName("lq-flags");
        getElement()
                .addEventListener(
                        "click",
                        event -> toLetter.accept(proofs.get(
                                Integer.parseInt(event.getEventData().get(WHICH).asString()))))
                .addEventData(WHICH)
                .setFilter(CLICKED + " !== null");
        var flags = page.proposal().redFlags();
        if (flags.isEmpty()) {
            add(Markup.panel("lq-flags-none", "Red flags", Markup.paragraph("lq-soft", "None raised.")));
        } else {
            var list = new UnorderedList();
            for (var flag : flags) {
                var name = new H3(FlagWords.inShort(flag.code()));
                name.addClassName("lq-flag-name");
                var item = new ListItem(name, Markup.paragraph("lq-flag-text", flag.text()));
                item.addClassName("lq-flag");
                item.add(evidence(flag.evidence()), source(flag.source()));
                list.add(item);
            }
            add(Markup.panel("lq-flags-raised", "Red flags (" + flags.size() + ")", list));
        }
        if (!page.proposal().contradictions().isEmpty()) {
            var list = new UnorderedList();
            for (var contradiction : page.proposal().contradictions()) {
                list.add(new ListItem(
                        Markup.paragraph("lq-flag-text", contradiction.text()), evidence(contradiction.fields())));
            }
            add(Markup.panel("lq-contradictions", "Contradictions", list));
        }
        if (!page.reading().complete()) {
            var list = new UnorderedList();
            for (var problem : page.reading().problems()) {
                list.add(new ListItem(
                        Markup.text("lq-proof-field", FieldWords.of(problem.path())),
                        Markup.paragraph("lq-flag-text", problem.text())));
            }
            add(Markup.panel("lq-problems", "Cannot be right, and counts as not known", list));
        }
        Still.of(this);
    }

    /** Whether little is said here, so that there is room below. */
    static boolean isShort(ReferralPage page) {
        return page.proposal().redFlags().size()
                        + page.proposal().contradictions().size()
                        + page.reading().problems().size()
                <= AT_MOST_WHEN_SHORT;
    }

    /** What it rests on; where a letter is held, all of it leads to the words there. */
    private Component evidence(List<String> paths) {
        var facts = EvidenceWords.of(paths, page.draft());
        var told = facts.stream().filter(fact -> fact.value().isPresent()).toList();
        if (page.value("letterText").isEmpty() || told.isEmpty()) {
            var list = new UnorderedList();
            list.addClassName("lq-proof");
            words(facts).forEach(words -> list.add(new ListItem(words)));
            return list;
        }
        var open = Markup.div("lq-proof lq-proof-open");
        open.getElement()
                .setAttribute("role", "button")
                .setAttribute("tabindex", "0")
                .setAttribute("title", "Open the letter at these words")
                .setAttribute("data-proof", String.valueOf(proofs.size()));
        proofs.add(told);
        words(facts).forEach(open::add);
        return open;
    }

    private static List<Span> words(List<EvidenceWords.Fact> facts) {
        var words = new ArrayList<Span>();
        var leg = "";
        for (var fact : facts) {
            var of = LEGS.stream().filter(fact.field()::startsWith).findFirst().orElse("");
            // Of several facts about one leg, the first names it.
            var name = of.equals(leg) ? fact.field().substring(of.length()) : fact.field();
            leg = of;
            var said = new Span(
                    Markup.text("lq-proof-field", name),
                    fact.value()
                            .map(known -> Markup.text("lq-proof-value", known))
                            .orElseGet(Markup::notKnown));
            said.addClassName("lq-proof-fact");
            words.add(said);
        }
        return words;
    }

    private static NativeDetails source(String source) {
        var details = new NativeDetails("Source");
        details.addClassName("lq-reasons");
        details.setContent(Markup.text("lq-cited", source));
        return details;
    }
}
