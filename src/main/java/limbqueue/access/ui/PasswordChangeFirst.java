package limbqueue.access.ui;

import com.vaadin.flow.server.ServiceInitEvent;
import com.vaadin.flow.server.VaadinServiceInitListener;
import limbqueue.access.CurrentPerson;
import org.springframework.stereotype.Component;

/** Leads whoever signed in with a password made by somebody else to the page that replaces it, before any other. */
@Component
class PasswordChangeFirst implements VaadinServiceInitListener {

    private static final long serialVersionUID = 1L;

    private final transient CurrentPerson currentPerson;

    PasswordChangeFirst(CurrentPerson currentPerson) {
        this.currentPerson = currentPerson;
    }

    @Override
    public void serviceInit(ServiceInitEvent service) {
        service.getSource()
                .addUIInitListener(init -> init.getUI().addBeforeEnterListener(entering -> {
                    if (currentPerson.mustChangePassword() && entering.getNavigationTarget() != OwnPasswordView.class) {
                        entering.forwardTo(OwnPasswordView.class);
                    }
                }));
    }
}
