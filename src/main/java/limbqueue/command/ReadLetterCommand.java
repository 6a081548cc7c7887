package limbqueue.command;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limbqueue.document.DocumentFormat;
import limbqueue.file.Extracted;
import limbqueue.file.LetterText;
import limbqueue.reading.FoundField;
import limbqueue.reading.LetterReader;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;

/** {@code read-letter}: reads referral letters from files and folders and prints what each of them states, one a line. */
final class ReadLetterCommand implements Command {

    private static final List<String> LETTERS = List.of(".txt", ".text", ".pdf", ".docx");
    private static final long LARGEST = 50L * 1024 * 1024;

    /** Of its own, so that the other commands start without it. */
    private static final class Json {
        static final JsonMapper MAPPER = JsonMapper.builder().build();
    }

    /** A file whose text cannot be had; the message says why and what to do. */
    static final class NoTextException extends IOException {
        private static final long serialVersionUID = 1L;

        NoTextException(String message) {
            super(message);
        }
    }

    /** What comes of a letter: a line for the results, or one for the errors. */
    private record Line(String text, boolean read) {}

    private static final class Run implements AutoCloseable {
        final Console console;
        final InOrder<Line> lines = new InOrder<>(this::write);
        boolean complete = true;

        Run(Console console) {
            this.console = console;
        }

        private void write(Line line) throws Console.CannotWriteException {
            if (line.read()) {
                console.result(line.text());
            } else {
                complete = false;
                console.complain(line.text());
            }
        }

        void leaveOut(Path path, String problem) throws Console.CannotWriteException {
            lines.give(() -> new Line(path + ": " + problem, false));
        }

        @Override
        public void close() {
            lines.close();
        }
    }

    @Override
    public String name() {
        return "read-letter";
    }

    @Override
    public String help() {
        return """
                java -jar limbqueue.jar read-letter PATH...

                  Reads referral letters and prints what each states, one JSON object a line (JSON Lines), in the order of
                  the input: path, document (a referral in the public format with the fields found) and found (each
                  field with its value and the words it rests on). Nothing is worked out and nothing is added; a person
                  confirms every field before it counts.

                  PATH           a letter (.txt, .text, .pdf or .docx), or a folder, in which all files so named are
                                 read, those of inner folders too, sorted by name. Text is read as UTF-8, and as
                                 Windows-1252 where it is not UTF-8.

                  start and end count Unicode code points of the letter's text from 0, end exclusive; line ends count
                  as they stand in the file, and a byte order mark at its beginning does not count.

                  A letter that cannot be read is told on standard error, in one line: PATH: what is wrong
                  Exit status: 0 when everything was read, else 2.
                """;
    }

    @Override
    public int run(List<String> arguments, Console console) throws Console.CannotWriteException {
        var paths = new ArrayList<Path>();
        var onlyPaths = false;
        for (var argument : arguments) {
            if (!onlyPaths && argument.equals("--")) {
                onlyPaths = true;
            } else if (!onlyPaths && argument.startsWith("-")) {
                console.complain(
                        "limbqueue read-letter: there is no option %s. The only option is --help.".formatted(argument));
                return INCOMPLETE;
            } else {
                try {
                    paths.add(Path.of(argument));
                } catch (InvalidPathException e) {
                    console.complain("limbqueue read-letter: \"%s\" cannot be the name of a file. Check the path."
                            .formatted(argument));
                    return INCOMPLETE;
                }
            }
        }
        if (paths.isEmpty()) {
            console.explain(help());
            return INCOMPLETE;
        }
        DocumentFormat.prepare();
        try (var run = new Run(console)) {
            for (var path : paths) {
                read(path, run);
            }
            run.lines.finish();
            return run.complete ? DONE : INCOMPLETE;
        }
    }

    private static void read(Path path, Run run) throws Console.CannotWriteException {
        var found = NamedFiles.walk(path, ReadLetterCommand::isLetter, new NamedFiles.Taker() {
            @Override
            public void file(Path file) throws Console.CannotWriteException {
                run.lines.give(() -> line(file));
            }

            @Override
            public void unreadable(Path folder, String why) throws Console.CannotWriteException {
                run.leaveOut(folder, why);
            }
        });
        if (!found) {
            run.leaveOut(path, "there is no letter (.txt, .text, .pdf, .docx) in this folder, so nothing was read.");
        }
    }

    private static boolean isLetter(Path file) {
        var name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        return LETTERS.stream().anyMatch(name::endsWith);
    }

    private static Line line(Path path) {
        try {
            return new Line(printed(path, textOf(path)), true);
        } catch (IOException e) {
            return new Line(path + ": " + whyUnreadable(e), false);
        }
    }

    private static String printed(Path path, String text) {
        var letter = LetterReader.read(text);
        var line = JsonNodeFactory.instance.objectNode();
        line.put("path", path.toString());
        line.set("document", letter.document());
        var found = line.putArray("found");
        var points = new CodePoints(text);
        for (FoundField field : letter.found()) {
            var entry = found.addObject();
            entry.put("field", field.field());
            entry.set("value", field.value());
            entry.put("start", points.before(field.start()));
            entry.put("end", points.before(field.end()));
        }
        return Json.MAPPER.writeValueAsString(line);
    }

    /** Counts code points up to places of a text; places are mostly asked for in rising order. */
    private static final class CodePoints {
        private final String text;
        private int at;
        private int count;

        CodePoints(String text) {
            this.text = text;
        }

        int before(int place) {
            if (place < at) {
                at = 0;
                count = 0;
            }
            count += text.codePointCount(at, place);
            at = place;
            return count;
        }
    }

    /**
     * The text of a letter.
     *
     * @throws IOException if the file cannot be read, or has no text
     */
    static String textOf(Path file) throws IOException {
        if (Files.isDirectory(file)) {
            throw new NoTextException("this is a folder, not a letter.");
        }
        var name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        if (name.endsWith(".pdf") || name.endsWith(".docx")) {
            return switch (LetterText.of(file)) {
                case Extracted.Read read -> read.text();
                case Extracted.NotRead not -> throw new NoTextException(not.sentence());
            };
        }
        if (Files.size(file) > LARGEST) {
            throw new NoTextException("it is larger than 50 MB, which no letter is. Check the file.");
        }
        return decoded(Files.readAllBytes(file));
    }

    private static String decoded(byte[] bytes) {
        try {
            var text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return text.startsWith("\ufeff") ? text.substring(1) : text;
        } catch (CharacterCodingException notUtf8) {
            return new String(bytes, Charset.forName("windows-1252"));
        }
    }

    private static String whyUnreadable(IOException e) {
        return e instanceof NoTextException told ? String.valueOf(told.getMessage()) : Options.whyUnreadable(e);
    }
}
