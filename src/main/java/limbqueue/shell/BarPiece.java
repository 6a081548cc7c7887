package limbqueue.shell;

import com.vaadin.flow.component.Component;
import java.util.Optional;
import limbqueue.access.Person;

/** What a module puts into the bar of every page, between the places and the person. */
public interface BarPiece {

    /** The piece for this person, made anew for each page; empty for somebody to whom it is of no use. */
    Optional<Component> of(Person person);
}
