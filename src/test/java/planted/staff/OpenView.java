package planted.staff;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.router.Route;

/** Breaks: a view that asks for no role. Its route is registered nowhere, since it lies outside the application. */
@Route("planted-open")
class OpenView extends Div {

    private static final long serialVersionUID = 1L;
}
