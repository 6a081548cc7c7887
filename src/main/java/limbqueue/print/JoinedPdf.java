package limbqueue.print;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.multipdf.PDFMergerUtility;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;

/** Several files of pages as one, to print them in one go; with their tags for screen readers. */
public final class JoinedPdf {

    /** By which a reader knows the whole as PDF/UA-1 (ISO 14289-1:2014, 5), and its title (7.1). */
    private static final String METADATA = """
            <?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
            <x:xmpmeta xmlns:x="adobe:ns:meta/">
              <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
                <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"
                    xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
                  <dc:title><rdf:Alt><rdf:li xml:lang="x-default">TITLE</rdf:li></rdf:Alt></dc:title>
                  <pdfuaid:part>1</pdfuaid:part>
                </rdf:Description>
              </rdf:RDF>
            </x:xmpmeta>
            <?xpacket end="w"?>
            """;

    private JoinedPdf() {}

    /**
     * The pages of all, in order. Each file begins on a new sheet where both sides are printed on: after an odd number of
     * pages comes an empty one.
     *
     * @param title of the whole
     * @param language tag of the language of the title; each file keeps its own
     * @param files made by {@link PdfPages}
     * @throws UncheckedIOException if one of them is no PDF
     */
    public static byte[] of(String title, String language, List<byte[]> files) {
        try (var whole = new PDDocument()) {
            var merger = new PDFMergerUtility();
            for (var file : files) {
                try (var document = Loader.loadPDF(file)) {
                    keepLanguage(document);
                    merger.appendDocument(whole, document);
                    if (document.getNumberOfPages() % 2 == 1) {
                        whole.addPage(new PDPage(document.getPage(0).getMediaBox()));
                    }
                }
            }
            name(whole, title, language);
            var out = new ByteArrayOutputStream();
            whole.save(out);
            return out.toByteArray();
        } catch (IOException unreadable) {
            throw new UncheckedIOException("pages could not be joined", unreadable);
        }
    }

    /** The language of a file is said once for all of it; within the whole its own pages have to say it. */
    private static void keepLanguage(PDDocument document) {
        var catalog = document.getDocumentCatalog();
        var structure = catalog.getStructureTreeRoot();
        if (structure != null && catalog.getLanguage() != null) {
            for (var part : structure.getKids()) {
                if (part instanceof PDStructureElement element) {
                    element.setLanguage(catalog.getLanguage());
                }
            }
        }
    }

    /** Instead of the title and the subject of the first file, which names its patient. */
    private static void name(PDDocument whole, String title, String language) throws IOException {
        var information = new PDDocumentInformation();
        information.setTitle(title);
        information.setProducer(PdfPages.PRODUCER);
        whole.setDocumentInformation(information);
        var catalog = whole.getDocumentCatalog();
        catalog.setLanguage(language);
        var metadata = new PDMetadata(whole);
        metadata.importXMPMetadata(
                METADATA.replace("TITLE", PdfPages.escape(title)).getBytes(StandardCharsets.UTF_8));
        catalog.setMetadata(metadata);
        var preferences = new PDViewerPreferences(new COSDictionary());
        preferences.setDisplayDocTitle(true);
        catalog.setViewerPreferences(preferences);
    }
}
