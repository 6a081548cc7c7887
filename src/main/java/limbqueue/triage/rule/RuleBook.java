package limbqueue.triage.rule;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import limbqueue.triage.threshold.Limits;
import limbqueue.triage.threshold.ThresholdFile;

/**
 * The published rules as they stood when somebody triaged: what each says, its sources, and dated thresholds. A value; what a practice may
 * choose is not in it but in the policy. Its id is worked out from the words of its files, so that two books with the
 * same id say the same.
 */
public final class RuleBook {

    private static final String SOURCES = "sources.txt";
    private static final String THRESHOLDS = "thresholds.txt";
    private static final String RULES = "rules.txt";
    private static final List<String> FILES = List.of(SOURCES, THRESHOLDS, RULES);

    private static final int DIGITS_OF_ID = 16;

    private static final class Shipped {
        static final RuleBook BOOK = of(shippedFiles());
    }

    private final String id;
    private final Map<String, String> files;
    private final ThresholdFile thresholds;
    private final Map<String, Rule> rules;

    private RuleBook(String id, Map<String, String> files, ThresholdFile thresholds, Map<String, Rule> rules) {
        this.id = id;
        this.files = files;
        this.thresholds = thresholds;
        this.rules = rules;
    }

    /** The book that comes with the product. */
    public static RuleBook shipped() {
        return Shipped.BOOK;
    }

    /**
     * The book that these files make.
     *
     * @param texts the text of each file by its name
     * @throws IllegalArgumentException if a file is missing or wrong, naming file, line and remedy
     */
    public static RuleBook of(Map<String, String> texts) {
        var files = files(texts);
        var thresholds = thresholds(files);
        var rules =
                RuleFile.read(RULES, lines(files, RULES), thresholds.sources().keySet());
        RuleFile.checkThatEveryLimitIsNamed(RULES, rules);
        return new RuleBook(digest(files), files, thresholds, rules);
    }

    /**
     * A book that an earlier version of the product worked by. A source, a threshold or a rule that it did not have yet is
     * taken from the shipped book, so that what came later does not stop it from being read; its id and its files stay its
     * own.
     *
     * @throws IllegalArgumentException if it cannot be read any more, as when it names a threshold that is no more
     */
    public static RuleBook kept(Map<String, String> texts) {
        var files = files(texts);
        var completed = new TreeMap<>(files);
        var shipped = shipped().files;
        completed.replaceAll((name, text) -> name.equals(RULES)
                ? KeptFile.completedEntries(text, shipped.getOrDefault(name, ""))
                : KeptFile.completedLines(text, shipped.getOrDefault(name, "")));
        var thresholds = thresholds(completed);
        return new RuleBook(
                digest(files),
                files,
                thresholds,
                RuleFile.read(
                        RULES, lines(completed, RULES), thresholds.sources().keySet()));
    }

    private static ThresholdFile thresholds(Map<String, String> files) {
        return ThresholdFile.parse(SOURCES, lines(files, SOURCES), THRESHOLDS, lines(files, THRESHOLDS));
    }

    private static Map<String, String> files(Map<String, String> texts) {
        var files = new TreeMap<String, String>();
        for (var name : FILES) {
            var text = texts.get(name);
            if (text == null) {
                throw new IllegalArgumentException(name + ": the file is missing from the rule book; add it");
            }
            files.put(name, text.replace("\r\n", "\n"));
        }
        if (texts.size() != files.size()) {
            throw new IllegalArgumentException(
                    "the rule book has files that nothing reads: " + texts.keySet() + "; keep to " + FILES);
        }
        return files;
    }

    /** The first digits of a SHA-256 of the names and texts of the files. */
    public String id() {
        return id;
    }

    /** The text of each file by its name, from which {@link #of} makes the same book. */
    public Map<String, String> files() {
        return Map.copyOf(files);
    }

    public ThresholdFile thresholds() {
        return thresholds;
    }

    /** Every rule, in the order of the book. */
    public List<Rule> rules() {
        return List.copyOf(rules.values());
    }

    /**
     * Id of the source that results name for a rule.
     *
     * @throws IllegalStateException if the book has no such rule
     */
    public String sourceOf(String ruleId) {
        var rule = rules.get(ruleId);
        if (rule == null) {
            throw new IllegalStateException("the rule book " + id + " says nothing of the rule " + ruleId);
        }
        return rule.source();
    }

    /** The citation of a source. */
    public String citation(String sourceId) {
        return thresholds.sources().getOrDefault(sourceId, sourceId);
    }

    /** The numbers in force on {@code day}. */
    public Limits on(LocalDate day) {
        return thresholds.on(day);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RuleBook book && files.equals(book.files);
    }

    @Override
    public int hashCode() {
        return files.hashCode();
    }

    @Override
    public String toString() {
        return "rule book " + id;
    }

    private static List<String> lines(Map<String, String> files, String name) {
        return files.getOrDefault(name, "").lines().toList();
    }

    private static String digest(Map<String, String> files) {
        try {
            var digest = MessageDigest.getInstance("SHA-256");
            files.forEach((name, text) -> {
                digest.update((name + "\0" + text.length() + "\0").getBytes(StandardCharsets.UTF_8));
                digest.update(text.getBytes(StandardCharsets.UTF_8));
            });
            return HexFormat.of().formatHex(digest.digest()).substring(0, DIGITS_OF_ID);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    private static Map<String, String> shippedFiles() {
        var texts = new TreeMap<String, String>();
        FILES.forEach(name -> texts.put(name, shippedText(name)));
        return texts;
    }

    private static String shippedText(String name) {
        try (InputStream in = RuleBook.class.getResourceAsStream("/limbqueue/triage/" + name)) {
            if (in == null) {
                throw new IllegalStateException("the file " + name + " is missing from the product");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
