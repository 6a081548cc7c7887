package limbqueue.governance;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.batik.dom.GenericDOMImplementation;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGIDGenerator;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.SymbolAxis;
import org.jfree.chart.plot.PlotOrientation;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.w3c.dom.Element;

/**
 * A picture with a row for each thing: a dot at its figure, a line over its range, and where there is one a bar across at what
 * it is measured against. One hue; letters stay letters.
 *
 * @param id of the picture in its page, of letters and hyphens
 * @param title what it shows, in a line
 * @param description what dot, line and bar are
 * @param axis what the figures are, with their unit
 * @param percent whether the figures are shares from 0 to 1
 */
public record RangePicture(
        String id, String title, String description, String axis, boolean percent, List<RangePicture.Row> rows) {

    /** @param mark what the figure is measured against */
    public record Row(String words, double low, double figure, double high, OptionalDouble mark) {}

    private static final Logger LOG = LoggerFactory.getLogger(RangePicture.class);

    private static final int WIDTH = 560;
    private static final int ROW_HEIGHT = 26;
    private static final int AROUND = 62;
    private static final Color INK = new Color(0x1c2330);
    private static final Color HUE = new Color(0x1f5d63);
    private static final Color LINE = new Color(0xd5d9d3);
    private static final Font FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 13);

    /** As SVG to stand within a page; empty where this server has no letters to measure. */
    public Optional<String> svg() {
        try {
            return Optional.of(drawn());
        } catch (LinkageError | InternalError noFonts) {
            LOG.atWarn().setCause(noFonts).log("Pictures cannot be drawn: no font can be measured on this server");
            return Optional.empty();
        }
    }

    private String drawn() {
        var document = GenericDOMImplementation.getDOMImplementation()
                .createDocument("http://www.w3.org/2000/svg", "svg", null);
        var context = SVGGeneratorContext.createDefault(document);
        context.setComment(null);
        context.setIDGenerator(new SVGIDGenerator() {
            @Override
            public String generateID(String prefix) {
                return id + "-" + super.generateID(prefix);
            }
        });
        var graphics = new SVGGraphics2D(context, false);
        var height = AROUND + ROW_HEIGHT * rows.size();
        graphics.setSVGCanvasSize(new Dimension(WIDTH, height));
        chart().draw(graphics, new Rectangle2D.Double(0, 0, WIDTH, height));
        var root = graphics.getRoot();
        root.removeAttribute("width");
        root.removeAttribute("height");
        root.setAttribute("viewBox", "0 0 " + WIDTH + " " + height);
        root.setAttribute("role", "img");
        root.setAttribute("aria-labelledby", id + "-title");
        root.setAttribute("aria-describedby", id + "-desc");
        root.insertBefore(words(root, "desc", description), root.getFirstChild());
        root.insertBefore(words(root, "title", title), root.getFirstChild());
        try (var writer = new StringWriter()) {
            graphics.stream(root, writer, false, false);
            var text = writer.toString();
            return text.substring(text.indexOf("<svg"));
        } catch (IOException unexpected) {
            throw new UncheckedIOException(unexpected);
        }
    }

    private Element words(Element root, String name, String words) {
        var element = root.getOwnerDocument().createElementNS("http://www.w3.org/2000/svg", name);
        element.setAttribute("id", id + "-" + name);
        element.setTextContent(words);
        return element;
    }

    private JFreeChart chart() {
        var ranges = new YIntervalSeries("ranges");
        var marks = new XYSeries("marks");
        for (var at = 0; at < rows.size(); at++) {
            var row = rows.get(at);
            ranges.add(at, row.figure(), row.low(), row.high());
            if (row.mark().isPresent()) {
                marks.add(at, row.mark().getAsDouble());
            }
        }
        var dots = new YIntervalSeriesCollection();
        dots.addSeries(ranges);
        var plot = new XYPlot(dots, names(), figures(), dots());
        plot.setDataset(1, new XYSeriesCollection(marks));
        plot.setRenderer(1, bars());
        plot.setOrientation(PlotOrientation.HORIZONTAL);
        plot.setBackgroundPaint(null);
        plot.setOutlineVisible(false);
        plot.setDomainGridlinesVisible(false);
        plot.setRangeGridlinePaint(LINE);
        plot.setRangeGridlineStroke(new BasicStroke(1));
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        // Letters may be wider in the browser than here.
        plot.setInsets(new RectangleInsets(4, 4, 4, 32));
        var chart = new JFreeChart(null, FONT, plot, false);
        chart.setBackgroundPaint(null);
        return chart;
    }

    private SymbolAxis names() {
        var axis = new SymbolAxis(null, rows.stream().map(Row::words).toArray(String[]::new));
        axis.setRange(-0.5, rows.size() - 0.5);
        axis.setInverted(true);
        axis.setGridBandsVisible(false);
        axis.setTickLabelFont(FONT);
        axis.setTickLabelPaint(INK);
        axis.setTickLabelInsets(new RectangleInsets(2, 8, 2, 12));
        axis.setTickMarksVisible(false);
        axis.setAxisLinePaint(LINE);
        return axis;
    }

    private NumberAxis figures() {
        var axis = new NumberAxis(axis());
        if (percent) {
            axis.setRange(0, 1);
            axis.setNumberFormatOverride(new DecimalFormat("0 %", DecimalFormatSymbols.getInstance(Locale.UK)));
        } else {
            var farthest = rows.stream()
                    .mapToDouble(row -> Math.max(row.high(), row.mark().orElse(0)))
                    .max()
                    .orElse(1);
            axis.setRange(0, Math.max(1, farthest * 1.05));
            axis.setNumberFormatOverride(new DecimalFormat("#,##0.##", DecimalFormatSymbols.getInstance(Locale.UK)));
        }
        axis.setTickLabelFont(FONT);
        axis.setTickLabelPaint(INK);
        axis.setLabelFont(FONT);
        axis.setLabelPaint(INK);
        axis.setAxisLinePaint(LINE);
        axis.setTickMarkPaint(LINE);
        return axis;
    }

    private static XYErrorRenderer dots() {
        var renderer = new XYErrorRenderer();
        renderer.setDrawXError(false);
        renderer.setCapLength(8);
        renderer.setErrorPaint(HUE);
        renderer.setErrorStroke(new BasicStroke(2));
        renderer.setSeriesPaint(0, HUE);
        renderer.setSeriesShape(0, new Ellipse2D.Double(-5, -5, 10, 10));
        return renderer;
    }

    private static XYLineAndShapeRenderer bars() {
        var renderer = new XYLineAndShapeRenderer(false, true);
        renderer.setSeriesPaint(0, INK);
        renderer.setSeriesShape(0, new Rectangle2D.Double(-1.5, -10, 3, 20));
        return renderer;
    }
}
