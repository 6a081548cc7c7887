package limbqueue.database;

import io.zonky.test.db.postgres.embedded.DefaultPostgresBinaryResolver;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.util.FileSystemUtils;
import org.tukaani.xz.XZInputStream;

/**
 * The programs of PostgreSQL, unpacked beside the data: nobody else can change them there, and nothing tidies them away as
 * it would in a folder for temporary files.
 *
 * @param home the folder with {@code bin}, {@code lib} and {@code share} in it
 * @param prefix what comes before each command, so that it does not run as root: PostgreSQL refuses to
 */
record PostgresPrograms(Path home, List<String> prefix) {

    private static final Logger LOG = LoggerFactory.getLogger(PostgresPrograms.class);

    /** The number of the person without rights, on every Linux. */
    private static final String NOBODY = "65534";

    /** Unpacks the programs into a folder of {@code parent}, if they are not there already. */
    static PostgresPrograms in(Path parent) throws IOException {
        byte[] archive;
        try (var packed = DefaultPostgresBinaryResolver.INSTANCE.getPgBinary(system(), architecture())) {
            archive = packed.readAllBytes();
        } catch (IllegalStateException none) {
            throw new CannotStartException(
                    "There is no PostgreSQL for this kind of machine in LimbQueue: install PostgreSQL 14 or later and set"
                            + " spring.datasource.url.",
                    none);
        }
        var home = parent.resolve("programs-" + digest(archive));
        if (!Files.isDirectory(home)) {
            var unpacked = parent.resolve("programs.new");
            FileSystemUtils.deleteRecursively(unpacked);
            unpack(archive, unpacked);
            // Renamed when complete, so that an interrupted start leaves no half of it under the final name.
            Files.move(unpacked, home, StandardCopyOption.ATOMIC_MOVE);
        }
        return new PostgresPrograms(home, unprivileged());
    }

    /** The command that runs {@code program} of PostgreSQL with {@code arguments}. */
    List<String> command(String program, String... arguments) {
        var command = new ArrayList<>(prefix);
        command.add(home.resolve("bin").resolve(program).toString());
        command.addAll(Arrays.asList(arguments));
        return command;
    }

    /** Hands {@code folder} to the person that the programs run as, where that is not the one who runs this process. */
    void own(Path folder) throws IOException {
        if (!prefix.isEmpty() && prefix.getFirst().equals("setpriv")) {
            run(List.of("chown", "-R", NOBODY + ":" + NOBODY, folder.toString()));
        }
    }

    /**
     * Runs a command to its end.
     *
     * @return what it wrote
     * @throws IOException if it fails; the message holds what it wrote
     */
    static String run(List<String> command) throws IOException {
        var output = Files.createTempFile("limbqueue", ".out");
        try {
            // To a file: a server started by the command keeps its output open, and reading a pipe would wait for it.
            var process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(output.toFile())
                    .start();
            if (!process.waitFor(120, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new IOException(command.getFirst() + " did not come to an end within two minutes");
            }
            var written = Files.readString(output, StandardCharsets.UTF_8).strip();
            if (process.exitValue() != 0) {
                throw new IOException(String.join(" ", command) + ": " + written);
            }
            return written;
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while waiting for " + command.getFirst(), interrupted);
        } finally {
            Files.delete(output);
        }
    }

    /** As root, PostgreSQL runs in a user namespace of its own or, where the machine forbids those, as nobody. */
    private static List<String> unprivileged() {
        if (!"root".equals(System.getProperty("user.name")) || !system().equals("Linux")) {
            return List.of();
        }
        for (var candidate : List.of(
                List.of("unshare", "-U"),
                List.of("setpriv", "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups"))) {
            var probe = new ArrayList<>(candidate);
            probe.add("true");
            try {
                run(probe);
                return candidate;
            } catch (IOException forbidden) {
                LOG.debug("{} does not work here", candidate, forbidden);
            }
        }
        throw new CannotStartException(
                "PostgreSQL refuses to run as root: start LimbQueue as another user, or set spring.datasource.url.");
    }

    private static void unpack(byte[] archive, Path target) throws IOException {
        try (var entries = new TarArchiveInputStream(new XZInputStream(new ByteArrayInputStream(archive)))) {
            for (var entry = entries.getNextEntry(); entry != null; entry = entries.getNextEntry()) {
                var file = target.resolve(entry.getName()).normalize();
                if (!file.startsWith(target)) {
                    throw new IOException("the archive of PostgreSQL leads out of its folder: " + entry.getName());
                }
                if (entry.isDirectory()) {
                    Files.createDirectories(file);
                    continue;
                }
                Files.createDirectories(file.resolveSibling("."));
                if (entry.isSymbolicLink()) {
                    Files.createSymbolicLink(file, Path.of(entry.getLinkName()));
                } else {
                    Files.copy(entries, file);
                    if (file.resolveSibling(".").normalize().endsWith("bin")
                            && !file.toFile().setExecutable(true, false)) {
                        throw new IOException("can't make " + file + " executable");
                    }
                }
            }
        }
    }

    private static String digest(byte[] archive) {
        try {
            var digest = MessageDigest.getInstance("SHA-256").digest(archive);
            return HexFormat.of().formatHex(digest, 0, 8);
        } catch (NoSuchAlgorithmException everyJavaHasIt) {
            throw new IllegalStateException(everyJavaHasIt);
        }
    }

    private static String system() {
        var name = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        return name.startsWith("windows") ? "Windows" : name.startsWith("mac") ? "Darwin" : "Linux";
    }

    private static String architecture() {
        var name = System.getProperty("os.arch", "");
        return name.equals("amd64") ? "x86_64" : name;
    }
}
