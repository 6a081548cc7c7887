package limbqueue.shell;

import com.vaadin.flow.component.html.Div;
import java.util.Optional;

/** A picture that was drawn on the server, within the page; or the words that it cannot be drawn. */
public final class DrawnPicture extends Div {

    /** @param svg as text, of our own making; empty where this server has no letters to measure */
    public DrawnPicture(Optional<String> svg) {
        addClassName("lq-picture");
        svg.ifPresentOrElse(
                text -> getElement().setProperty("innerHTML", text),
                () -> add(Pieces.paragraph(
                        "lq-nothing",
                        "The picture cannot be drawn: this server has no fonts. The table says the same.")));
    }
}
