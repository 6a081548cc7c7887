package limbqueue.shell;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;

/** The address without a path: leads everybody to where their work begins. */
@Route("")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
class StartView extends Div implements BeforeEnterObserver {

    private final CurrentPerson currentPerson;

    StartView(CurrentPerson currentPerson) {
        this.currentPerson = currentPerson;
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        event.forwardTo(
                switch (currentPerson.get().role()) {
                    case COORDINATOR -> "work";
                    case PHYSICIAN -> "queue";
                    case MANAGER -> "people";
                });
    }
}
