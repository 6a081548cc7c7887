package limbqueue.picture;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import limbqueue.picture.Arteries.Artery;
import limbqueue.picture.Arteries.Part;
import limbqueue.picture.LegPicture.Label;
import limbqueue.picture.LegPicture.Mark;

/**
 * Draws the picture of the leg arteries as SVG for a printed page, in black, white and grey: pattern and shape carry all
 * meaning. The browser's component {@code frontend/lq-arteries.js} draws the same, element by element.
 */
public final class LegDrawing {

    private static final Arteries ARTERIES = Arteries.DRAWN;
    private static final String INK = "#000000";
    private static final String SOFT = "#4d4d4d";
    private static final String PAPER = "#ffffff";
    private static final String BODY = "#f4f4f4";
    private static final String EDGE = "#c4c4c4";
    private static final String NONE = "none";

    /** In the key of signs: the wall of a vessel of which nobody has said what is in it. */
    private static final String BROKEN = "broken";

    /** Thickness of the wall of a vessel, on either side. */
    private static final double WALL = 1;

    private static final double LABEL_SIZE = 12.5;
    private static final double SMALLER = 11.5;

    /** Height of a line of words on a printed page, and of its top above its baseline, in sizes of the printed font. */
    private static final double LINE = 1.2;

    private static final double BASELINE = 0.9465;

    /** An element of the picture; {@code text} is empty where it has elements within it or nothing. */
    private record Element(String tag, Map<String, String> attributes, List<Element> within, String text) {

        static Element of(String tag, Object... attributes) {
            var named = new LinkedHashMap<String, String>();
            for (var i = 0; i < attributes.length; i += 2) {
                named.put(
                        (String) attributes[i],
                        attributes[i + 1] instanceof Double number
                                ? Course.number(number)
                                : String.valueOf(attributes[i + 1]));
            }
            return new Element(tag, named, new ArrayList<>(), "");
        }

        Element holding(List<Element> elements) {
            within.addAll(elements);
            return this;
        }

        String attribute(String name) {
            return attributes.getOrDefault(name, "");
        }

        /** Moves all words of the drawing to {@code texts}. */
        void takeTexts(List<Element> texts) {
            within.stream().filter(element -> element.tag().equals("text")).forEach(texts::add);
            within.removeIf(element -> element.tag().equals("text"));
            within.forEach(element -> element.takeTexts(texts));
        }

        Element saying(String words) {
            return new Element(tag, attributes, within, words);
        }

        String xml() {
            return "<" + tag
                    + attributes.entrySet().stream()
                            .map(attribute -> " " + attribute.getKey() + "=\"" + escape(attribute.getValue()) + "\"")
                            .collect(Collectors.joining())
                    + ">"
                    + escape(text)
                    + within.stream().map(Element::xml).collect(Collectors.joining())
                    + "</" + tag + ">";
        }

        private static String escape(String text) {
            return text.replace("&", "&amp;")
                    .replace("<", "&lt;")
                    .replace(">", "&gt;")
                    .replace("\"", "&quot;");
        }
    }

    private LegDrawing() {}

    /** The picture as one {@code svg} element, its labels within it. */
    public static String svg(LegPicture picture) {
        return drawing(picture).xml();
    }

    /** What the signs mean, as one {@code svg} element. */
    static String keySvg() {
        return key().xml();
    }

    /**
     * The picture as XHTML for a printed page. Its labels are words of the page, laid over the drawing, and so can be
     * searched and read aloud; assistive technology is told what is drawn.
     *
     * @param widthMm on the page, in millimetres
     */
    public static String onPage(LegPicture picture, double widthMm) {
        return onPage(drawing(picture), picture.inWords(), widthMm);
    }

    /** What the signs mean, as XHTML for a printed page of this width in millimetres. */
    public static String keyOnPage(double widthMm) {
        var words =
                ARTERIES.key().entries().stream().map(Arteries.Key.Entry::words).collect(Collectors.joining(", "));
        return onPage(key(), "Signs of the picture: " + words + ".", widthMm);
    }

    private static Element drawing(LegPicture picture) {
        return canvas(ARTERIES.width(), ARTERIES.height())
                .holding(List.of(
                        layer("body", body(picture)),
                        layer("leaders", leaders(picture)),
                        layer("vessels", vessels(picture)),
                        layer(
                                "marks",
                                picture.marks().stream().map(LegDrawing::mark).toList()),
                        layer("cuts", cuts(picture)),
                        layer("labels", labels(picture))));
    }

    private static Element key() {
        var key = ARTERIES.key();
        var rows = (key.entries().size() + key.columns() - 1) / key.columns();
        return canvas(key.columns() * key.columnWidth(), rows * key.rowHeight()).holding(keyEntries());
    }

    private static Element canvas(double width, double height) {
        return Element.of(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "viewBox",
                "0 0 " + Course.number(width) + " " + Course.number(height),
                "font-size",
                LABEL_SIZE);
    }

    private static String onPage(Element svg, String alternative, double widthMm) {
        var box = svg.attribute("viewBox").split(" ", -1);
        var scale = widthMm / Double.parseDouble(box[2]);
        var height = mm(Double.parseDouble(box[3]) * scale);
        var words = new ArrayList<Element>();
        svg.takeTexts(words);
        svg.attributes().put("style", "width:" + mm(widthMm) + ";height:" + height);
        svg.attributes().put("alt", alternative);
        return "<div style=\"position:relative;width:" + mm(widthMm) + ";height:" + height + "\">" + svg.xml()
                + words.stream().map(text -> overlaid(text, scale)).collect(Collectors.joining()) + "</div>";
    }

    /** A label as words of the page, its baseline where the drawing has it. */
    private static String overlaid(Element text, double scale) {
        var size = Double.parseDouble(text.attribute("font-size"));
        var x = Double.parseDouble(text.attribute("x"));
        var y = Double.parseDouble(text.attribute("y"));
        var anchor = text.attribute("text-anchor");
        var room = ARTERIES.width();
        var left = anchor.equals("end") ? x - room : anchor.equals("middle") ? x - room / 2 : x;
        var align = anchor.equals("end") ? "right" : anchor.equals("middle") ? "center" : "left";
        return Element.of(
                        "div",
                        "style",
                        "position:absolute;left:" + mm(left * scale) + ";top:" + mm((y - BASELINE * size) * scale)
                                + ";width:" + mm(room * scale) + ";font-size:" + mm(size * scale)
                                + ";line-height:" + LINE + ";text-align:" + align + ";color:"
                                + text.attribute("fill"))
                .saying(text.text())
                .xml();
    }

    private static String mm(double millimetres) {
        return String.format(Locale.ROOT, "%.2fmm", millimetres);
    }

    private static Element layer(String name, List<Element> elements) {
        return Element.of("g", "data-layer", name).holding(elements);
    }

    private static List<Element> body(LegPicture picture) {
        var elements = new ArrayList<Element>();
        for (var side : List.of("right", "left")) {
            for (var part : ARTERIES.body()) {
                var gone = picture.cuts().stream()
                        .anyMatch(cut -> cut.side().equals(side) && part.gone().contains(cut.level()));
                elements.addAll(part(part, side, gone));
            }
        }
        return elements;
    }

    private static List<Element> part(Part part, String side, boolean gone) {
        var lateral = turned(Course.through(part.lateral()), side);
        var medial = turned(Course.through(part.medial()), side);
        var elements = new ArrayList<Element>();
        if (!gone) {
            var around = new ArrayList<>(lateral.points());
            around.addAll(medial.points().reversed());
            elements.add(Element.of("path", "d", Course.path(around) + " Z", "fill", BODY));
        }
        elements.add(edge(lateral, gone));
        if (part.edges().equals("both")) {
            elements.add(edge(medial, gone));
        }
        return elements;
    }

    private static Element edge(Course edge, boolean gone) {
        var line = Element.of("path", "d", edge.path(), "fill", NONE, "stroke", EDGE, "stroke-width", 1.0);
        if (gone) {
            line.attributes().put("stroke-dasharray", "1 3");
        }
        return line;
    }

    private static List<Element> leaders(LegPicture picture) {
        return picture.labels().stream()
                .filter(Label::leads)
                .map(label -> Element.of(
                        "path",
                        "d",
                        "M" + Course.number(label.x() + (label.end() ? 3 : -3)) + " " + Course.number(label.y() - 4)
                                + " L" + Course.number(label.pointX()) + " " + Course.number(label.pointY()),
                        "fill",
                        NONE,
                        "stroke",
                        SOFT,
                        "stroke-width",
                        0.7))
                .toList();
    }

    /** All walls before all lumens, so that the vessels open into one another. */
    private static List<Element> vessels(LegPicture picture) {
        var elements = new ArrayList<Element>();
        for (var lumen : new boolean[] {false, true}) {
            for (var place : picture.places()) {
                var artery = artery(place.segment());
                var course = turned(artery.course(), place.side());
                if (place.goneFrom() > 0) {
                    var there = place.goneFrom() < 1 ? course.part(0, place.goneFrom()) : course;
                    var vessel = vessel(there, lumen ? artery.width() - 2 * WALL : artery.width(), lumen ? PAPER : INK);
                    if (!lumen && !picture.lesionsKnown()) {
                        breakWall(vessel);
                    }
                    elements.add(vessel);
                }
                if (place.goneFrom() < 1 && lumen) {
                    elements.add(Element.of(
                            "path",
                            "d",
                            course.part(place.goneFrom(), 1).path(),
                            "fill",
                            NONE,
                            "stroke",
                            SOFT,
                            "stroke-width",
                            1.0,
                            "stroke-dasharray",
                            "1 3"));
                }
            }
        }
        return elements;
    }

    /** Nobody has said what is in the vessel: its wall is a broken line. */
    private static void breakWall(Element vessel) {
        vessel.attributes().put("stroke-dasharray", "3 2.5");
        vessel.attributes().put("stroke-linecap", "butt");
    }

    private static Element vessel(Course course, double width, String colour) {
        return Element.of(
                "path",
                "d",
                course.path(),
                "fill",
                NONE,
                "stroke",
                colour,
                "stroke-width",
                width,
                "stroke-linejoin",
                "round",
                "stroke-linecap",
                "round");
    }

    private static Element mark(Mark mark) {
        var artery = artery(mark.segment());
        return Element.of("g", "data-mark", mark.kind(), "data-segment", mark.segment(), "data-side", mark.side())
                .holding(sign(
                        mark.kind(),
                        turned(artery.course(), mark.side()),
                        artery.width(),
                        mark.from(),
                        mark.to(),
                        mark.percent(),
                        mark.side().equals("left") ? -1 : 1));
    }

    /** @param outwards 1 where the side of the vessel that lies off the body's middle is at its right, else -1 */
    private static List<Element> sign(
            String kind, Course course, double width, double from, double to, double percent, double outwards) {
        return switch (kind) {
            case "stenosis" -> stenosis(course.part(from, to), width, percent);
            case "occlusion" -> occlusion(course, width, from, to);
            case "unknown" -> unknown(course.part(from, to), width);
            case "moderate" -> dots(course.spaced(from, to, 7), width, outwards, false);
            case "severe" -> {
                var both = new ArrayList<>(dots(course.spaced(from, to, 5), width, 1, true));
                both.addAll(dots(course.spaced(from, to, 5), width, -1, true));
                yield both;
            }
            case "stent" -> stent(course.spaced(from, to, 4.5), width);
            case "bypass" -> bypass(course.spaced(from, to, 3), outwards);
            case BROKEN -> List.of();
            case "aneurysm" -> aneurysm(course.spaced(from, to, 2), width);
            default -> throw new IllegalArgumentException("no sign for " + kind);
        };
    }

    private static List<Element> stenosis(Course part, double width, double percent) {
        var open = Math.max(0.7, (width - 2 * WALL) * (1 - percent / 100));
        return List.of(stroke(part.path(), INK, width), stroke(part.path(), PAPER, open));
    }

    private static List<Element> occlusion(Course course, double width, double from, double to) {
        return List.of(
                stroke(course.part(from, to).path(), INK, width),
                stroke(across(course.at(from), width), INK, 1.6),
                stroke(across(course.at(to), width), INK, 1.6));
    }

    private static String across(Course.Point point, double width) {
        var reach = width / 2 + 3;
        return Course.path(List.of(point.aside(-reach), point.aside(reach)));
    }

    private static List<Element> unknown(Course part, double width) {
        var stripes = stroke(part.path(), INK, width - 1);
        stripes.attributes().put("stroke-dasharray", "1.2 2");
        return List.of(stroke(part.path(), INK, width), stroke(part.path(), PAPER, width - 1), stripes);
    }

    private static List<Element> dots(List<Course.Point> spaced, double width, double side, boolean full) {
        return spaced.stream()
                .map(point -> point.aside(side * (width / 2 + 2.4)))
                .map(point -> Element.of(
                        "circle",
                        "cx",
                        point.x(),
                        "cy",
                        point.y(),
                        "r",
                        1.4,
                        "fill",
                        full ? INK : PAPER,
                        "stroke",
                        INK,
                        "stroke-width",
                        0.8))
                .toList();
    }

    private static List<Element> stent(List<Course.Point> spaced, double width) {
        var reach = width / 2 + 1.8;
        var elements = new ArrayList<Element>();
        var there = zigzag(spaced, reach);
        var back = zigzag(spaced, -reach);
        for (var line : List.of(there, back)) {
            elements.add(stroke(line, PAPER, 2.4));
        }
        for (var line : List.of(there, back)) {
            elements.add(stroke(line, INK, 0.9));
        }
        return elements;
    }

    private static String zigzag(List<Course.Point> spaced, double reach) {
        var points = new ArrayList<Course.Point>();
        for (var i = 0; i < spaced.size(); i++) {
            points.add(spaced.get(i).aside(i % 2 == 0 ? reach : -reach));
        }
        return Course.path(points);
    }

    private static List<Element> bypass(List<Course.Point> spaced, double outwards) {
        var last = spaced.size() - 1;
        var points = new ArrayList<Course.Point>();
        for (var i = 0; i <= last; i++) {
            var near = Math.min(1, Math.min(i, last - i) / 5.0);
            points.add(spaced.get(i).aside(outwards * 10 * near * near * (3 - 2 * near)));
        }
        var path = Course.path(points);
        return List.of(stroke(path, INK, 5), stroke(path, PAPER, 3));
    }

    private static List<Element> aneurysm(List<Course.Point> spaced, double width) {
        var last = spaced.size() - 1;
        var around = new ArrayList<Course.Point>();
        for (var side : new double[] {1, -1}) {
            for (var i = 0; i <= last; i++) {
                var at = side > 0 ? i : last - i;
                var bulge = width / 2 + (width / 2 + 3) * Math.sin(Math.PI * at / last);
                around.add(spaced.get(at).aside(side * bulge));
            }
        }
        return List.of(
                Element.of("path", "d", Course.path(around) + " Z", "fill", PAPER, "stroke", INK, "stroke-width", 1.2));
    }

    private static Element stroke(String path, String colour, double width) {
        return Element.of("path", "d", path, "fill", NONE, "stroke", colour, "stroke-width", width);
    }

    private static List<Element> cuts(LegPicture picture) {
        var elements = new ArrayList<Element>();
        for (var cut : picture.cuts()) {
            var drawn = ARTERIES.cuts().stream()
                    .filter(known -> known.code().equals(cut.level()))
                    .findFirst()
                    .orElseThrow();
            var left = cut.side().equals("left");
            var from = left ? ARTERIES.width() - drawn.from() : drawn.from();
            var to = left ? ARTERIES.width() - drawn.to() : drawn.to();
            var y = Course.number(drawn.y());
            elements.add(Element.of(
                    "path",
                    "d",
                    "M" + Course.number(from) + " " + y + " L" + Course.number(to) + " " + y,
                    "fill",
                    NONE,
                    "stroke",
                    INK,
                    "stroke-width",
                    3.0,
                    "data-cut",
                    cut.level(),
                    "data-side",
                    cut.side()));
        }
        return elements;
    }

    private static List<Element> labels(LegPicture picture) {
        var elements = new ArrayList<Element>();
        elements.add(text("R", 4, 22, "start", INK, 20));
        elements.add(text("L", ARTERIES.width() - 4, 22, "end", INK, 20));
        for (var label : picture.labels()) {
            elements.add(text(label.text(), label.x(), label.y(), label.end() ? "end" : "start", INK, LABEL_SIZE));
        }
        elements.add(text(picture.caption(), ARTERIES.width() / 2, ARTERIES.height() - 4, "middle", SOFT, SMALLER));
        return elements;
    }

    private static Element text(String words, double x, double y, String anchor, String colour, double size) {
        return Element.of("text", "x", x, "y", y, "text-anchor", anchor, "fill", colour, "font-size", size)
                .saying(words);
    }

    private static List<Element> keyEntries() {
        var key = ARTERIES.key();
        var elements = new ArrayList<Element>();
        for (var i = 0; i < key.entries().size(); i++) {
            var entry = key.entries().get(i);
            var x = (i % key.columns()) * key.columnWidth();
            var row = i / key.columns();
            var y = row * key.rowHeight() + key.rowHeight() / 2;
            var sample = Course.through(List.of(List.of(x + 4, y), List.of(x + 48, y)));
            var width = 7.0;
            var wall = vessel(sample, width, INK);
            if (entry.kind().equals(BROKEN)) {
                breakWall(wall);
            }
            elements.add(wall);
            elements.add(vessel(sample, width - 2 * WALL, PAPER));
            elements.add(Element.of("g", "data-mark", entry.kind())
                    .holding(sign(entry.kind(), sample, width, 0.2, 0.8, entry.percent(), -1)));
            elements.add(text(entry.words(), x + 56, y + 4, "start", INK, SMALLER));
        }
        return elements;
    }

    private static Course turned(Course course, String side) {
        return side.equals("left") ? course.mirrored(ARTERIES.width()) : course;
    }

    private static Artery artery(String code) {
        return ARTERIES.segments().stream()
                .filter(artery -> artery.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no artery is called " + code));
    }
}
