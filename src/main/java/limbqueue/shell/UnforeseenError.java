package limbqueue.shell;

import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.ErrorParameter;
import com.vaadin.flow.router.HasErrorParameter;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.ParentLayout;
import com.vaadin.flow.server.HttpStatusCode;
import com.vaadin.flow.server.auth.AnonymousAllowed;

/** Shown when opening a page failed for a reason nobody foresaw. */
@ParentLayout(MainLayout.class)
@PageTitle("Something went wrong · LimbQueue")
@AnonymousAllowed
class UnforeseenError extends ErrorPage implements HasErrorParameter<Exception> {

    @Override
    public int setErrorParameter(BeforeEnterEvent event, ErrorParameter<Exception> error) {
        var incident = Incident.log(error.getCaughtException());
        return say(
                HttpStatusCode.INTERNAL_SERVER_ERROR.getCode(), "This page could not be opened", incident.sentence());
    }
}
