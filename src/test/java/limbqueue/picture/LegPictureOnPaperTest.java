package limbqueue.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import limbqueue.print.PdfPages;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureNode;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** The picture set as PDF, read back by another library. */
class LegPictureOnPaperTest {

    private static final String REFERRAL = """
            {"armPressures": {"left": 138, "right": 136},
             "legs": {
               "right": {"pressures": {"dorsalisPedis": 44, "posteriorTibial": 40, "toe": 26}},
               "left": {"amputation": "belowKnee"}},
             "lesions": [
               {"segment": "infrarenalAorta", "aneurysm": true, "diameterMm": 42},
               {"side": "right", "segment": "externalIliac", "stenosisPercent": 100, "lengthMm": 70,
                "calcification": "severe"},
               {"side": "right", "segment": "superficialFemoral", "stenosisPercent": 60, "lengthMm": 20},
               {"side": "left", "segment": "commonIliac", "inStent": true}],
             "procedures": [
               {"kind": "bypass", "side": "left", "segment": "superficialFemoral", "date": "2021-03-01",
                "outcome": "completed"}]}""";

    @Test
    void itsWordsCanBeReadInThePdf() throws Exception {
        try (var pdf = Loader.loadPDF(page(REFERRAL))) {
            var words = new PDFTextStripper().getText(pdf).replace('\u00a0', ' ');
            assertThat(words)
                    .contains("100 % 70 mm", "60 % 20 mm", "? % ? mm", "aneurysm", "\u00f8 42 mm", "bypass 2021")
                    .contains("amputated", "no foot", "arm 136", "arm 138", "DP 44", "PT 40", "toe 26", "ABI 0.32")
                    .contains("Narrowing not known", "Severe calcification");
            assertThat(pdf.getNumberOfPages()).isEqualTo(1);
            for (var font : pdf.getPage(0).getResources().getFontNames()) {
                assertThat(pdf.getPage(0).getResources().getFont(font).isEmbedded())
                        .isTrue();
            }
        }
    }

    @Test
    void whoCannotSeeItIsToldWhatIsDrawn() throws Exception {
        try (var pdf = Loader.loadPDF(page(REFERRAL))) {
            assertThat(alternatives(pdf.getDocumentCatalog().getStructureTreeRoot()))
                    .anyMatch(words ->
                            words.contains("External iliac: right occlusion, 70\u00a0mm long, severely calcified"));
        }
    }

    private static List<String> alternatives(PDStructureNode node) {
        var found = new ArrayList<String>();
        for (var kid : node.getKids()) {
            if (kid instanceof PDStructureElement element) {
                Optional.ofNullable(element.getAlternateDescription()).ifPresent(found::add);
                found.addAll(alternatives(element));
            }
        }
        return found;
    }

    /** Ink lies where the occlusion is; the same place of a picture without lesions holds hardly any. */
    @Test
    void anOcclusionIsBlackOnPaper() throws Exception {
        var occluded = ink(page(REFERRAL), "target/pictures/legs-paper.png");
        var open = ink(page("{\"lesions\": []}"), "target/pictures/legs-paper-open.png");
        assertThat(occluded).isGreaterThan(0.5);
        assertThat(open).isLessThan(0.3);
    }

    private static byte[] page(String json) {
        var drawn = LegDrawing.onPage(Pictured.picture(json), 100);
        var html = """
                <html><head><title>Leg arteries</title><meta name="subject" content="Leg arteries"/>
                <style>@page { size: A4; margin: 20mm; } body { margin: 0; }</style></head>
                <body lang="en">%s%s</body></html>""".formatted(drawn, LegDrawing.keyOnPage(100));
        return PdfPages.set(html);
    }

    /** The share of dark dots in a small window on the right external iliac, 20 mm from the page's edges. */
    private static double ink(byte[] pdf, String picture) throws IOException {
        BufferedImage image;
        try (var document = Loader.loadPDF(pdf)) {
            image = new PDFRenderer(document).renderImageWithDPI(0, 254, ImageType.GRAY);
        }
        Files.createDirectories(Path.of(picture).getParent());
        ImageIO.write(image, "png", Path.of(picture).toFile());
        var scale = 1000 / Arteries.DRAWN.width();
        var middle = Arteries.DRAWN.segments().get(2).course().at(0.5);
        var dark = 0;
        var reach = 8;
        for (var x = -reach; x <= reach; x++) {
            for (var y = -reach; y <= reach; y++) {
                var grey = image.getRaster()
                        .getSample((int) (200 + middle.x() * scale) + x, (int) (200 + middle.y() * scale) + y, 0);
                dark += grey < 100 ? 1 : 0;
            }
        }
        return dark / Math.pow(2 * reach + 1, 2);
    }
}
