package limbqueue.letter.wording;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import limbqueue.letter.LetterKind;

/** The words that come with the product, in every language, checked as a whole before the first letter is written. */
public final class ShippedWordings implements Wordings {

    private static final String LANGUAGES = "languages.txt";
    private static final Pattern LANGUAGE = Pattern.compile("([A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8})*)\\s+(\\S.*)");
    private static final Pattern BLANK = Pattern.compile("\\{\\d\\}");

    private final List<Language> languages;
    private final Map<String, Map<LetterKind, String>> texts = new LinkedHashMap<>();
    private final Map<String, Map<LetterKind, Template>> templates = new LinkedHashMap<>();

    private ShippedWordings(List<Language> languages) {
        this.languages = List.copyOf(languages);
    }

    /** @throws IllegalStateException if any of them cannot be used, with every problem by file and line */
    public static ShippedWordings load() {
        return read(Vocabulary::resource);
    }

    /** @param files the text of a file by its name; empty if there is none */
    static ShippedWordings read(Function<String, Optional<String>> files) {
        var problems = new ArrayList<WordingProblem>();
        var languages = languages(files.apply(LANGUAGES).orElse(""), problems);
        var shipped = new ShippedWordings(languages);
        languages.forEach(language -> shipped.take(language, files, problems));
        vocabularies(languages, files, problems);
        if (!problems.isEmpty()) {
            throw new IllegalStateException("The words of letters cannot be used:\n"
                    + problems.stream().map(WordingProblem::asText).collect(Collectors.joining("\n")));
        }
        return shipped;
    }

    private static List<Language> languages(String text, List<WordingProblem> problems) {
        var languages = new ArrayList<Language>();
        var lines = text.split("\\R", -1);
        for (var i = 0; i < lines.length; i++) {
            var line = lines[i].strip();
            if (line.isEmpty() || line.startsWith("#")) {
                continue;
            }
            var language = LANGUAGE.matcher(line);
            if (language.matches()) {
                languages.add(new Language(language.group(1), language.group(2)));
            } else {
                problems.add(new WordingProblem(
                        LANGUAGES, i + 1, "Write the tag of a language and its name: “es Español”."));
            }
        }
        if (languages.isEmpty()) {
            problems.add(
                    new WordingProblem(LANGUAGES, 0, "It names no language. Letters are written in one at least."));
        }
        return languages;
    }

    private void take(Language language, Function<String, Optional<String>> files, List<WordingProblem> problems) {
        var ofLanguage = new EnumMap<LetterKind, String>(LetterKind.class);
        var read = new EnumMap<LetterKind, Template>(LetterKind.class);
        for (var kind : LetterKind.values()) {
            var file = file(kind, language.tag());
            var text = files.apply(file);
            if (text.isEmpty()) {
                problems.add(new WordingProblem(
                        file,
                        0,
                        "This file is missing: the letter “%s” has no words in %s. Add them, or take the language out of %s."
                                .formatted(kind.words(), language.name(), LANGUAGES)));
                continue;
            }
            var reading = TemplateReader.read(file, kind, text.get());
            problems.addAll(reading.problems());
            ofLanguage.put(kind, text.get());
            reading.template().ifPresent(template -> read.put(kind, template));
        }
        texts.put(language.tag(), ofLanguage);
        templates.put(language.tag(), read);
    }

    /** Every language says what the first says, with as many blanks to fill in. */
    private static void vocabularies(
            List<Language> languages, Function<String, Optional<String>> files, List<WordingProblem> problems) {
        Optional<Vocabulary> first = Optional.empty();
        for (var language : languages) {
            var file = Vocabulary.file(language.tag());
            var text = files.apply(file);
            if (text.isEmpty()) {
                problems.add(new WordingProblem(
                        file, 0, "This file is missing. Add it, or take the language out of " + LANGUAGES + "."));
                continue;
            }
            try {
                var read = Vocabulary.read(file, language.tag(), text.get());
                if (first.isEmpty()) {
                    first = Optional.of(read);
                }
                compare(first.get(), read, file, problems);
            } catch (IllegalArgumentException wrong) {
                problems.add(new WordingProblem(file, 0, String.valueOf(wrong.getMessage())));
            }
        }
    }

    private static void compare(Vocabulary model, Vocabulary other, String file, List<WordingProblem> problems) {
        var all = new TreeSet<>(model.keys());
        all.addAll(other.keys());
        for (var key : all) {
            var here = other.raw(key);
            var there = model.raw(key);
            if (here.isEmpty() || there.isEmpty()) {
                problems.add(new WordingProblem(
                        file,
                        0,
                        here.isEmpty()
                                ? "“%s” is not translated. Add it.".formatted(key)
                                : "“%s” stands in no other language. Take it out, or add it there.".formatted(key)));
            } else if (!blanks(here.get()).equals(blanks(there.get()))) {
                problems.add(new WordingProblem(
                        file,
                        0,
                        "“%s” has other blanks than in the first language: use %s."
                                .formatted(key, blanks(there.get()))));
            }
        }
    }

    private static List<String> blanks(String words) {
        return BLANK.matcher(words)
                .results()
                .map(found -> found.group())
                .distinct()
                .sorted()
                .toList();
    }

    /** {@code triaged.es.txt}. */
    public static String file(LetterKind kind, String tag) {
        return kind.fileName() + "." + tag + ".txt";
    }

    /** The first is the one to write in where nobody has said another. */
    public List<Language> languages() {
        return languages;
    }

    /** Whether letters are written in this language. */
    public boolean knows(String tag) {
        return languages.stream().anyMatch(language -> language.tag().equals(tag));
    }

    /** The words as they stand in the file. */
    public String text(LetterKind kind, String tag) {
        return found(texts, kind, tag);
    }

    @Override
    public Template of(LetterKind kind, String tag) {
        return found(templates, kind, tag);
    }

    private static <T> T found(Map<String, Map<LetterKind, T>> all, LetterKind kind, String tag) {
        return Optional.ofNullable(all.get(tag))
                .flatMap(ofLanguage -> Optional.ofNullable(ofLanguage.get(kind)))
                .orElseThrow(() -> new IllegalArgumentException("no words of " + kind + " in " + tag));
    }
}
