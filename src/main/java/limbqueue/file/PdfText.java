package limbqueue.file;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.encryption.InvalidPasswordException;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;

/** The text of a PDF, page after page; of a page that is only a picture, what {@link Tesseract} reads in it. */
final class PdfText {

    private static final int MOST_PAGES = 100;
    private static final int MOST_PICTURES = 20;
    private static final Duration LIMIT = Duration.ofMinutes(2);

    /** What is drawn on a page: more is not a letter, but a page that draws itself again and again. */
    private static final int MOST_STEPS = 5_000_000;

    private static final int DOTS_PER_INCH = 300;
    private static final int POINTS_PER_INCH = 72;

    private static final String DAMAGED =
            "The PDF is damaged and cannot be opened. Print it to a new PDF, or ask the sender for it again.";

    private PdfText() {}

    /** @throws UnfitFile unless the document can be opened */
    static void check(byte[] bytes) throws UnfitFile {
        open(bytes, _ -> "");
    }

    static String of(byte[] bytes, Tesseract tesseract, List<String> notes) throws UnfitFile, UnreadFile {
        var unread = new ArrayList<UnreadFile>();
        var text = open(bytes, document -> read(document, tesseract, notes, unread));
        if (text.isBlank() && !unread.isEmpty()) {
            throw unread.getFirst();
        }
        return text;
    }

    private interface Use {
        String of(PDDocument document) throws IOException, UnfitFile;
    }

    private static String open(byte[] bytes, Use use) throws UnfitFile {
        try {
            Inflated.check(bytes);
            try (var document = Loader.loadPDF(bytes)) {
                if (document.isEncrypted()) {
                    checkStreams(document);
                }
                if (document.getNumberOfPages() == 0) {
                    throw new UnfitFile(DAMAGED);
                }
                return use.of(document);
            }
        } catch (InvalidPasswordException e) {
            throw new UnfitFile(
                    "The PDF is protected with a password and cannot be opened here. Open it with the password,"
                            + " print it to a new PDF, and drop that; or ask the sender for it unprotected.",
                    e);
        } catch (Inflated.Swells e) {
            throw new UnfitFile(
                    ("The PDF swells to more than %s when it is unpacked, which no letter does. It was not"
                                    + " opened. Ask the sender for the letter in another form.")
                            .formatted(LetterText.inWords(Inflated.LARGEST)),
                    e);
        } catch (IOException | RuntimeException | StackOverflowError e) {
            // Whatever the library trips over in a broken file.
            throw new UnfitFile(DAMAGED, e);
        }
    }

    /** What is encrypted without a password can only be unpacked once it is open. */
    private static void checkStreams(PDDocument document) throws IOException {
        var all = document.getDocument();
        for (var key : List.copyOf(all.getXrefTable().keySet())) {
            if (all.getObjectFromPool(key).getObject() instanceof COSStream stream && stream.hasData()) {
                Inflated.check(stream.createRawInputStream().readAllBytes(), 0);
            }
        }
    }

    private static String read(PDDocument document, Tesseract tesseract, List<String> notes, List<UnreadFile> unread)
            throws IOException {
        var deadline = System.nanoTime() + LIMIT.toNanos();
        var pages = new ArrayList<String>();
        var pictures = new ArrayList<Integer>();
        var last = Math.min(document.getNumberOfPages(), MOST_PAGES);
        if (document.getNumberOfPages() > MOST_PAGES) {
            notes.add("The PDF has %d pages: only the first %d are read. Look at the rest in the file."
                    .formatted(document.getNumberOfPages(), MOST_PAGES));
        }
        var length = 0;
        for (var number = 1; number <= last && length <= LetterText.LONGEST_TEXT; number++) {
            var page = document.getPage(number - 1);
            var text = textOf(document, number, deadline);
            if (text.isBlank() && hasPicture(page)) {
                pictures.add(number);
            }
            pages.add(text);
            length += text.length();
        }
        readPictures(document, tesseract, pictures, pages, deadline, notes, unread);
        return String.join("", pages);
    }

    private static String textOf(PDDocument document, int number, long deadline) throws IOException {
        var stripper = new Stripper(deadline);
        stripper.setSortByPosition(true);
        stripper.setLineSeparator("\n");
        stripper.setPageEnd("\n");
        stripper.setStartPage(number);
        stripper.setEndPage(number);
        return stripper.getText(document);
    }

    /** Stops at a page that would never end. */
    private static final class Stripper extends PDFTextStripper {

        private final long deadline;
        private int steps;

        Stripper(long deadline) {
            this.deadline = deadline;
        }

        @Override
        protected void processOperator(Operator operator, List<COSBase> operands) throws IOException {
            if (++steps > MOST_STEPS || steps % 1000 == 0 && System.nanoTime() - deadline > 0) {
                throw new UncheckedIOException(new IOException("a page that does not end"));
            }
            super.processOperator(operator, operands);
        }
    }

    private static boolean hasPicture(PDPage page) {
        return page.getResources() != null
                && page.getResources().getXObjectNames().iterator().hasNext();
    }

    private static void readPictures(
            PDDocument document,
            Tesseract tesseract,
            List<Integer> pictures,
            List<String> pages,
            long deadline,
            List<String> notes,
            List<UnreadFile> unread) {
        if (pictures.isEmpty()) {
            return;
        }
        if (!tesseract.isThere()) {
            unread.add(new UnreadFile(
                    "This PDF is a scan: its pages are pictures and have no text. " + Tesseract.HOW_TO_INSTALL,
                    FileType.PDF));
            notes.add("%s a picture without text and was not read. %s"
                    .formatted(pages(pictures), Tesseract.HOW_TO_INSTALL));
            return;
        }
        var renderer = new PDFRenderer(document);
        var failed = new ArrayList<Integer>();
        for (var number : pictures) {
            try {
                if (failed.size() + pictures.indexOf(number) >= MOST_PICTURES || System.nanoTime() - deadline > 0) {
                    throw new UnreadFile(
                            "The scan is too long to be read as a whole. Type what it says.", FileType.PDF);
                }
                var words = tesseract.read(picture(document, renderer, number - 1), FileType.PDF);
                pages.set(number - 1, words.endsWith("\n") ? words : words + "\n");
            } catch (UnreadFile e) {
                unread.add(e);
                failed.add(number);
            } catch (IOException | RuntimeException e) {
                unread.add(new UnreadFile(
                        "This PDF is a scan whose pages cannot be drawn here. Print it to a new PDF, or type"
                                + " what it says.",
                        FileType.PDF));
                failed.add(number);
            }
        }
        if (failed.size() < pictures.size()) {
            notes.add("Read from a scan: look whether each word is right, numbers above all.");
        }
        if (!failed.isEmpty()) {
            notes.add("%s a picture and was not read: %s"
                    .formatted(pages(failed), unread.getFirst().sentence()));
        }
    }

    private static String pages(List<Integer> numbers) {
        return numbers.size() == 1
                ? "Page " + numbers.getFirst() + " is"
                : "Each of the pages " + numbers.stream().map(String::valueOf).collect(Collectors.joining(", "))
                        + " is";
    }

    private static byte[] picture(PDDocument document, PDFRenderer renderer, int index) throws IOException {
        var page = document.getPage(index);
        for (var name : page.getResources().getXObjectNames()) {
            if (page.getResources().getXObject(name) instanceof PDImageXObject image
                    && (long) image.getWidth() * image.getHeight() > Pictures.MOST_DOTS) {
                throw new IOException("a picture far larger than a page");
            }
        }
        var box = page.getCropBox();
        var inches = (double) box.getWidth() * box.getHeight() / (POINTS_PER_INCH * POINTS_PER_INCH);
        var scale = Math.min(1, Math.sqrt(Pictures.MOST_DOTS / 4.0 / (inches * DOTS_PER_INCH * DOTS_PER_INCH)));
        var drawn = renderer.renderImageWithDPI(index, (float) (DOTS_PER_INCH * scale), ImageType.GRAY);
        return png(drawn);
    }

    private static byte[] png(BufferedImage drawn) throws IOException {
        var bytes = new ByteArrayOutputStream();
        ImageIO.write(drawn, "png", bytes);
        return bytes.toByteArray();
    }
}
