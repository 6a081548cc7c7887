package limbqueue.start;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.reflect.InvocationTargetException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import java.util.regex.Pattern;

/**
 * The first class of the jar. It is compiled for Java 17, so that an older Java than the one needed can load it, look for a
 * newer one on this machine and run the same command line there. It knows the rest of the jar by name only: to load it
 * here would be too early.
 */
public final class Start {

    /** The oldest Java that runs the rest of the jar. */
    static final int WANTED = 25;

    /** Set for a Java started from here: the process that waits for it, and that it must not outlive. */
    static final String WAITING = "limbqueue.waiting-process";

    /** From about a thousand referrals on. */
    private static final long LONG_RUN_BYTES = 2_000_000;

    private static final String APPLICATION = "limbqueue.Application";
    private static final String LAUNCHER = "org.springframework.boot.loader.launch.JarLauncher";
    private static final String COMMANDS = "limbqueue.command.Commands";
    private static final Pattern FEATURE = Pattern.compile("\"?(\\d+)");

    /** Folders that hold one Java each, or are one; a star stands for every name. The script mvnw looks in the same. */
    static final List<String> USUAL_FOLDERS = List.of(
            "/usr/lib/jvm/*",
            "/usr/java/*",
            "/opt/jdk*",
            "/opt/java/*",
            "/opt/*/jdk*",
            "~/.jdks/*",
            "~/.sdkman/candidates/java/*",
            "/Library/Java/JavaVirtualMachines/*/Contents/Home");

    private Start() {}

    /**
     * Without arguments, or with settings as {@code --server.port=8081}, starts the application; a word first is a command.
     */
    public static void main(String[] args) throws IOException, InterruptedException, ReflectiveOperationException {
        lead(Runtime.version().feature(), USUAL_FOLDERS, args);
    }

    /**
     * What {@link #main} does on a Java of this feature version.
     *
     * @param folders where to look for a newer Java
     */
    static void lead(int feature, List<String> folders, String[] args)
            throws IOException, InterruptedException, ReflectiveOperationException {
        if (feature < WANTED) {
            var newer = findJava(folders);
            if (newer.isEmpty()) {
                System.err.println("limbqueue: this is Java " + feature + ", Java " + WANTED
                        + " or later is needed and was not found: install it (for example the package temurin-" + WANTED
                        + "-jdk or openjdk-" + WANTED + "-jre), or point JAVA_HOME at it.");
                System.exit(1);
            }
            System.exit(runOn(newer.get(), args));
        }
        endWithWhoWaits();
        if (isCommand(args)) {
            var home = Path.of(System.getProperty("java.home"));
            if (worthAnotherStart(givenOptions(), args) && featureOf(home) >= WANTED) {
                System.exit(runOn(home, args));
            }
            runCommand(args);
        } else {
            // In the jar this class lies outside of what the launcher unpacks, so the launcher must lead on from here.
            run(isJar() ? LAUNCHER : APPLICATION, Start.class.getClassLoader(), args);
        }
    }

    private static boolean isCommand(String[] args) {
        return args.length > 0 && !args[0].startsWith("--");
    }

    private static boolean isJar() {
        return Start.class.getClassLoader().getResource("BOOT-INF/classpath.idx") != null;
    }

    private static void runCommand(String[] args) throws IOException, ReflectiveOperationException {
        if (!muchToRead(args)) {
            // Each accessor made for reflection costs a class; a short command ends before one has paid for itself.
            System.setProperty("jdk.reflect.useNativeAccessorOnly", "true");
        }
        var loader =
                isJar() ? new JarLoader(Path.of(System.getProperty("java.class.path"))) : Start.class.getClassLoader();
        Thread.currentThread().setContextClassLoader(loader);
        run(COMMANDS, loader, args);
    }

    private static void run(String mainClass, ClassLoader loader, String[] args) throws ReflectiveOperationException {
        try {
            Class.forName(mainClass, true, loader)
                    .getMethod("main", String[].class)
                    .invoke(null, (Object) args);
        } catch (InvocationTargetException thrown) {
            if (thrown.getCause() instanceof RuntimeException unchecked) {
                throw unchecked;
            }
            if (thrown.getCause() instanceof Error error) {
                throw error;
            }
            throw thrown;
        }
    }

    /** Runs the command line of this process on the Java of this folder, and returns its exit status. */
    private static int runOn(Path javaHome, String[] args) throws IOException, InterruptedException {
        var command = new ArrayList<String>();
        command.add(javaHome.resolve("bin").resolve("java").toString());
        command.addAll(givenOptions());
        command.addAll(optionsFor(givenOptions(), args));
        command.add("-D" + WAITING + "=" + ProcessHandle.current().pid());
        var classPath = System.getProperty("java.class.path");
        if (classPath.endsWith(".jar") && !classPath.contains(File.pathSeparator)) {
            command.add("-jar");
            command.add(classPath);
        } else {
            command.addAll(List.of("-cp", classPath, Start.class.getName()));
        }
        command.addAll(Arrays.asList(args));
        var child = new ProcessBuilder(command).inheritIO().start();
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            child.destroy();
            try {
                child.waitFor();
            } catch (InterruptedException interrupted) {
                Thread.currentThread().interrupt();
            }
        }));
        return child.waitFor();
    }

    private static List<String> givenOptions() {
        return ManagementFactory.getRuntimeMXBean().getInputArguments();
    }

    /**
     * The options of Java under which a command ends soonest. The code of a triage is much, and none of it runs often: the
     * optimising compiler takes longer over it than it saves in twenty thousand referrals. Whoever gave options of
     * this kind keeps to them.
     */
    static List<String> optionsFor(List<String> given, String[] args) {
        var chosen = given.stream().anyMatch(option -> option.startsWith("-XX:"));
        return isCommand(args) && !chosen && (isTriage(args) || !muchToRead(args))
                ? List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC")
                : List.of();
    }

    /**
     * Whether a run is so long that starting Java once more, with the options for it, takes less time than it saves. Options
     * other than properties and sizes of memory may not be given twice, as the port of a debugger.
     */
    static boolean worthAnotherStart(List<String> given, String[] args) {
        return isTriage(args)
                && System.getProperty(WAITING) == null
                && given.stream().allMatch(option -> option.startsWith("-D") || option.startsWith("-Xm"))
                && muchToRead(args);
    }

    private static boolean isTriage(String[] args) {
        return args.length > 0 && args[0].equals("triage");
    }

    /** Whether the files and folders that a command is given hold so much that it takes longer than a moment. */
    static boolean muchToRead(String[] args) {
        var left = LONG_RUN_BYTES;
        for (var arg : args) {
            try (var files = Files.walk(Path.of(arg))) {
                for (var file : (Iterable<Path>) files::iterator) {
                    left -= Files.isRegularFile(file) ? Files.size(file) : 0;
                    if (left < 0) {
                        return true;
                    }
                }
            } catch (IOException | UncheckedIOException | InvalidPathException notReadable) {
                // No file, or none that may be read: the command itself says so.
            }
        }
        return false;
    }

    /** Ends this process when the one that waits for it is killed, as it would have been had it been that process. */
    private static void endWithWhoWaits() {
        var waiting = Long.getLong(WAITING);
        if (waiting != null) {
            ProcessHandle.of(waiting).ifPresent(process -> {
                var unused = process.onExit().thenRun(() -> System.exit(1));
            });
        }
    }

    private static Optional<Path> findJava(List<String> folders) throws IOException {
        var candidates = new ArrayList<Path>();
        var javaHome = System.getenv("JAVA_HOME");
        if (javaHome != null && !javaHome.isBlank()) {
            candidates.add(Path.of(javaHome));
        }
        for (var pattern : folders) {
            candidates.addAll(matching(pattern.replaceFirst("^~", System.getProperty("user.home"))));
        }
        for (var candidate : candidates) {
            if (featureOf(candidate) >= WANTED) {
                return Optional.of(candidate);
            }
        }
        return Optional.empty();
    }

    /** The folders that match {@code pattern}, in the order of their names. */
    private static List<Path> matching(String pattern) throws IOException {
        var found = List.of(Path.of("/"));
        for (var name : Path.of(pattern)) {
            var next = new ArrayList<Path>();
            for (var folder : found) {
                if (!name.toString().contains("*")) {
                    next.add(folder.resolve(name));
                } else if (Files.isReadable(folder) && Files.isDirectory(folder)) {
                    try (var entries = Files.newDirectoryStream(folder, name.toString())) {
                        entries.forEach(next::add);
                    }
                }
            }
            next.sort(null);
            found = next;
        }
        return found;
    }

    /** The feature version (17, 25, …) of the Java in {@code home}, or 0 if there is none. */
    static int featureOf(Path home) {
        if (!Files.isExecutable(home.resolve("bin").resolve("java"))
                && !Files.isExecutable(home.resolve("bin").resolve("java.exe"))) {
            return 0;
        }
        var release = new Properties();
        try (var lines = Files.newBufferedReader(home.resolve("release"))) {
            release.load(lines);
        } catch (IOException | IllegalArgumentException unreadable) {
            return 0;
        }
        var version = FEATURE.matcher(release.getProperty("JAVA_VERSION", ""));
        return version.lookingAt() ? Integer.parseInt(version.group(1)) : 0;
    }
}
