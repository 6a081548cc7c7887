package limbqueue.shell;

import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.ErrorParameter;
import com.vaadin.flow.router.HasErrorParameter;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.ParentLayout;
import com.vaadin.flow.server.HttpStatusCode;
import com.vaadin.flow.server.auth.AnonymousAllowed;
import org.springframework.security.access.AccessDeniedException;

/** Shown when a view may be opened but what it asks of a service is not for the person's role. */
@ParentLayout(MainLayout.class)
@PageTitle("Not for your role · LimbQueue")
@AnonymousAllowed
class NotAllowedByService extends ErrorPage implements HasErrorParameter<AccessDeniedException> {

    @Override
    public int setErrorParameter(BeforeEnterEvent event, ErrorParameter<AccessDeniedException> error) {
        return say(HttpStatusCode.FORBIDDEN.getCode(), NotAllowed.TITLE, NotAllowed.EXPLANATION);
    }
}
