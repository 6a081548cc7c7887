package limbqueue.letter.wording;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What letters say in a language beside the words of their templates: dates, greetings, grades, and the sentences that no
 * letter is without. The practice does not edit these.
 */
public final class Vocabulary {

    private static final Map<String, Vocabulary> READ = new ConcurrentHashMap<>();
    private static final Pattern BLANK = Pattern.compile("\\{(\\d)\\}");
    private static final Pattern BETWEEN_ENTRIES = Pattern.compile("\\s*\\|\\s*");

    private final String file;
    private final Locale locale;
    private final Map<String, String> words;

    private Vocabulary(String file, Locale locale, Map<String, String> words) {
        this.file = file;
        this.locale = locale;
        this.words = words;
    }

    /**
     * Of a language that is shipped.
     *
     * @throws IllegalArgumentException if there is none
     */
    public static Vocabulary of(String tag) {
        return READ.computeIfAbsent(tag, one -> {
            var file = file(one);
            return read(
                    file,
                    one,
                    resource(file).orElseThrow(() -> new IllegalArgumentException("no letter is written in " + one)));
        });
    }

    /** The words of triage's questions in a language; none in the language that triage itself asks in. */
    public static Optional<Vocabulary> questions(String tag) {
        var file = "questions." + tag + ".txt";
        return resource(file).map(text -> read(file, tag, text));
    }

    static String file(String tag) {
        return "words." + tag + ".txt";
    }

    /** The text of a file that is shipped beside this class; empty if there is none. */
    static Optional<String> resource(String file) {
        try (var in = Vocabulary.class.getResourceAsStream("/limbqueue/letter/wording/" + file)) {
            return in == null ? Optional.empty() : Optional.of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(file, unreadable);
        }
    }

    /** @throws IllegalArgumentException if a line says nothing, or what another line says */
    static Vocabulary read(String file, String tag, String text) {
        var words = new LinkedHashMap<String, String>();
        var lines = text.split("\\R", -1);
        for (var i = 0; i < lines.length; i++) {
            var line = lines[i].strip();
            if (line.isEmpty() || line.startsWith("#")) {
                continue;
            }
            var equals = line.indexOf(" = ");
            if (equals < 1) {
                throw new IllegalArgumentException(new WordingProblem(file, i + 1, "Write “key = words”.").asText());
            }
            if (words.put(
                            line.substring(0, equals).strip(),
                            line.substring(equals + 3).strip())
                    != null) {
                throw new IllegalArgumentException(
                        new WordingProblem(file, i + 1, "This key stands in a line above already.").asText());
            }
        }
        return new Vocabulary(file, Locale.forLanguageTag(tag), words);
    }

    Set<String> keys() {
        return words.keySet();
    }

    public boolean knows(String key) {
        return words.containsKey(key);
    }

    /** The words of {@code key} as they stand in the file. */
    Optional<String> raw(String key) {
        return Optional.ofNullable(words.get(key));
    }

    /**
     * The words of {@code key}, with {@code {0}} and so on filled in.
     *
     * @throws IllegalArgumentException if there is no such key
     */
    public String say(String key, Object... values) {
        var said = raw(key).orElseThrow(() -> new IllegalArgumentException(file + " does not say " + key));
        return BLANK.matcher(said).replaceAll(blank -> {
            var place = Integer.parseInt(blank.group(1));
            return Matcher.quoteReplacement(place < values.length ? String.valueOf(values[place]) : blank.group());
        });
    }

    /** The entries that {@code key} lists. */
    public List<String> list(String key) {
        return Arrays.stream(BETWEEN_ENTRIES.split(say(key))).toList();
    }

    /** As in {@code 3 March 2026}. */
    public String date(LocalDate date) {
        return DateTimeFormatter.ofPattern(say("date"), locale).format(date);
    }

    /** As in {@code Tuesday 3 March 2026}. */
    public String day(LocalDate date) {
        return DateTimeFormatter.ofPattern(say("day"), locale).format(date);
    }

    /** As in {@code 08:30}. */
    public String time(LocalTime time) {
        return DateTimeFormatter.ofPattern(say("time"), locale).format(time);
    }
}
