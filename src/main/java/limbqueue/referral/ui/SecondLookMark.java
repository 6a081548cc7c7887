package limbqueue.referral.ui;

import com.vaadin.flow.component.html.ListItem;

/** In the queue: that a referral waits for a second physician. */
final class SecondLookMark {

    private SecondLookMark() {}

    static ListItem on(ListItem entry, boolean waits) {
        if (waits) {
            entry.addClassName("lq-waits-for-second");
            entry.add(
                    Markup.text("lq-second-look-mark", "Waits for a second physician; stands as proposed until then"));
        }
        return entry;
    }
}
