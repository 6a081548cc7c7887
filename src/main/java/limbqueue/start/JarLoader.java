package limbqueue.start;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.MalformedURLException;
import java.net.URL;
import java.net.URLConnection;
import java.net.URLStreamHandler;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Enumeration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.jspecify.annotations.Nullable;

/**
 * Loads classes from {@code BOOT-INF/classes} and from the libraries in {@code BOOT-INF/lib} of the jar, for the command
 * line. The general loader of the application opens every library on its way to the one with the class it looks for, which
 * takes longer than a whole triage; this one opens the few that the command line always needs, and the others only when a
 * class is in none of those.
 */
final class JarLoader extends ClassLoader {

    static {
        registerAsParallelCapable();
    }

    private static final String CLASSES = "BOOT-INF/classes/";
    private static final String LIBRARIES = "BOOT-INF/lib/";

    /** How the names of the libraries begin that are looked into first. */
    private static final List<String> FIRST = List.of(
            "jackson-core-",
            "jackson-databind-",
            "jackson-annotations-",
            "json-schema-validator-",
            "slf4j-api-",
            "itu-");

    private static final int END_SIGNATURE = 0x06054b50;
    private static final int ENTRY_SIGNATURE = 0x02014b50;
    private static final int END_LENGTH = 22;
    private static final int ENTRY_LENGTH = 46;
    private static final int LOCAL_LENGTH = 30;
    private static final int STORED = 0;

    /** Where the data of an entry lies: the header before it, its length as stored, its length as it was, how it is stored. */
    private record Entry(int header, int stored, int length, int method) {}

    private final ByteBuffer jar;
    private final List<Map<String, Entry>> opened = new ArrayList<>();
    private final List<Entry> unopened = new ArrayList<>();

    /** @throws IOException if {@code file} is not such a jar; the general loader must be used */
    JarLoader(Path file) throws IOException {
        super(ClassLoader.getPlatformClassLoader());
        try (var channel = FileChannel.open(file, StandardOpenOption.READ)) {
            if (channel.size() > Integer.MAX_VALUE) {
                throw new IOException("larger than this loader reads: " + file);
            }
            jar = channel.map(FileChannel.MapMode.READ_ONLY, 0, channel.size()).order(ByteOrder.LITTLE_ENDIAN);
        }
        try {
            openJar();
        } catch (IndexOutOfBoundsException e) {
            throw new IOException("not a jar that this loader reads: " + file, e);
        }
    }

    private void openJar() throws IOException {
        var classes = new HashMap<String, Entry>();
        var first = new ArrayList<Entry>();
        for (var entry : directory(0, jar.capacity()).entrySet()) {
            var name = entry.getKey();
            if (name.startsWith(CLASSES)) {
                classes.put(name.substring(CLASSES.length()), entry.getValue());
            } else if (name.startsWith(LIBRARIES) && name.endsWith(".jar")) {
                if (entry.getValue().method() != STORED) {
                    throw new IOException("a library is compressed: " + name);
                }
                var library = name.substring(LIBRARIES.length());
                (FIRST.stream().anyMatch(library::startsWith) ? first : unopened).add(entry.getValue());
            }
        }
        if (classes.isEmpty()) {
            throw new IOException("no " + CLASSES + " in the jar");
        }
        opened.add(classes);
        for (var library : first) {
            opened.add(directory(data(library), library.stored()));
        }
    }

    /** The entries of the jar that lies at {@code start}, by name. */
    private Map<String, Entry> directory(int start, int length) throws IOException {
        var end = start + length - END_LENGTH;
        while (end > start && jar.getInt(end) != END_SIGNATURE) {
            end--;
        }
        int count = jar.getShort(end + 10) & 0xffff;
        var at = start + jar.getInt(end + 16);
        if (jar.getInt(end) != END_SIGNATURE || count == 0xffff || jar.getInt(end + 16) == -1) {
            throw new IOException("the directory of the jar is missing, or of the large kind");
        }
        var entries = new HashMap<String, Entry>(count * 2);
        for (var i = 0; i < count; i++) {
            if (jar.getInt(at) != ENTRY_SIGNATURE) {
                throw new IOException("the directory of the jar is damaged");
            }
            var name = new byte[jar.getShort(at + 28) & 0xffff];
            jar.get(at + ENTRY_LENGTH, name);
            entries.put(
                    new String(name, StandardCharsets.UTF_8),
                    new Entry(
                            start + jar.getInt(at + 42),
                            jar.getInt(at + 20),
                            jar.getInt(at + 24),
                            jar.getShort(at + 10)));
            at += ENTRY_LENGTH + name.length + (jar.getShort(at + 30) & 0xffff) + (jar.getShort(at + 32) & 0xffff);
        }
        return entries;
    }

    private int data(Entry entry) {
        return entry.header()
                + LOCAL_LENGTH
                + (jar.getShort(entry.header() + 26) & 0xffff)
                + (jar.getShort(entry.header() + 28) & 0xffff);
    }

    private byte[] bytes(Entry entry) throws IOException {
        var bytes = new byte[entry.stored()];
        jar.get(data(entry), bytes);
        if (entry.method() == STORED) {
            return bytes;
        }
        var inflater = new Inflater(true);
        try {
            inflater.setInput(bytes);
            var inflated = new byte[entry.length()];
            var done = 0;
            while (done < inflated.length) {
                var more = inflater.inflate(inflated, done, inflated.length - done);
                if (more == 0) {
                    throw new IOException("an entry of the jar is cut off");
                }
                done += more;
            }
            return inflated;
        } catch (DataFormatException e) {
            throw new IOException("an entry of the jar is damaged", e);
        } finally {
            inflater.end();
        }
    }

    /** All entries of {@code name}, those of the libraries not yet opened only if {@code everywhere} or there is no other. */
    private List<Entry> entries(String name, boolean everywhere) {
        var found = new ArrayList<Entry>();
        synchronized (opened) {
            for (var library : opened) {
                var entry = library.get(name);
                if (entry != null) {
                    found.add(entry);
                }
            }
            if (!unopened.isEmpty() && (everywhere || found.isEmpty())) {
                openTheOthers();
                return entries(name, everywhere);
            }
        }
        return found;
    }

    private void openTheOthers() {
        for (var library : unopened) {
            try {
                opened.add(directory(data(library), library.stored()));
            } catch (IOException e) {
                throw new IllegalStateException("a library of the jar cannot be read", e);
            }
        }
        unopened.clear();
    }

    @Override
    protected Class<?> findClass(String name) throws ClassNotFoundException {
        var entries = entries(name.replace('.', '/') + ".class", false);
        if (entries.isEmpty()) {
            throw new ClassNotFoundException(name);
        }
        try {
            var bytes = bytes(entries.get(0));
            return defineClass(name, bytes, 0, bytes.length);
        } catch (IOException e) {
            throw new ClassNotFoundException(name, e);
        }
    }

    @Override
    protected @Nullable URL findResource(String name) {
        var entries = entries(name, false);
        return entries.isEmpty() ? null : url(name, entries.get(0));
    }

    @Override
    protected Enumeration<URL> findResources(String name) {
        return Collections.enumeration(
                entries(name, true).stream().map(entry -> url(name, entry)).toList());
    }

    private URL url(String name, Entry entry) {
        try {
            return new URL("limbqueue", "", -1, "/" + name, new URLStreamHandler() {
                @Override
                protected URLConnection openConnection(URL url) {
                    return new URLConnection(url) {
                        @Override
                        public void connect() {}

                        @Override
                        public InputStream getInputStream() throws IOException {
                            return new ByteArrayInputStream(bytes(entry));
                        }
                    };
                }
            });
        } catch (MalformedURLException e) {
            throw new IllegalStateException(e);
        }
    }
}
