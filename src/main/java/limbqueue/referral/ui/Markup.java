package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;

/** The pieces of which the physician's pages are laid out. */
final class Markup {

    private Markup() {}

    /** @param className one class name or several, with spaces between */
    static Span text(String className, String text) {
        var span = new Span(text);
        span.addClassNames(className.split(" "));
        return span;
    }

    static Paragraph paragraph(String className, String text) {
        var paragraph = new Paragraph(text);
        paragraph.addClassNames(className.split(" "));
        return paragraph;
    }

    static Div div(String className, Component... content) {
        var div = new Div(content);
        div.addClassNames(className.split(" "));
        return div;
    }

    /** A part of the page under its own heading. */
    static Section panel(String className, String title, Component... content) {
        var heading = new H2(title);
        heading.addClassName("lq-panel-title");
        var section = new Section(heading);
        section.addClassName("lq-panel");
        section.addClassNames(className.split(" "));
        section.add(content);
        return section;
    }

    /** What nobody has said: hatched, so that it is not taken for a no. */
    static Span notKnown() {
        return notKnown("not known");
    }

    static Span notKnown(String text) {
        return text("lq-not-known", text);
    }

    static NativeTableHeaderCell columnHeading(String text) {
        return heading(text, "col");
    }

    static NativeTableHeaderCell rowHeading(String text) {
        return heading(text, "row");
    }

    private static NativeTableHeaderCell heading(String text, String scope) {
        var cell = new NativeTableHeaderCell(text);
        cell.getElement().setAttribute("scope", scope);
        return cell;
    }
}
