package planted.staff;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;

/** Breaks: a view that anybody may build. */
@Route("planted-public")
@RolesAllowed("MANAGER")
public class PublicView extends Div {

    private static final long serialVersionUID = 1L;
}
