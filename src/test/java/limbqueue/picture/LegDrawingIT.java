package limbqueue.picture;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.Media;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import javax.xml.parsers.DocumentBuilderFactory;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import tools.jackson.databind.json.JsonMapper;

/** What the browser draws, beside what is drawn for paper: the same elements in the same places, for the same documents. */
@InBrowser
class LegDrawingIT {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final List<String> LAYERS = List.of("body", "leaders", "vessels", "marks", "cuts", "labels");

    /** Says of an element and all within it what is drawn. */
    private static final String ELEMENTS = """
            const elements = whole => [whole, ...whole.querySelectorAll('*')].map(element => {
              const attributes = [...element.attributes].map(({ name, value }) => `${name}=${value}`);
              const words = element.localName === 'text' ? element.textContent : '';
              return [element.localName, ...attributes.sort(), words].join('|');
            });
            """;

    /** Everything at once, and more of it than has room. */
    private static final String FULL = """
            {"armPressures": {"left": 138},
             "legs": {
               "right": {"amputation": "toe", "pressures": {"dorsalisPedis": 44, "posteriorTibial": 40, "toe": 26}},
               "left": {"amputation": "belowKnee"}},
             "lesions": [
               {"segment": "infrarenalAorta", "aneurysm": true, "diameterMm": 42, "lengthMm": 60},
               {"side": "right", "segment": "commonIliac", "stenosisPercent": 90, "lengthMm": 20, "ostial": true,
                "calcification": "severe"},
               {"side": "right", "segment": "externalIliac", "stenosisPercent": 100, "lengthMm": 70,
                "calcification": "moderate"},
               {"side": "right", "segment": "commonFemoral"},
               {"side": "right", "segment": "superficialFemoral", "stenosisPercent": 100, "lengthMm": 160},
               {"side": "right", "segment": "superficialFemoral", "stenosisPercent": 0, "lengthMm": 2},
               {"side": "right", "segment": "popliteal", "aneurysm": true, "stenosisPercent": 50},
               {"side": "right", "segment": "anteriorTibial", "stenosisPercent": 100, "lengthMm": 900},
               {"side": "right", "segment": "pedal", "stenosisPercent": 33.3},
               {"side": "left", "segment": "commonIliac", "inStent": true, "stenosisPercent": 100},
               {"side": "left", "segment": "profundaFemoris", "stenosisPercent": 99},
               {"side": "left", "segment": "peroneal", "stenosisPercent": 99},
               {"side": "left"}],
             "procedures": [
               {"kind": "bypass", "side": "left", "segment": "superficialFemoral", "date": "2021-03-01"},
               {"kind": "stent", "side": "left", "segment": "externalIliac", "outcome": "completed"}]}""";

    /** A mark on the page, and where. */
    private record Drawn(String kind, String segment, String side) {}

    @Test
    void theBrowserDrawsWhatIsDrawnForPaper(Visitor somebody) throws Exception {
        showComponent(somebody);
        var documents = new ArrayList<>(Pictured.demo());
        assertThat(documents).hasSizeGreaterThan(30);
        documents.add("{}");
        documents.add("{\"lesions\": []}");
        documents.add(FULL);
        documents.add(FULL.replace("belowKnee", "aboveKnee").replace("\"toe\",", "\"forefoot\","));
        documents.addAll(new GeneratedReferrals(20261125).lines(60));
        var marks = new TreeMap<String, Integer>();
        for (var document : documents) {
            var picture = Pictured.picture(document);
            var drawn = inBrowser(somebody, picture);
            assertThat(drawn).as(document).containsExactlyElementsOf(onPaper(picture));
            picture.marks().forEach(mark -> marks.merge(mark.kind(), 1, Integer::sum));
        }
        assertThat(marks.keySet())
                .containsExactly(
                        "aneurysm", "bypass", "moderate", "occlusion", "severe", "stenosis", "stent", "unknown");
    }

    @Test
    void thePictureToEditAndItsSignsAreDrawnAsForPaperToo(Visitor somebody) throws Exception {
        showComponent(somebody);
        somebody.page().evaluate("""
                () => {
                  const legs = document.createElement('lq-arteries');
                  legs.setAttribute('editable', '');
                  document.querySelector('lq-arteries').replaceWith(legs);
                }""");
        somebody.page().waitForSelector("#legs svg.lq-arteries-picture");
        var picture = Pictured.picture(FULL);
        assertThat(inBrowser(somebody, picture).stream()
                        .map(element -> element.replace("|aria-hidden=true", ""))
                        .toList())
                .containsExactlyElementsOf(onPaper(picture));
        var signs = (List<?>) somebody.page().evaluate("() => {" + ELEMENTS + """
                  const signs = document.querySelector('#legs .lq-arteries-signs svg');
                  return elements(signs).slice(1);
                }""");
        assertThat(signs.stream().map(String::valueOf)).containsExactlyElementsOf(elementsOf(LegDrawing.keySvg()));
    }

    @Test
    void theComparisonNoticesALesionThatMovedByAMillimetre(Visitor somebody) throws Exception {
        showComponent(somebody);
        var other = FULL.replace("\"lengthMm\": 160", "\"lengthMm\": 161");
        assertThat(other).isNotEqualTo(FULL);
        assertThat(inBrowser(somebody, Pictured.picture(other))).isNotEqualTo(onPaper(Pictured.picture(FULL)));
    }

    @Test
    void theWordsSayWhatThePictureShows(Visitor somebody) {
        showComponent(somebody);
        var words = Map.of(
                "aneurysm", "aneurysm",
                "bypass", "bypass",
                "moderate", "moderately calcified",
                "occlusion", "occlusion",
                "severe", "severely calcified",
                "stenosis", "stenosis of",
                "stent", "stent",
                "unknown", "narrowing not known");
        var documents = new ArrayList<>(Pictured.demo());
        documents.add(FULL);
        var looked = 0;
        for (var document : documents) {
            inBrowser(somebody, Pictured.picture(document));
            var rows = rows(somebody);
            for (var mark : drawnMarks(somebody)) {
                var artery = Arteries.DRAWN.segments().stream()
                        .filter(known -> known.code().equals(mark.segment()))
                        .findFirst()
                        .orElseThrow();
                var cells = rows.getOrDefault(artery.name(), List.of());
                assertThat(cells).as(artery.name() + " in " + rows).isNotEmpty();
                var said = cells.get(mark.side().equals("left") ? cells.size() - 1 : 0);
                assertThat(said).contains(words.get(mark.kind()));
                looked++;
            }
        }
        assertThat(looked).isGreaterThan(30);
    }

    @Test
    void aPictureToReadIsOneImageThatSaysAllOfIt(Visitor somebody) {
        showComponent(somebody);
        var picture = Pictured.picture(FULL);
        inBrowser(somebody, picture);
        var image = somebody.page().locator("#legs svg.lq-arteries-picture");
        assertThat(image).hasAttribute("role", "img");
        assertThat(image).hasAttribute("aria-label", picture.inWords());
        assertThat(somebody.accessibilityViolations()).isEmpty();
        somebody.page().evaluate("() => document.querySelector('#legs svg').removeAttribute('aria-label')");
        assertThat(somebody.accessibilityViolations()).anyMatch(line -> line.startsWith("svg-img-alt:"));
    }

    @Test
    void itIsReadableInBlackAndWhiteOnPaperAndOnANarrowScreen(Visitor somebody) {
        showComponent(somebody);
        inBrowser(somebody, Pictured.picture(FULL));
        var page = somebody.page();
        page.setViewportSize(360, 900);
        page.locator("#legs")
                .screenshot(new Locator.ScreenshotOptions().setPath(Path.of("target/pictures/legs-360.png")));
        assertThat(overflow(page)).isLessThanOrEqualTo(0);
        page.setViewportSize(794, 1123);
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        assertThat(page.locator("#legs td").first()).isVisible();
        assertThat(page.locator("#legs .lq-arteries-signs svg")).isVisible();
        // Of the colours that remain none has a hue of any weight.
        var colours = (List<?>) page.evaluate("""
                () => [...document.querySelectorAll('#legs svg *')].flatMap(drawn =>
                  [getComputedStyle(drawn).fill, getComputedStyle(drawn).stroke])
                  .filter(colour => colour.startsWith('rgb'))
                  .map(colour => colour.match(/\\d+/g).map(Number))
                  .map(([red, green, blue]) => Math.max(red, green, blue) - Math.min(red, green, blue))""");
        assertThat(colours)
                .isNotEmpty()
                .allSatisfy(hue -> assertThat(((Number) hue).intValue()).isZero());
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(Path.of("target/pictures/legs-print.png"))
                .setFullPage(true));
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
    }

    private static double overflow(Page page) {
        return ((Number) page.evaluate("() => document.querySelector('#legs').scrollWidth"
                        + " - document.querySelector('#legs').clientWidth"))
                .doubleValue();
    }

    private static void showComponent(Visitor somebody) {
        somebody.open("sign-in");
        var page = somebody.page();
        for (var sheet : List.of("limbqueue", "coordinator", "physician", "arteries")) {
            page.addStyleTag(new Page.AddStyleTagOptions().setUrl(address(page, sheet + ".css")));
        }
        page.addScriptTag(new Page.AddScriptTagOptions().setUrl(address(page, "lq-answer.js")));
        page.addScriptTag(new Page.AddScriptTagOptions().setUrl(address(page, "lq-arteries.js")));
        page.evaluate("""
                () => {
                  const main = document.createElement('main');
                  main.id = 'legs';
                  const heading = document.createElement('h1');
                  heading.textContent = 'Leg arteries';
                  main.append(heading, document.createElement('lq-arteries'));
                  document.body.replaceChildren(main);
                }""");
        page.waitForSelector("#legs svg");
    }

    private static String address(Page page, String file) {
        return String.valueOf(page.evaluate("file => new URL('ui/' + file, document.baseURI).href", file));
    }

    private static List<String> inBrowser(Visitor somebody, LegPicture picture) {
        var drawn = somebody.page()
                .evaluate(
                        "([picture, layers]) => {" + ELEMENTS + """
                  const legs = document.querySelector('lq-arteries');
                  legs.picture = JSON.parse(picture);
                  return layers.flatMap(layer =>
                    elements(legs.querySelector(`svg.lq-arteries-picture > [data-layer=${layer}]`)));
                }""", List.of(JSON.writeValueAsString(picture), LAYERS));
        return ((List<?>) drawn).stream().map(String::valueOf).toList();
    }

    private static List<String> onPaper(LegPicture picture) throws Exception {
        return elementsOf(LegDrawing.svg(picture));
    }

    private static List<String> elementsOf(String xml) throws Exception {
        var svg = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(xml)))
                .getDocumentElement();
        var elements = new ArrayList<String>();
        collect(svg, elements);
        elements.removeFirst();
        return elements;
    }

    private static void collect(Element element, List<String> elements) {
        var attributes = new ArrayList<String>();
        for (var i = 0; i < element.getAttributes().getLength(); i++) {
            var attribute = element.getAttributes().item(i);
            attributes.add(attribute.getNodeName() + "=" + attribute.getNodeValue());
        }
        attributes.sort(String::compareTo);
        attributes.addFirst(element.getTagName());
        attributes.add(element.getTagName().equals("text") ? element.getTextContent() : "");
        elements.add(String.join("|", attributes));
        for (var child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child instanceof Element inner) {
                collect(inner, elements);
            }
        }
    }

    /** The cells of each line of the table, by its heading. */
    private static Map<String, List<String>> rows(Visitor somebody) {
        var rows = (List<?>) somebody.page()
                .evaluate("() => [...document.querySelectorAll('#legs tbody tr')].map(row =>"
                        + " [...row.children].map(cell => cell.textContent))");
        var byHeading = new LinkedHashMap<String, List<String>>();
        for (var row : rows) {
            var cells = ((List<?>) row).stream().map(String::valueOf).toList();
            byHeading.put(cells.getFirst(), cells.subList(1, cells.size()));
        }
        return byHeading;
    }

    private static List<Drawn> drawnMarks(Visitor somebody) {
        var marks = (List<?>) somebody.page()
                .evaluate("() => [...document.querySelectorAll('#legs [data-layer=marks] > g')].map(mark =>"
                        + " [mark.dataset.mark, mark.dataset.segment, mark.dataset.side])");
        return marks.stream()
                .map(mark -> ((List<?>) mark).stream().map(String::valueOf).toArray(String[]::new))
                .map(mark -> new Drawn(mark[0], mark[1], mark[2]))
                .toList();
    }
}
