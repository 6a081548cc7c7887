package limbqueue.shell;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import java.time.LocalDate;
import java.util.Locale;

/** What pages are laid out of. */
public final class Pieces {

    private Pieces() {}

    public static Span text(String className, String text) {
        var span = new Span(text);
        span.addClassNames(className.split(" "));
        return span;
    }

    public static Paragraph paragraph(String className, String text) {
        var paragraph = new Paragraph(text);
        paragraph.addClassNames(className.split(" "));
        return paragraph;
    }

    public static Div div(String className, Component... content) {
        var div = new Div(content);
        div.addClassNames(className.split(" "));
        return div;
    }

    public static Section panel(String className, String title, Component... content) {
        var section = new Section(new H2(title));
        section.addClassNames(("lq-card " + className).split(" "));
        section.add(content);
        return section;
    }

    /** @param label for those who listen, where the words alone do not say what it is about */
    public static NativeButton small(String words, String label, Runnable act) {
        var button = new NativeButton(words, _ -> act.run());
        button.addClassName("lq-button");
        button.getElement().setAttribute("aria-label", label);
        return button;
    }

    public static Button primary(String words, Runnable act) {
        var button = new Button(words, _ -> act.run());
        button.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        return button;
    }

    public static DatePicker date(String label, LocalDate value) {
        var field = date(label);
        field.setValue(value);
        return field;
    }

    public static DatePicker date(String label) {
        var field = new DatePicker(label);
        field.setLocale(Locale.UK);
        // Days are typed; the calendar opens when its button is pressed and covers nothing before that.
        field.setAutoOpen(false);
        field.setRequiredIndicatorVisible(true);
        field.setWidthFull();
        return field;
    }
}
