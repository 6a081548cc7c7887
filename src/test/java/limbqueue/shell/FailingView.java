package limbqueue.shell;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.router.BeforeEvent;
import com.vaadin.flow.router.HasUrlParameter;
import com.vaadin.flow.router.OptionalParameter;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.Role;
import org.jspecify.annotations.Nullable;

/** Fails when it is opened with a word, and otherwise when its button is pressed. */
@Route("failing")
@RolesAllowed(Role.IS_MANAGER)
class FailingView extends Div implements HasUrlParameter<String> {

    private static final long serialVersionUID = 1L;

    static final String SECRET = "the-inner-reason";

    FailingView() {
        add(new Button("Fail", click -> {
            throw new IllegalStateException(SECRET);
        }));
    }

    @Override
    public void setParameter(BeforeEvent event, @OptionalParameter @Nullable String word) {
        if (word != null) {
            throw new IllegalStateException(SECRET);
        }
    }
}
