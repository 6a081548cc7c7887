package limbqueue.testbed;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A person in front of a browser of their own, 1440 by 900 unless told otherwise. */
public final class Visitor implements AutoCloseable {

    /** True in the page once the application is there and no request of it is on its way. */
    private static final String AT_REST = """
            () => {
              const clients = window.Vaadin?.Flow?.clients;
              return clients
                && Object.values(clients).some(client => client.isActive)
                && Object.values(clients).every(client => !client.isActive || !client.isActive());
            }""";

    /** Those of the guidelines up to version 2.2, and what axe holds for good practice. */
    private static final List<String> RULES =
            List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice");

    private final String address;
    private final Runnable ending;
    private final Page page;
    private final List<String> scriptErrors = new ArrayList<>();

    Visitor(Browser browser, String address) {
        this(browser, address, browser::close);
    }

    private Visitor(Browser browser, String address, Runnable ending) {
        this.address = address;
        this.ending = ending;
        var context = browser.newContext(
                new Browser.NewContextOptions().setViewportSize(1440, 900).setLocale("en-GB"));
        page = context.newPage();
        page.onPageError(scriptErrors::add);
    }

    /** A visitor of an application that runs as a process of its own, at this address. */
    public static Visitor of(String address) {
        var chromium = new Chromium();
        return new Visitor(chromium.launch(), address, chromium::close);
    }

    public Page page() {
        return page;
    }

    /** Opens a path of the application, as {@code people}, and waits until the page is at rest. */
    public Visitor open(String path) {
        page.navigate(address + path);
        return rest();
    }

    /** Waits until the page has shown what the last action led to. */
    public Visitor rest() {
        page.waitForLoadState();
        page.waitForFunction(AT_REST);
        return this;
    }

    /** Signs in as one of the people of the test database and waits for the start page. */
    public Visitor signIn(String name) {
        return signIn(name, TestDatabase.PASSWORD);
    }

    public Visitor signIn(String name, String password) {
        sendSignIn(name, password);
        // The address without a path only leads on.
        page.waitForURL(url -> !url.endsWith("/sign-in") && !url.equals(address));
        return rest();
    }

    /** Tries to sign in with what is not accepted. */
    public Visitor signInExpectingRefusal(String name, String password) {
        sendSignIn(name, password);
        page.waitForURL("**/sign-in?error");
        return rest();
    }

    /** Signs in on the page that is open now, to which the visitor was led. */
    public Visitor signInHere(String name) {
        fillSignIn(name, TestDatabase.PASSWORD);
        // The address without a path only leads on.
        page.waitForURL(url -> !url.endsWith("/sign-in") && !url.equals(address));
        return rest();
    }

    private void sendSignIn(String name, String password) {
        open("sign-in");
        fillSignIn(name, password);
    }

    private void fillSignIn(String name, String password) {
        page.getByLabel("Sign-in name").fill(name);
        page.getByLabel("Password").fill(password);
        button("Sign in").click();
    }

    /**
     * The entry of the open list of choices, once it has the focus: a key pressed before is lost.
     *
     * @param at from 1
     */
    public Locator focusedEntry(int at) {
        return page.locator("vaadin-select-item:focus:nth-of-type(" + at + ")");
    }

    public Locator button(String name) {
        return page.getByRole(
                AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name).setExact(true));
    }

    /** The field with exactly this label. */
    public Locator field(String label) {
        return page.getByLabel(label, new Page.GetByLabelOptions().setExact(true));
    }

    public Locator heading(String name) {
        return page.getByRole(AriaRole.HEADING, new Page.GetByRoleOptions().setName(name));
    }

    /** The last part of the address, as {@code people}. */
    public String place() {
        return page.url().substring(address.length());
    }

    /** What axe finds wrong with the page, one line each; empty if nothing. */
    public List<String> accessibilityViolations() {
        return new AxeBuilder(page)
                        // Vaadin's own line for screen readers, present while a request takes long; it belongs to no
                        // landmark.
                        .exclude(".v-status-message")
                        .withTags(RULES)
                        .analyze()
                        .getViolations()
                        .stream()
                        .map(rule -> rule.getId() + ": " + rule.getHelp() + " at "
                                + rule.getNodes().stream()
                                        .map(node -> String.valueOf(node.getTarget()))
                                        .toList())
                        .toList();
    }

    /** Keeps a picture of the whole window in {@code file}, at the given width. */
    public void picture(Path file, int width) {
        page.setViewportSize(width, 900);
        rest();
        page.screenshot(new Page.ScreenshotOptions().setPath(file));
        page.setViewportSize(1440, 900);
    }

    @Override
    public void close() {
        ending.run();
        if (!scriptErrors.isEmpty()) {
            throw new AssertionError("the page's scripts failed: " + scriptErrors);
        }
    }
}
