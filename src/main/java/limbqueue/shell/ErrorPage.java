package limbqueue.shell;

import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;

/** A page that says in plain words why the wanted one is not shown. */
abstract class ErrorPage extends Section {

    ErrorPage() {
        addClassNames("lq-page", "lq-narrow", "lq-error-page");
    }

    /** Shows what happened, and returns {@code status}. */
    int say(int status, String title, String explanation) {
        removeAll();
        add(new H1(title), new Paragraph(explanation), new Anchor("", "Go to your start page"));
        return status;
    }
}
