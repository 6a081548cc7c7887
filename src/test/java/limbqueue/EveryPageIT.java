package limbqueue;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ReducedMotion;
import com.vaadin.flow.router.RouteConfiguration;
import com.vaadin.flow.router.RouteData;
import com.vaadin.flow.server.VaadinServletContext;
import com.vaadin.flow.server.startup.ApplicationRouteRegistry;
import jakarta.annotation.security.RolesAllowed;
import jakarta.servlet.ServletContext;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.ActingAs;
import limbqueue.access.Role;
import limbqueue.practice.DemoRequested;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import limbqueue.timetable.Sessions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Every page, for everybody who may open it: accessible by the Web Content Accessibility Guidelines 2.2, levels A and AA,
 * as far as axe can tell; with a visible focus everywhere (success criterion 2.4.7); and without scrolling sideways when
 * zoomed to 200 % (1.4.4, 1.4.10) or on a tablet held upright.
 */
@InBrowser
class EveryPageIT {

    /** A window of 1440 by 900 zoomed to 200 %, a tablet held upright, and the narrowest window of an office. */
    private static final List<Size> SIZES = List.of(new Size(720, 450), new Size(768, 1024), new Size(1024, 768));

    private static final List<Role> WHO_DOES_MOST = List.of(Role.COORDINATOR, Role.PHYSICIAN, Role.MANAGER);

    private record Size(int width, int height) {}

    @Autowired
    private ServletContext servletContext;

    @Autowired
    private ApplicationEventPublisher events;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Sessions sessions;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;

    @BeforeEach
    void thePracticeIsAtWork() {
        staff = new Staff(actingAs);
        if (staff.as("coordinator", referrals::worklist).isEmpty()) {
            actingAs.person(
                    "coordinator",
                    () -> transaction.executeWithoutResult(_ -> events.publishEvent(
                            new DemoRequested(Path.of("demo-referrals"), "coordinator", "physician"))));
        }
    }

    /** Each page as the one sees it who may do most there. */
    @ParameterizedTest
    @EnumSource(Role.class)
    void everyPageCanBeUsed(Role role, Visitor somebody) {
        somebody.signIn(role.name().toLowerCase(Locale.ROOT));
        var problems = new ArrayList<String>();
        var places = places(role);
        assertThat(places).as("pages for a %s", role.word()).hasSizeGreaterThan(1);
        for (var place : places) {
            somebody.open(place);
            if (somebody.heading("There is nothing at this address").count() > 0) {
                problems.add(place + ": no page; say in this test what stands for its parameters");
                continue;
            }
            if (somebody.heading("This page could not be opened").count() > 0) {
                problems.add(place + ": could not be opened");
                continue;
            }
            check(somebody, place).forEach(problem -> problems.add(place + ": " + problem));
        }
        assertThat(problems).isEmpty();
    }

    @Test
    void thePageToSignInCanBeUsedByEverybody(Visitor somebody) {
        somebody.open("sign-in");
        assertThat(check(somebody, "sign-in")).isEmpty();
    }

    @Test
    void whatIsPlantedIsFound(Visitor somebody) {
        somebody.open("sign-in");
        somebody.page().evaluate("""
                () => {
                  const style = document.createElement('style');
                  style.textContent = '.planted, .planted:focus-visible { outline: none; box-shadow: none; }'
                    + ' .planted button { width: 9px; height: 9px; padding: 0; border: 0; outline: none !important; }'
                    + ' .wide { width: 3000px; } .moving { animation: 5s move infinite !important; }'
                    + ' @keyframes move { to { transform: translateX(9px) } }';
                  const planted = document.createElement('div');
                  planted.className = 'planted';
                  planted.innerHTML = '<button aria-label="one"></button><button aria-label="two"></button>'
                    + '<div class="wide">wide</div><p class="moving">moving</p>';
                  document.querySelector('main').append(style, planted);
                }""");
        assertThat(check(somebody, "planted"))
                .anyMatch(line -> line.startsWith("target-size"))
                .anyMatch(line -> line.startsWith("no visible focus") && line.contains("button"))
                .anyMatch(line -> line.startsWith("720 wide") && line.contains("scrolls sideways"))
                .anyMatch(line -> line.startsWith("moves") && line.contains("moving"));
    }

    private Set<String> places(Role role) {
        var places = new LinkedHashSet<String>();
        var registry = ApplicationRouteRegistry.getInstance(new VaadinServletContext(servletContext));
        for (var route : RouteConfiguration.forRegistry(registry).getAvailableRoutes()) {
            // The address without a path only leads on; the page of the tests fails on purpose.
            if (!route.getTemplate().isEmpty() && !route.getTemplate().startsWith("failing/") && mayOpen(role, route)) {
                places.addAll(addresses(route.getTemplate()));
            }
        }
        return places;
    }

    /** Whether this role is the first, of those who do most, to whom the page is open. */
    private static boolean mayOpen(Role role, RouteData route) {
        return Optional.ofNullable(route.getNavigationTarget().getAnnotation(RolesAllowed.class))
                .flatMap(allowed -> WHO_DOES_MOST.stream()
                        .filter(one -> Arrays.asList(allowed.value()).contains(one.name()))
                        .findFirst())
                .filter(role::equals)
                .isPresent();
    }

    /** A page about a referral is looked at for one in each state, what is done with it for those it is done with. */
    private List<String> addresses(String template) {
        if (!template.contains(":")) {
            return List.of(template);
        }
        if (template.equals("intake/csv/:id?")) {
            return List.of("intake/csv");
        }
        if (template.equals("sessions/day/:date")) {
            return List.of("sessions/day/" + staff.as("coordinator", referrals::today));
        }
        if (template.equals("sessions/letter/:appointment")) {
            return staff.as("coordinator", sessions::toCome).stream()
                    .flatMap(session -> session.patients().stream())
                    .limit(1)
                    .map(placed -> "sessions/letter/" + placed.id())
                    .toList();
        }
        var lines = staff.as("coordinator", referrals::worklist);
        if (template.equals("same-patient/:one/:other")) {
            return List.of(
                    "same-patient/" + lines.get(0).id() + "/" + lines.get(1).id());
        }
        // The page to fill in is open as long as nothing was decided, that of the case afterwards.
        var state = template.endsWith("/edit")
                ? ReferralState.DRAFT
                : template.matches("referrals/:[^/]+/(preparation|chasing)")
                        ? ReferralState.APPROVED
                        : ReferralState.QUEUED;
        return lines.stream()
                .filter(line -> line.state() == state)
                .limit(1)
                .map(line -> template.replaceFirst(":[^/]+", String.valueOf(line.id())))
                .toList();
    }

    private static List<String> check(Visitor visitor, String place) {
        var page = visitor.page();
        var problems = new ArrayList<>(visitor.accessibilityViolations());
        page.keyboard().press("Tab");
        problems.addAll(told(page, NO_VISIBLE_FOCUS).stream()
                .map(element -> "no visible focus on " + element)
                .toList());
        page.emulateMedia(new Page.EmulateMediaOptions().setReducedMotion(ReducedMotion.REDUCE));
        problems.addAll(told(page, MOVING).stream()
                .map(element -> "moves though less motion is asked for: " + element)
                .toList());
        page.emulateMedia(new Page.EmulateMediaOptions().setReducedMotion(ReducedMotion.NO_PREFERENCE));
        for (var size : SIZES) {
            page.setViewportSize(size.width(), size.height());
            visitor.rest();
            problems.addAll(told(page, SIDEWAYS).stream()
                    .map(what -> size.width() + " wide: " + what)
                    .toList());
            page.screenshot(new Page.ScreenshotOptions()
                    .setPath(Path.of(
                            "target/pictures/every-page",
                            place.replaceAll("[^a-z0-9-]+", "-") + "-" + size.width() + ".png")));
        }
        page.setViewportSize(1440, 900);
        visitor.rest();
        return problems;
    }

    private static List<String> told(Page page, String script) {
        return ((List<?>) page.evaluate(DEEP + script))
                .stream().map(String::valueOf).distinct().toList();
    }

    /** All elements of the page, those within components too, and how one of them is called here. */
    private static final String DEEP = """
            () => {
              const all = (root) => [...root.querySelectorAll("*")].flatMap(
                (element) => [element, ...(element.shadowRoot ? all(element.shadowRoot) : [])]);
              const up = (element) => element.assignedSlot ?? element.parentElement ?? element.getRootNode().host;
              const name = (element) => {
                const host = element.getRootNode().host;
                return (host ? host.tagName.toLowerCase() + ">" : "") + element.tagName.toLowerCase()
                  + (element.id ? "#" + element.id : "")
                  + (typeof element.className === "string" && element.className
                    ? "." + element.className.trim().replace(/\\s+/g, ".") : "")
                  + " “" + (element.getAttribute("aria-label") ?? element.textContent ?? "").trim().slice(0, 40) + "”";
              };
            """;

    private static final String NO_VISIBLE_FOCUS = """
              const settled = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds));
              const chain = (element) => {
                /* What has the focus in a drawing may be ringed by a line of its own. */
                const around = [element, element.nextElementSibling, ...(element.ownerSVGElement?.querySelectorAll("*") ?? [])];
                for (let at = up(element), steps = 0; at && steps < 5; at = up(at), steps++) {
                  around.push(at);
                  if (at.shadowRoot) {
                    around.push(...at.shadowRoot.querySelectorAll("[part]"));
                  }
                }
                return around.filter(Boolean);
              };
              /* A ring around the element itself, or around what stands for it: seen at once. */
              const ringed = (element) => [element, element.nextElementSibling].some((at) => {
                const style = at && getComputedStyle(at);
                return style && style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
              });
              const look = (elements) => elements.flatMap((element) => ["", "::before", "::after"].map((pseudo) => {
                const style = getComputedStyle(element, pseudo || undefined);
                const outline = style.outlineStyle === "none" || parseFloat(style.outlineWidth) === 0
                  ? "" : style.outlineStyle + style.outlineWidth + style.outlineColor;
                return [outline, style.boxShadow, style.borderTopColor + style.borderTopWidth, style.backgroundColor,
                  style.opacity, style.stroke, style.strokeOpacity, style.fill, element.classList?.contains("lq-skip") ? style.left : ""].join("|");
              })).join("\\n");
              const wanted = "a[href], button, input, select, textarea, summary, [tabindex]";
              return (async () => {
                const lacking = [];
                for (const element of all(document)) {
                  if (!element.matches(wanted) || element.tabIndex < 0 || element.disabled
                      || element.getClientRects().length === 0
                      || getComputedStyle(element).visibility === "hidden" || element.closest("[inert]")) {
                    continue;
                  }
                  document.activeElement?.blur?.();
                  const rung = ringed(element);
                  element.focus({ focusVisible: true, preventScroll: true });
                  if (element.getRootNode().activeElement !== element || (!rung && ringed(element))) {
                    continue;
                  }
                  element.blur();
                  const around = chain(element);
                  const before = look(around);
                  element.focus({ focusVisible: true, preventScroll: true });
                  /* What fades in is seen a little later. */
                  if (look(around) === before) {
                    await settled(80);
                    if (look(around) === before) {
                      lacking.push(name(element));
                    }
                  }
                }
                return lacking;
              })();
            }""";

    private static final String MOVING = """
              return all(document).filter((element) => {
                const style = getComputedStyle(element);
                const longest = (times) => Math.max(...times.split(",").map(parseFloat));
                const moves = style.animationName !== "none" && longest(style.animationDuration) > 0.05
                  && element.getAnimations().some((animation) => animation.playState === "running");
                const glides = !element.getRootNode().host && longest(style.transitionDuration) > 0.05;
                return moves || glides || style.scrollBehavior === "smooth";
              }).map(name);
            }""";

    private static final String SIDEWAYS = """
              const found = [];
              const page = document.scrollingElement;
              const wide = innerWidth + 1;
              if (page.scrollWidth > page.clientWidth + 1) {
                found.push("the page scrolls sideways: " + page.scrollWidth);
              }
              for (const element of all(document.body)) {
                const box = element.getBoundingClientRect();
                const holdsText = [...element.childNodes].some(
                  (node) => node.nodeType === Node.TEXT_NODE && node.textContent.trim() !== "");
                if (!(holdsText || element.matches("input, button, select, textarea")) || box.width < 2 || box.height < 2
                    || box.right <= 0 || box.right <= wide
                    || getComputedStyle(element).visibility === "hidden") {
                  continue;
                }
                let scrolls = false;
                for (let at = up(element); at; at = up(at)) {
                  scrolls ||= ["auto", "scroll"].includes(getComputedStyle(at).overflowX);
                }
                if (!scrolls) {
                  found.push("cut off at the right: " + name(element));
                }
              }
              return found;
            }""";
}
