package limbqueue.testbed;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/** The machine's Chromium, driven through Playwright. */
final class Chromium implements AutoCloseable {

    private static final List<String> NAMES =
            List.of("chromium", "chromium-browser", "google-chrome", "google-chrome-stable");

    private final Playwright playwright;
    private final Path executable;

    Chromium() {
        executable = find().or(Chromium::install)
                .orElseThrow(() -> new IllegalStateException("The browser tests found no Chromium: install the package"
                        + " chromium, or set CHROMIUM to the path of the program."));
        playwright = Playwright.create(
                new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    }

    /** A browser process of its own: ending it ends whatever its pages are still doing. */
    Browser launch() {
        return playwright
                .chromium()
                .launch(new BrowserType.LaunchOptions()
                        .setExecutablePath(executable)
                        .setArgs(List.of(
                                "--no-sandbox",
                                "--disable-quic",
                                "--disable-background-networking",
                                "--disable-component-update",
                                "--disable-sync")));
    }

    @Override
    public void close() {
        playwright.close();
    }

    private static Optional<Path> find() {
        var candidates = new ArrayList<Path>();
        var given = System.getenv("CHROMIUM");
        if (given != null && !given.isBlank()) {
            candidates.add(Path.of(given));
        }
        for (var folder : System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator, -1)) {
            for (var name : NAMES) {
                candidates.add(Path.of(folder, name));
            }
        }
        candidates.add(Path.of("/usr/bin/chromium"));
        candidates.add(Path.of("/Applications/Google Chrome.app/Contents/MacOS/Google Chrome"));
        candidates.add(Path.of("/Applications/Chromium.app/Contents/MacOS/Chromium"));
        return candidates.stream().filter(Files::isExecutable).findFirst();
    }

    /** Installs Debian's package, where that is possible and allowed. */
    private static Optional<Path> install() {
        if (!"root".equals(System.getProperty("user.name")) || !Files.isExecutable(Path.of("/usr/bin/apt-get"))) {
            return Optional.empty();
        }
        System.err.println("The browser tests found no Chromium and install Debian's package chromium.");
        run("apt-get", "update");
        run("apt-get", "install", "-y", "--no-install-recommends", "chromium");
        return find();
    }

    private static void run(String... command) {
        try {
            var builder = new ProcessBuilder(command).inheritIO();
            builder.environment().put("DEBIAN_FRONTEND", "noninteractive");
            var process = builder.start();
            if (!process.waitFor(15, TimeUnit.MINUTES)) {
                process.destroyForcibly();
            }
        } catch (IOException failed) {
            System.err.println(String.join(" ", command) + ": " + failed.getMessage());
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}
