package limbqueue.access.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.Text;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Input;
import com.vaadin.flow.component.html.Main;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.NativeLabel;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.dom.Element;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.VaadinRequest;
import com.vaadin.flow.server.auth.AnonymousAllowed;
import limbqueue.access.CurrentPerson;
import limbqueue.access.SignInText;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.web.WebAttributes;

/**
 * Asks for a name and a password. A plain HTML form: it is sent as one, so that password managers know it and the
 * password never passes through the state of the page.
 */
@Route(value = "sign-in", autoLayout = false)
@PageTitle("Sign in · LimbQueue")
@AnonymousAllowed
class SignInView extends Main implements BeforeEnterObserver {

    private final CurrentPerson currentPerson;
    private final Div error = new Div();
    private final Input name = new Input();
    private final Input password = new Input();

    SignInView(CurrentPerson currentPerson, ObjectProvider<SignInText> texts) {
        this.currentPerson = currentPerson;
        addClassName("lq-sign-in");

        error.addClassName("lq-form-error");
        error.setId("sign-in-error");
        error.getElement().setAttribute("role", "alert");
        error.setVisible(false);

        field(name, "username", "username");
        name.getElement().setAttribute("autocapitalize", "none");
        name.getElement().setAttribute("autofocus", true);
        field(password, "password", "current-password");
        password.setType("password");

        var signIn = new NativeButton("Sign in");
        signIn.getElement().setAttribute("type", "submit");
        signIn.addClassName("lq-primary");

        var form = new Element("form");
        form.setAttribute("method", "post");
        form.setAttribute("action", "sign-in");
        append(form, error, label("Sign-in name", name), name, label("Password", password), password, signIn);

        var card = new Div();
        card.addClassName("lq-sign-in-card");
        card.add(
                new H1("LimbQueue"),
                new Paragraph(
                        "Every referral for a blocked leg artery in one queue: graded, checked for what is missing,"
                                + " and put before the physician in the order of its urgency."));
        card.getElement().appendChild(form);
        texts.orderedStream().forEach(text -> {
            var about = new Span("About every result: ");
            about.addClassName("lq-strong");
            var notice = new Paragraph(about, new Text(text.notice()));
            notice.addClassName("lq-notice");
            card.add(notice);
        });
        add(card);
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        if (currentPerson.find().isPresent()) {
            event.forwardTo("");
            return;
        }
        if (event.getLocation().getQueryParameters().getParameters().containsKey("error")) {
            error.setText(whatWasWrong());
            error.setVisible(true);
            name.getElement().setAttribute("aria-describedby", "sign-in-error");
            password.getElement().setAttribute("aria-describedby", "sign-in-error");
        }
    }

    private static String whatWasWrong() {
        var session = VaadinRequest.getCurrent().getWrappedSession(false);
        if (session != null
                && session.getAttribute(WebAttributes.AUTHENTICATION_EXCEPTION) instanceof LockedException wait) {
            return String.valueOf(wait.getMessage());
        }
        return "That name and password don't go together. Try again, or ask your manager to reset the password.";
    }

    private static void field(Input input, String name, String autocomplete) {
        input.setId("sign-in-" + name);
        input.getElement().setAttribute("name", name);
        input.getElement().setAttribute("autocomplete", autocomplete);
        input.getElement().setAttribute("required", true);
    }

    private static NativeLabel label(String text, Input input) {
        var label = new NativeLabel(text);
        label.setFor(input);
        return label;
    }

    private static void append(Element form, Component... children) {
        for (var child : children) {
            form.appendChild(child.getElement());
        }
    }
}
