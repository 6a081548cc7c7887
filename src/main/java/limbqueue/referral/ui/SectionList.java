package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Nav;
import com.vaadin.flow.component.html.Span;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import limbqueue.referral.ui.ReferralForm.Progress;

/** The sections of the form to jump to, each with how far it is filled in and what is open in it. */
final class SectionList extends Nav {

    private final Map<FormSection, Anchor> links = new LinkedHashMap<>();
    private final Map<FormSection, Progress> shown = new HashMap<>();

    SectionList() {
        addClassName("lq-sections");
        getElement().setAttribute("aria-label", "Sections of the form");
        for (var section : ReferralFields.SECTIONS) {
            var link = new Anchor("#" + ReferralForm.idOf(section));
            link.getElement().setAttribute("router-ignore", true);
            link.getElement()
                    .executeJs(
                            "this.addEventListener('click', e => { e.preventDefault();"
                                    + " document.getElementById($0)?.scrollIntoView({block: 'start'});"
                                    + " document.querySelector('#' + $0 + ' input:checked, #' + $0 + ' input,"
                                    + " #' + $0 + ' textarea')?.focus({preventScroll: true}); });",
                            ReferralForm.idOf(section));
            links.put(section, link);
            add(link);
        }
    }

    void show(Function<FormSection, Progress> progress) {
        links.forEach((section, link) -> {
            var now = progress.apply(section);
            if (now.equals(shown.put(section, now))) {
                return;
            }
            link.removeAll();
            link.add(part("lq-sections-title", section.title()));
            if (now.problems() > 0) {
                link.add(part("lq-sections-problems", now.problems() + " to mend"));
            } else if (now.questions() > 0) {
                link.add(part("lq-sections-questions", now.questions() == 1 ? "1 asked" : now.questions() + " asked"));
            }
            var known = part("lq-sections-known", now.known() + "/" + now.fields());
            known.getElement().setAttribute("title", now.known() + " of " + now.fields() + " answered");
            link.add(known);
        });
    }

    private static Span part(String className, String text) {
        var part = new Span(text);
        part.addClassName(className);
        return part;
    }
}
