package limbqueue.referral.ui;

import com.vaadin.flow.component.Text;
import com.vaadin.flow.component.html.Span;
import java.util.Locale;

/** A finding in one line of text: what is present is strong, what is absent quiet, what is not known hatched. */
class FindingText extends Span {

    FindingText(Finding finding) {
        addClassName("lq-finding");
        if (!finding.known()) {
            add(Markup.notKnown());
            return;
        }
        var first = true;
        for (var phrase : finding.phrases()) {
            if (!first) {
                add(new Text(", "));
            }
            first = false;
            add(
                    phrase.weight() == Finding.Weight.NOT_KNOWN
                            ? Markup.notKnown(phrase.text())
                            : Markup.text(
                                    "lq-finding-" + phrase.weight().name().toLowerCase(Locale.ROOT), phrase.text()));
        }
    }
}
