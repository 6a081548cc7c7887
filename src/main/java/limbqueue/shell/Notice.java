package limbqueue.shell;

import com.vaadin.flow.component.html.Paragraph;

/** The line that every proposal carries: who decides. */
public final class Notice extends Paragraph {

    /** @param text the notice, as the module that proposes words it */
    public Notice(String text) {
        super(text);
        addClassName("lq-notice");
    }
}
