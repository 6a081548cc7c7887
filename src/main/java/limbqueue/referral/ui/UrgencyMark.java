package limbqueue.referral.ui;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Span;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import limbqueue.triage.Tier;

/** How soon: the tier in words with its date, on the strength of one hue that is the tier's. */
@StyleSheet("context://ui/urgency.css")
class UrgencyMark extends Span {

    /** @param targetDate of the tier; shown with every tier that is a place in the queue */
    UrgencyMark(Tier tier, Optional<LocalDate> targetDate) {
        addClassNames(
                "lq-urgency",
                "lq-urgency-" + tier.name().toLowerCase(Locale.ROOT).replace('_', '-'));
        var words = new Span(TierWords.of(tier));
        words.addClassName("lq-urgency-tier");
        add(words);
        var what = TierWords.what(tier, targetDate);
        if (!what.isEmpty()) {
            var date = new Span(what);
            date.addClassName("lq-urgency-what");
            add(new com.vaadin.flow.component.Text(" "), date);
        }
    }
}
