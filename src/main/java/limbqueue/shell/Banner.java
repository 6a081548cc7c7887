package limbqueue.shell;

import com.vaadin.flow.component.Component;
import java.util.Optional;
import limbqueue.access.Person;

/** What a module has to say across every page, under the bar, because it cannot wait for the page on which it belongs. */
public interface Banner {

    /** The banner for this person, made anew for each open window; empty for somebody whom it never concerns. */
    Optional<Component> of(Person person);
}
