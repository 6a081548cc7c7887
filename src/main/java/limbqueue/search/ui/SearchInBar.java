package limbqueue.search.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Input;
import com.vaadin.flow.router.QueryParameters;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.shell.BarPiece;
import org.springframework.core.annotation.Order;

/** The search in the bar of every page. The key / leads to it, Enter searches. */
@org.springframework.stereotype.Component
@Order(1)
class SearchInBar implements BarPiece {

    @Override
    public Optional<Component> of(Person person) {
        return switch (person.role()) {
            case COORDINATOR, PHYSICIAN -> Optional.of(new Box());
            // Who keeps the practice's accounts sees no patient.
            case MANAGER -> Optional.empty();
        };
    }

    @StyleSheet("context://ui/search.css")
    @JavaScript("context://ui/search.js")
    private static final class Box extends Div {

        private final Input words = new Input();

        Box() {
            addClassName("lq-search");
            getElement().setAttribute("role", "search");
            words.setType("search");
            words.setPlaceholder("Search");
            words.addClassName("lq-search-words");
            words.getElement()
                    .setAttribute("aria-label", "Search names, numbers, referrers, hospitals and letters")
                    .setAttribute("aria-keyshortcuts", "/")
                    .setAttribute("title", "Search: press / from anywhere on the page")
                    .setAttribute("autocomplete", "off")
                    .setAttribute("maxlength", "200");
            words.getElement()
                    .addEventListener(
                            "keydown",
                            pressed -> search(
                                    pressed.getEventData().get("element.value").asString()))
                    .setFilter("event.key === 'Enter' && !event.isComposing")
                    .addEventData("element.value");
            addAttachListener(_ -> words.getElement()
                    .executeJs("if (location.pathname.endsWith('/search')) {"
                            + " this.value = new URLSearchParams(location.search).get('q') || ''; }"));
            add(words);
        }

        private static void search(String typed) {
            if (!typed.isBlank()) {
                UI.getCurrent()
                        .navigate(SearchView.class, new QueryParameters(Map.of("q", java.util.List.of(typed.strip()))));
            }
        }
    }
}
