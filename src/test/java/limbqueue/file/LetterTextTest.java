package limbqueue.file;

import static limbqueue.file.MadeFiles.bytes;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.pdfbox.pdmodel.PDPage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What is wrong with each file is said in words; what is right with it gives its text. All letters are invented. */
class LetterTextTest {

    private static final String LETTER = "Dear colleague,\nABI right 0.61, left 0.83.\nKind regards\n";
    private static final Tesseract NONE = Tesseract.in("", Duration.ofSeconds(1));
    private static final String DOCX_MAIN =
            "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml";

    @TempDir
    Path folder;

    @Test
    void aTextIsReadInWhicheverEncodingItCame() {
        var words = "Ulcère – 4 µm, 37°, “rest pain”\n";
        assertThat(read(words.getBytes(StandardCharsets.UTF_8), "a.txt").text()).isEqualTo(words);
        assertThat(read(("\uFEFF" + words).getBytes(StandardCharsets.UTF_8), "a.txt")
                        .text())
                .isEqualTo(words);
        assertThat(read(("\uFEFF" + words).getBytes(StandardCharsets.UTF_16LE), "a.txt")
                        .text())
                .isEqualTo(words);
        assertThat(read(("\uFEFF" + words).getBytes(StandardCharsets.UTF_16BE), "a.txt")
                        .text())
                .isEqualTo(words);
        assertThat(read(words.getBytes(Charset.forName("windows-1252")), "a.txt")
                        .text())
                .isEqualTo(words);
    }

    @Test
    void lineEndsBecomeOfOneKindAndControlCharactersBlanks() {
        assertThat(read(bytes("one\r\ntwo\rthree\n\ffour\u0085five\tsix\u001Aseven"), "a.txt")
                        .text())
                .isEqualTo("one\ntwo\nthree\n\nfour\nfive\tsix seven");
    }

    @Test
    void emojiRightToLeftAndScriptsAreText() {
        var words = "Patient 🦵 Quill 🙂, מטופל, <script>alert('x')</script> & <b>\n";
        assertThat(read(bytes(words), "a.txt").text()).isEqualTo(words);
        assertThat(read(MadeFiles.docx(words.strip()), "a.docx").text()).isEqualTo(words);
    }

    @Test
    void aLetterThatBeginsLikeAnEMailIsText() {
        assertThat(read(bytes("From: Dr Quill\nSubject: leg pain\nReceived: 3 March\n\n" + LETTER), "")
                        .type())
                .isEqualTo(FileType.TEXT);
    }

    @Test
    void aPdfGivesItsLines() {
        assertThat(read(MadeFiles.pdf(LETTER.split("\n")), "letter.pdf"))
                .satisfies(read -> assertThat(read.text().strip()).isEqualTo(LETTER.strip()))
                .satisfies(read -> assertThat(read.type()).isEqualTo(FileType.PDF))
                .satisfies(read -> assertThat(read.notes()).isEmpty());
    }

    @Test
    void theSameFileGivesTheSameText() {
        for (var file : new byte[][] {MadeFiles.pdf("one", "two"), MadeFiles.docx("one", "two"), bytes(LETTER)}) {
            assertThat(LetterText.of(file, "a")).isEqualTo(LetterText.of(file, "a"));
        }
    }

    @Test
    void aWordDocumentGivesParagraphsTabsAndTables() {
        var table = "<w:tbl><w:tr>" + cell("Right") + cell("0.61") + "</w:tr><w:tr>" + cell("Left") + cell("0.83")
                + "</w:tr></w:tbl>";
        var body = "<w:p><w:pPr><w:tabs><w:tab w:val=\"left\" w:pos=\"720\"/></w:tabs></w:pPr>"
                + run("ABI") + "<w:r><w:tab/></w:r>" + run("today") + "<w:r><w:br/></w:r>" + run("as follows")
                + "</w:p>"
                + table + "<w:p>" + run("Thank you") + "</w:p>";
        assertThat(read(MadeFiles.docxOf(body), "a.docx").text())
                .isEqualTo("ABI\ttoday\nas follows\nRight\t0.61\nLeft\t0.83\nThank you\n");
    }

    @Test
    void wordsThatWereDeletedMovedAwayOrHiddenAreNotRead() {
        var body = "<w:p>" + run("No ") + "<w:del><w:r><w:delText>old </w:delText></w:r></w:del>"
                + "<w:moveFrom>" + run("moved ") + "</w:moveFrom><w:ins>" + run("rest ") + "</w:ins>"
                + "<w:r><w:rPr><w:vanish/></w:rPr><w:t>hidden </w:t></w:r>"
                + "<w:r><w:rPr><w:vanish w:val=\"0\"/></w:rPr><w:t>pain</w:t></w:r></w:p>";
        assertThat(read(MadeFiles.docxOf(body), "a.docx").text()).isEqualTo("No rest pain\n");
    }

    @Test
    void aTextBoxIsReadOnceThoughItIsWrittenTwice() {
        var box = "<w:txbxContent><w:p>" + run("In a box") + "</w:p></w:txbxContent>";
        var body = "<w:p>" + run("Before") + "<w:r><mc:AlternateContent><mc:Choice Requires=\"wps\">" + box
                + "</mc:Choice><mc:Fallback>" + box + "</mc:Fallback></mc:AlternateContent></w:r></w:p>";
        assertThat(read(MadeFiles.docxOf(body), "a.docx").text()).isEqualTo("Before\nIn a box\n\n");
    }

    @Test
    void theHeadOfThePageComesFirstAndTheFootLastAndEachOnce() {
        var parts = MadeFiles.docxParts("<w:p>" + run("Body") + "</w:p>", DOCX_MAIN);
        parts.put("word/header1.xml", MadeFiles.wordPart("hdr", "<w:p>" + run("Millbeck Surgery") + "</w:p>"));
        parts.put("word/header2.xml", MadeFiles.wordPart("hdr", "<w:p>" + run("Millbeck Surgery") + "</w:p>"));
        parts.put("word/footer1.xml", MadeFiles.wordPart("ftr", "<w:p>" + run("Page 1") + "</w:p>"));
        parts.put(
                "word/_rels/document.xml.rels",
                MadeFiles.relations("footer", "footer1.xml", "header", "header1.xml", "header", "/word/header2.xml"));
        assertThat(read(MadeFiles.zip(parts), "a.docx").text()).isEqualTo("Millbeck Surgery\n\nBody\n\nPage 1\n");
    }

    static Stream<Arguments> unfit() throws IOException {
        var macros = MadeFiles.docxParts("<w:p/>", DOCX_MAIN);
        macros.put("word/vbaProject.bin", new byte[] {1, 2, 3});
        var macroType = MadeFiles.docxParts("<w:p/>", "application/vnd.ms-word.document.macroEnabled.main+xml");
        var sheet = MadeFiles.docxParts(
                "<w:p/>", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml");
        var broken = MadeFiles.docxParts("<w:p/>", DOCX_MAIN);
        broken.put("word/document.xml", bytes("<w:document xmlns:w='wordprocessingml'><w:body>"));
        var entities = MadeFiles.docxParts("<w:p/>", DOCX_MAIN);
        entities.put(
                "word/document.xml",
                bytes("<!DOCTYPE d [<!ENTITY x SYSTEM 'file:///etc/hostname'>]><d"
                        + " xmlns='wordprocessingml'><t>&x;</t></d>"));
        var archive = new LinkedHashMap<String, byte[]>();
        archive.put("letter.txt", bytes(LETTER));
        var pdf = MadeFiles.pdf("Dear colleague");
        var oldWord = new byte[2048];
        oldWord[0] = (byte) 0xD0;
        oldWord[1] = (byte) 0xCF;
        oldWord[2] = 0x11;
        oldWord[3] = (byte) 0xE0;
        oldWord[4] = (byte) 0xA1;
        oldWord[5] = (byte) 0xB1;
        oldWord[6] = 0x1A;
        oldWord[7] = (byte) 0xE1;
        var locked = oldWord.clone();
        var name = "EncryptedPackage".getBytes(StandardCharsets.UTF_16LE);
        System.arraycopy(name, 0, locked, 1024, name.length);
        var program = new byte[512];
        System.arraycopy(bytes("MZ"), 0, program, 0, 2);
        var picture = MadeFiles.picture("png");
        return Stream.of(
                Arguments.of("an empty file", new byte[0], "a.txt", "The file is empty: it has 0 bytes."),
                Arguments.of("blanks", bytes(" \n\t "), "a.txt", "There are no words in the file."),
                Arguments.of("no words", MadeFiles.docx(""), "a.docx", "There are no words in the file."),
                Arguments.of(
                        "a web page", bytes("<!DOCTYPE html><html><body>x</body></html>"), "a.txt", "web page (HTML)"),
                Arguments.of("a web page by name", bytes("Dear colleague"), "a.html", "The name ends in “.html”"),
                Arguments.of("a script by name", bytes("Dear colleague"), "a.js", "The name ends in “.js”"),
                Arguments.of("a shell script", bytes("#!/bin/sh\necho x\n"), "letter", "This is a program"),
                Arguments.of(
                        "a drawing",
                        bytes("<?xml version=\"1.0\"?><svg xmlns=\"http://www.w3.org/2000/svg\"/>"),
                        "a.png",
                        "SVG drawing"),
                Arguments.of("XML", bytes("<?xml version=\"1.0\"?><letter/>"), "a.xml", "XML file"),
                Arguments.of("rich text", bytes("{\\rtf1\\ansi Dear colleague}"), "a.doc", "rich text file (RTF)"),
                Arguments.of("old Word", oldWord, "a.doc", "Office file of the old kind"),
                Arguments.of("Word with a password", locked, "a.docx", "protected with a password"),
                Arguments.of("a program named PDF", program, "letter.pdf", "This is a program"),
                Arguments.of("an archive", MadeFiles.zip(archive), "letter.docx", "archive (zip)"),
                Arguments.of(
                        "an archive of another kind", new byte[] {0x1f, (byte) 0x8b, 8, 0, 0, 0}, "a.txt", "archive"),
                Arguments.of("macros", MadeFiles.zip(macros), "a.docx", "programs (macros)"),
                Arguments.of("a type with macros", MadeFiles.zip(macroType), "a.docx", "programs (macros)"),
                Arguments.of("a spreadsheet", MadeFiles.zip(sheet), "a.docx", "This is a spreadsheet"),
                Arguments.of("Word cut short", MadeFiles.zip(broken), "a.docx", "The Word document is damaged"),
                Arguments.of("an outside entity", MadeFiles.zip(entities), "a.docx", "The Word document is damaged"),
                Arguments.of("a bomb", MadeFiles.docxBomb(201), "a.docx", "swells to more than 200 MB"),
                Arguments.of(
                        "PDF with a password", MadeFiles.encryptedPdf("secret"), "a.pdf", "protected with a password"),
                Arguments.of("PDF cut short", Arrays.copyOf(pdf, 60), "a.pdf", "The PDF is damaged"),
                Arguments.of("only the head of a PDF", bytes("%PDF-1.7\n"), "a.pdf", "The PDF is damaged"),
                Arguments.of("a picture cut short", Arrays.copyOf(picture, 20), "a.png", "The picture is damaged"),
                Arguments.of(
                        "a picture of another kind",
                        bytes("GIF89a\1\0\1\0\0\0\0"),
                        "a.gif",
                        "Pictures of this kind (gif)"),
                Arguments.of("data", new byte[] {1, 2, 3, 4, 5, 0, 7}, "a.txt", "This file is no text, PDF"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("unfit")
    void aFileOfNoUseIsRefusedWithWhatIsWrongAndWhatToDo(String what, byte[] file, String name, String said) {
        assertThat(LetterText.of(file, name, NONE, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(Extracted.NotRead.class, refused -> {
                    assertThat(refused.type()).isEmpty();
                    assertThat(refused.sentence())
                            .contains(said)
                            .containsPattern("(Ask|ask|Save|save|Print|Unpack|Scan|Type|Drop) ")
                            .endsWith(".");
                });
    }

    @Test
    void aPdfThatSwellsIsNotOpened() {
        var bomb = MadeFiles.pdf(document -> {
            var page = new PDPage();
            document.addPage(page);
            var stream = new org.apache.pdfbox.pdmodel.common.PDStream(document);
            try (var out = stream.createOutputStream(org.apache.pdfbox.cos.COSName.FLATE_DECODE)) {
                var blanks = new byte[1 << 20];
                Arrays.fill(blanks, (byte) ' ');
                for (var i = 0; i < 201; i++) {
                    out.write(blanks);
                }
            }
            page.setContents(stream);
        });
        assertThat(bomb.length).isLessThan(1 << 20);
        assertThat(LetterText.of(bomb, "a.pdf"))
                .isInstanceOfSatisfying(
                        Extracted.NotRead.class,
                        refused -> assertThat(refused.sentence()).contains("swells to more than 200 MB"));
    }

    @Test
    void aFileOfTwoGigabytesIsToldInWordsAndNotRead() throws IOException {
        var huge = folder.resolve("huge.pdf");
        try (var file = new RandomAccessFile(huge.toFile(), "rw")) {
            file.setLength(2L << 30);
        }
        assertThat(LetterText.of(huge))
                .isInstanceOfSatisfying(
                        Extracted.NotRead.class,
                        refused -> assertThat(refused.sentence())
                                .startsWith("The file is too large: it has 2.0 GB, and at most 25 MB are taken."));
    }

    @Test
    void aFileThatIsNotThereIsToldInWords() throws IOException {
        assertThat(LetterText.of(folder.resolve("none.txt")))
                .isEqualTo(new Extracted.NotRead("There is no such file.", Optional.empty()));
        assertThat(LetterText.of(folder))
                .isEqualTo(new Extracted.NotRead("This is a folder, not a file.", Optional.empty()));
        Files.writeString(folder.resolve("a.txt"), LETTER);
        assertThat(LetterText.of(folder.resolve("a.txt")))
                .isInstanceOfSatisfying(
                        Extracted.Read.class, read -> assertThat(read.text()).isEqualTo(LETTER));
    }

    @Test
    void aNameThatSaysAnotherTypeIsToldAndTheContentCounts() {
        var read = read(MadeFiles.pdf("Dear colleague"), "letter.docx");
        assertThat(read.type()).isEqualTo(FileType.PDF);
        assertThat(read.notes())
                .containsExactly("The name ends in “.docx”, but the file is a PDF and is kept as that.");
        assertThat(read(bytes(LETTER), "letter.pdf").notes())
                .containsExactly("The name ends in “.pdf”, but the file is plain text and is kept as that.");
        assertThat(read(bytes(LETTER), "letter.TXT").notes()).isEmpty();
        assertThat(read(bytes(LETTER), "letter").notes()).isEmpty();
    }

    @Test
    void aLetterOfTooManyCharactersIsCutAndThatIsSaid() {
        var read = read(bytes("🙂".repeat(100_001)), "a.txt");
        assertThat(read.text()).hasSize(200_000);
        assertThat(read.notes()).singleElement().asString().contains("only its first 200,000 characters are read");
    }

    @Test
    void withoutTheProgramAPictureAndAScanSayWhatToInstall() {
        for (var format : new String[] {"png", "jpeg", "tiff"}) {
            assertThat(LetterText.of(MadeFiles.picture(format), "a." + format, NONE, LetterText.LARGEST_FILE))
                    .isInstanceOfSatisfying(Extracted.NotRead.class, unread -> {
                        assertThat(unread.sentence())
                                .startsWith("This is a picture of a letter (")
                                .contains("tesseract-ocr");
                        assertThat(unread.type())
                                .map(FileType::name)
                                .hasValue(format.toUpperCase(java.util.Locale.ROOT));
                    });
        }
        assertThat(LetterText.of(MadeFiles.scan(2), "a.pdf", NONE, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(Extracted.NotRead.class, unread -> {
                    assertThat(unread.sentence())
                            .startsWith("This PDF is a scan")
                            .contains("tesseract-ocr");
                    assertThat(unread.type()).hasValue(FileType.PDF);
                });
    }

    /** The program here is a stand-in that prints a text of its own; what the real one reads is not tested. */
    @Test
    void withTheProgramPicturesAndScansAreReadAndItIsSaidToCheckThem() {
        var tesseract = Tesseract.in(
                MadeFiles.standIn(folder, "test -s \"$1\" && test \"$2\" = stdout && printf 'ABI 0.61 µ\\n\\f'"),
                Duration.ofSeconds(20));
        assertThat(LetterText.of(MadeFiles.picture("png"), "a.png", tesseract, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(
                        Extracted.Read.class, read -> assertThat(read.text()).isEqualTo("ABI 0.61 µ\n\n"));
        assertThat(LetterText.of(MadeFiles.scan(2), "a.pdf", tesseract, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(Extracted.Read.class, read -> {
                    assertThat(read.text().lines().filter("ABI 0.61 µ"::equals)).hasSize(2);
                    assertThat(read.notes()).singleElement().asString().startsWith("Read from a scan");
                });
    }

    @Test
    void aPageThatIsAPictureBetweenOthersIsNamed() {
        var mixed = MadeFiles.pdf(document -> {
            try (var words = org.apache.pdfbox.Loader.loadPDF(MadeFiles.pdf("Dear colleague"))) {
                document.importPage(words.getPage(0));
                MadeFiles.addScannedPage(document);
                document.save(new java.io.ByteArrayOutputStream());
            }
        });
        assertThat(LetterText.of(mixed, "a.pdf", NONE, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(Extracted.Read.class, read -> {
                    assertThat(read.text()).contains("Dear colleague");
                    assertThat(read.notes())
                            .singleElement()
                            .asString()
                            .startsWith("Page 2 is a picture without text and was not read.");
                });
    }

    /** Stand-ins again. */
    @Test
    void aProgramThatFailsOrHangsIsToldAndStopped() {
        var failing = Tesseract.in(
                MadeFiles.standIn(folder, "echo 'Error opening data file eng.traineddata' >&2; exit 1"),
                Duration.ofSeconds(20));
        assertThat(LetterText.of(MadeFiles.picture("png"), "a.png", failing, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(
                        Extracted.NotRead.class,
                        unread -> assertThat(unread.sentence())
                                .contains("it said: Error opening data file eng.traineddata"));
        var hanging = Tesseract.in(MadeFiles.standIn(folder, "sleep 60"), Duration.ofMillis(300));
        var began = System.nanoTime();
        assertThat(LetterText.of(MadeFiles.picture("png"), "a.png", hanging, LetterText.LARGEST_FILE))
                .isInstanceOfSatisfying(
                        Extracted.NotRead.class,
                        unread -> assertThat(unread.sentence()).contains("it took longer than"));
        assertThat(Duration.ofNanos(System.nanoTime() - began)).isLessThan(Duration.ofSeconds(20));
    }

    private static Extracted.Read read(byte[] file, String name) {
        return (Extracted.Read) LetterText.of(file, name, NONE, LetterText.LARGEST_FILE);
    }

    private static String run(String words) {
        return "<w:r><w:t xml:space=\"preserve\">" + words + "</w:t></w:r>";
    }

    private static String cell(String words) {
        return "<w:tc><w:p>" + run(words) + "</w:p></w:tc>";
    }
}
