package limbqueue.opening;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.access.ActingAs;
import limbqueue.access.FirstPeople;
import limbqueue.access.Role;
import limbqueue.database.EmbeddedServer;
import limbqueue.practice.DemoRequested;
import limbqueue.practice.Practice;
import limbqueue.practice.PracticeSettings;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.ApplicationContext;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Sees to it that somebody can sign in, and says at the console where and as whom: the demo's people on an empty database of
 * our own, a manager with a generated password on any other empty database.
 */
@Component
class Opening implements ApplicationRunner {

    static final String FIRST_MANAGER = "manager";

    private final ApplicationContext context;
    private final ObjectProvider<EmbeddedServer> ownServer;
    private final Path demoFolder;
    private final FirstPeople firstPeople;
    private final ActingAs actingAs;
    private final PracticeSettings settings;
    private final ApplicationEventPublisher events;
    private final TransactionTemplate transaction;

    Opening(
            ApplicationContext context,
            ObjectProvider<EmbeddedServer> ownServer,
            @Value("${limbqueue.demo-folder}") Path demoFolder,
            FirstPeople firstPeople,
            ActingAs actingAs,
            PracticeSettings settings,
            ApplicationEventPublisher events,
            TransactionTemplate transaction) {
        this.context = context;
        this.ownServer = ownServer;
        this.demoFolder = demoFolder;
        this.firstPeople = firstPeople;
        this.actingAs = actingAs;
        this.settings = settings;
        this.events = events;
        this.transaction = transaction;
    }

    @Override
    public void run(ApplicationArguments arguments) {
        var demo = demo();
        Optional<String> generated = Optional.empty();
        if (firstPeople.nobody()) {
            if (demo.isPresent()) {
                transaction.executeWithoutResult(status -> load(demo.get()));
            } else {
                generated = Optional.of(firstPeople.addManager(FIRST_MANAGER));
            }
        }
        System.out.println(block(demo, generated));
    }

    /** The demo, where the database is our own and the folder is there. */
    private Optional<DemoFile> demo() {
        if (ownServer.getIfAvailable() == null || !Files.isRegularFile(DemoFile.in(demoFolder))) {
            return Optional.empty();
        }
        return Optional.of(DemoFile.read(demoFolder));
    }

    private void load(DemoFile demo) {
        for (var person : demo.people()) {
            firstPeople.add(person.signInName(), person.displayName(), person.role(), person.password());
        }
        actingAs.person(demo.first(Role.MANAGER), () -> {
            var given = demo.practice();
            settings.save(new Practice(
                    given.name(),
                    given.addressLines(),
                    given.phone(),
                    given.fax(),
                    given.email(),
                    given.urgentPhone(),
                    given.signatory(),
                    settings.practice().window(),
                    settings.practice().version()));
        });
        var coordinator = demo.first(Role.COORDINATOR);
        actingAs.person(
                coordinator,
                () -> events.publishEvent(new DemoRequested(demoFolder, coordinator, demo.first(Role.PHYSICIAN))));
    }

    private String block(Optional<DemoFile> demo, Optional<String> generatedPassword) {
        var lines = new ArrayList<String>();
        lines.add("LimbQueue is ready: " + address());
        generatedPassword.ifPresent(password -> {
            lines.add("Sign in as " + FIRST_MANAGER + " with the password " + password);
            lines.add("(shown this once; you choose your own when you sign in)");
        });
        var known = demo.map(DemoFile::people).orElse(List.of()).stream()
                // A changed password is nobody's business here.
                .filter(person -> firstPeople.canSignIn(person.signInName(), person.password()))
                .toList();
        if (!known.isEmpty()) {
            lines.add("Demo sign-ins (invented practice, invented patients):");
            for (var person : known) {
                lines.add("  %-12s password  %-14s %s"
                        .formatted(person.signInName(), person.password(), person.displayName()));
            }
        }
        lines.add("Stop with Ctrl+C.");
        var rule = "-".repeat(lines.stream().mapToInt(String::length).max().orElse(0));
        return "\n" + rule + "\n" + String.join("\n", lines) + "\n" + rule;
    }

    private String address() {
        var server = context instanceof WebServerApplicationContext web ? web.getWebServer() : null;
        var path = context.getEnvironment().getProperty("server.servlet.context-path", "");
        return "http://localhost:" + (server == null ? "?" : server.getPort()) + path + "/";
    }
}
