package limbqueue.referral.ui;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Span;
import limbqueue.referral.Moved;

/** In a line of the queue: that the referral moved since a physician last saw it, and from where. */
@StyleSheet("context://ui/moved.css")
class MovedMark extends Span {

    MovedMark(Moved moved) {
        super(MoveWords.inShort(moved));
        addClassName("lq-moved-mark");
        setTitle(String.join(" ", MoveWords.difference(moved.before(), moved.after())));
    }
}
