package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.dom.ElementUtil;
import org.jsoup.nodes.Document;

/**
 * A part of a page that is only read, sent as one text of which the browser makes its elements at once. Hundreds of elements
 * that the server could still change one by one took most of the time from one referral to the next.
 */
final class Still {

    private Still() {}

    /**
     * The same part without its components: nobody can be told of a click within it, and none of its components can be
     * changed any more. Listeners and attributes of the part itself stay. What was typed into the document stays text.
     *
     * @param part nothing within it may have a listener or a property, or come of a script
     */
    static <C extends Component> C of(C part) {
        var element = part.getElement();
        var paper = new Document("");
        // Made to look well, the text would have spaces where there are none.
        paper.outputSettings().prettyPrint(false);
        element.getChildren().forEach(child -> paper.appendChild(ElementUtil.toJsoup(paper, child)));
        element.removeAllChildren();
        element.setProperty("innerHTML", paper.html());
        return part;
    }
}
