package limbqueue.shell;

import com.vaadin.flow.router.AccessDeniedException;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.ErrorParameter;
import com.vaadin.flow.router.HasErrorParameter;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.ParentLayout;
import com.vaadin.flow.server.HttpStatusCode;
import com.vaadin.flow.server.auth.AnonymousAllowed;

/** Shown for a view that the person's role may not open. */
@ParentLayout(MainLayout.class)
@PageTitle("Not for your role · LimbQueue")
@AnonymousAllowed
class NotAllowed extends ErrorPage implements HasErrorParameter<AccessDeniedException> {

    static final String TITLE = "This page is not for your role";
    static final String EXPLANATION =
            "You are signed in, but your role may not open this page. If you need it, ask your manager.";

    @Override
    public int setErrorParameter(BeforeEnterEvent event, ErrorParameter<AccessDeniedException> error) {
        return say(HttpStatusCode.FORBIDDEN.getCode(), TITLE, EXPLANATION);
    }
}
