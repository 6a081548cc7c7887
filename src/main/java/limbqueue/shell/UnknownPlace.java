package limbqueue.shell;

import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.ErrorParameter;
import com.vaadin.flow.router.HasErrorParameter;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.ParentLayout;
import com.vaadin.flow.server.HttpStatusCode;
import com.vaadin.flow.server.auth.AnonymousAllowed;

/** Shown for an address that leads nowhere. */
@ParentLayout(MainLayout.class)
@PageTitle("Nothing here · LimbQueue")
@AnonymousAllowed
class UnknownPlace extends ErrorPage implements HasErrorParameter<NotFoundException> {

    @Override
    public int setErrorParameter(BeforeEnterEvent event, ErrorParameter<NotFoundException> error) {
        var told = error.getCustomMessage();
        return say(
                HttpStatusCode.NOT_FOUND.getCode(),
                "There is nothing at this address",
                told == null || told.isBlank()
                        ? "The address may be mistyped, or what stood here is gone. Nothing was changed."
                        : told);
    }
}
