package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;

/** Red flags and contradictions, each with the answers it rests on; and values that could not be read. */
class FlagsPanel extends Div {

    private static final int AT_MOST_WHEN_SHORT = 2;

    FlagsPanel(ReferralPage page) {
        addClassName("lq-flags");
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
                item.add(evidence(flag.evidence(), page), source(flag.source()));
                list.add(item);
            }
            add(Markup.panel("lq-flags-raised", "Red flags (" + flags.size() + ")", list));
        }
        if (!page.proposal().contradictions().isEmpty()) {
            var list = new UnorderedList();
            for (var contradiction : page.proposal().contradictions()) {
                list.add(new ListItem(
                        Markup.paragraph("lq-flag-text", contradiction.text()),
                        evidence(contradiction.fields(), page)));
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
    }

    /** Whether little is said here, so that there is room below. */
    static boolean isShort(ReferralPage page) {
        return page.proposal().redFlags().size()
                        + page.proposal().contradictions().size()
                        + page.reading().problems().size()
                <= AT_MOST_WHEN_SHORT;
    }

    private static UnorderedList evidence(List<String> paths, ReferralPage page) {
        var list = new UnorderedList();
        list.addClassName("lq-proof");
        for (var fact : EvidenceWords.of(paths, page.draft())) {
            list.add(new ListItem(
                    Markup.text("lq-proof-field", fact.field()),
                    fact.value()
                            .map(value -> Markup.text("lq-proof-value", value))
                            .orElseGet(Markup::notKnown)));
        }
        return list;
    }

    private static NativeDetails source(String source) {
        var details = new NativeDetails("Source");
        details.addClassName("lq-reasons");
        details.setContent(Markup.text("lq-cited", source));
        return details;
    }
}
