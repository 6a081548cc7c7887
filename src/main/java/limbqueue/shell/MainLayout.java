package limbqueue.shell;

import com.vaadin.flow.component.HasElement;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Header;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Main;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Nav;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.router.AfterNavigationEvent;
import com.vaadin.flow.router.AfterNavigationObserver;
import com.vaadin.flow.router.Layout;
import com.vaadin.flow.router.RouterLayout;
import com.vaadin.flow.server.auth.AnonymousAllowed;
import com.vaadin.flow.server.menu.MenuConfiguration;
import com.vaadin.flow.spring.security.AuthenticationContext;
import java.util.LinkedHashMap;
import java.util.Map;
import limbqueue.access.CurrentPerson;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;

/**
 * The frame of every page: a slim bar with the practice, the places this person may go, and who is signed in.
 *
 * <p>A view appears in the bar when it carries {@link com.vaadin.flow.router.Menu} and the person's role may open it;
 * nothing else needs to be told about it. Whether the frame may be seen is decided by the view inside.
 */
@Layout
@AnonymousAllowed
class MainLayout extends Div implements RouterLayout, AfterNavigationObserver {

    private final Main content = new Main();
    private final Map<String, Anchor> places = new LinkedHashMap<>();
    private @Nullable HasElement shown;

    MainLayout(
            CurrentPerson currentPerson,
            AuthenticationContext authentication,
            ObjectProvider<PracticeName> names,
            ObjectProvider<BarPiece> pieces,
            ObjectProvider<Banner> banners) {
        addClassName("lq-frame");
        content.setId("content");
        content.getElement().setAttribute("tabindex", "-1");

        var skip = new Anchor("#content", "Skip to the page");
        skip.addClassName("lq-skip");
        skip.getElement().setAttribute("router-ignore", true);

        var product = new Anchor("", "LimbQueue");
        product.addClassName("lq-product");
        var practice = new Span(
                names.stream().map(PracticeName::practiceName).findFirst().orElse(""));
        practice.addClassName("lq-practice");

        var bar = new Header(product, practice, navigation());
        bar.addClassName("lq-bar");
        currentPerson.find().ifPresent(person -> {
            pieces.orderedStream().flatMap(piece -> piece.of(person).stream()).forEach(bar::add);
            var who = new Anchor("password", person.displayName());
            who.setTitle("Change your password");
            who.addClassName("lq-who");
            var role = new Span(person.role().word());
            role.addClassName("lq-role");
            var signOut = new NativeButton("Sign out", click -> signOut(authentication));
            signOut.addClassName("lq-sign-out");
            var personal = new Div(who, role, signOut);
            personal.addClassName("lq-person");
            bar.add(personal);
        });
        add(skip, bar);
        currentPerson
                .find()
                .ifPresent(person -> banners.orderedStream()
                        .flatMap(banner -> banner.of(person).stream())
                        .forEach(this::add));
        add(content);
    }

    /** The page on show saves first what was typed on it. */
    private void signOut(AuthenticationContext authentication) {
        if (!(shown instanceof KeepsWhatIsTyped page) || page.keep()) {
            authentication.logout();
        }
    }

    private Nav navigation() {
        var list = new UnorderedList();
        for (var entry : MenuConfiguration.getMenuEntries()) {
            var path = entry.path().startsWith("/") ? entry.path().substring(1) : entry.path();
            var place = new Anchor(path, entry.title());
            places.put(path, place);
            list.add(new ListItem(place));
        }
        var nav = new Nav(list);
        nav.setAriaLabel("Places");
        return nav;
    }

    @Override
    public void afterNavigation(AfterNavigationEvent event) {
        var here = event.getLocation().getPath();
        places.forEach((path, place) -> {
            if (here.equals(path) || here.startsWith(path + "/")) {
                place.getElement().setAttribute("aria-current", "page");
            } else {
                place.getElement().removeAttribute("aria-current");
            }
        });
    }

    @Override
    public void showRouterLayoutContent(@Nullable HasElement view) {
        shown = view;
        if (view != null) {
            content.removeAll();
            content.getElement().appendChild(view.getElement());
            // A page opened from halfway down another begins at its own top.
            content.getElement().executeJs("window.scrollTo(0, 0)");
        }
    }

    @Override
    public void removeRouterLayoutContent(@Nullable HasElement view) {
        content.removeAll();
    }
}
