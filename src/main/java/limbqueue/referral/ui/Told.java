package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.dom.Element;
import java.util.List;

/** What is told beneath a control: problems with its value, and answers that it does not go together with. */
final class Told extends Div {

    private final Element control;
    private List<String> problems = List.of();
    private List<String> contradictions = List.of();

    /** @param id of this element, by which {@code control} refers to it */
    Told(String id, Element control) {
        this.control = control;
        setId(id);
        addClassName("lq-told");
    }

    void tell(List<String> newProblems, List<String> newContradictions) {
        if (newProblems.equals(problems) && newContradictions.equals(contradictions)) {
            return;
        }
        problems = List.copyOf(newProblems);
        contradictions = List.copyOf(newContradictions);
        removeAll();
        problems.forEach(text -> add(line("lq-problem", text)));
        contradictions.forEach(text -> add(line("lq-contradiction", text)));
        if (problems.isEmpty()) {
            control.removeAttribute("aria-invalid");
        } else {
            control.setAttribute("aria-invalid", "true");
        }
        if (problems.isEmpty() && contradictions.isEmpty()) {
            control.removeAttribute("aria-describedby");
        } else {
            control.setAttribute("aria-describedby", getId().orElseThrow());
        }
    }

    private static Span line(String className, String text) {
        var line = new Span(text);
        line.addClassName(className);
        return line;
    }
}
