package limbqueue.testbed;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.testbed.PrintedPage.Line;

/** Envelopes with a window, and what is seen of a folded sheet in them, wherever it slips. Millimetres. */
public enum WindowEnvelope {
    /**
     * DL: 220 by 110, the window 90 by 45, 20 from the left and 15 from below (DIN 680, as told in de.wiki.li, DIN lang); A4
     * folded at 105 from above (DIN 5008:2020, form B, as told in de.wiki.li, Falzmarke).
     */
    DL(220, 110, 20, 15, 90, 45, 210, 297, 105, 0),

    /**
     * No. 10: 9 1/2 by 4 1/8 in (crst.net, Window envelope sizes), the window 4 1/2 by 1 1/8 in, 7/8 in from the left and 1/2 in
     * from below (businessenvelopes.com, Window envelopes: the complete guide). An eighth of an inch is to be free around the
     * address (USPS DMM 601.6.3, as told by des.wa.gov). US Letter folded at our own marks, 4 in from above.
     */
    NO_10(241.3, 104.775, 22.225, 12.7, 114.3, 28.575, 215.9, 279.4, 101.6, 3.175),

    /** The same, folded in three equal parts; no more is asked than that the address is seen. */
    NO_10_IN_THIRDS(241.3, 104.775, 22.225, 12.7, 114.3, 28.575, 215.9, 279.4, 279.4 / 3, 0);

    private static final double ROUNDED = 0.01;

    private final double left;
    private final double above;
    private final double width;
    private final double height;
    private final double paperWidth;
    private final double paperHeight;
    private final double free;
    private final double slipsRight;
    private final double slipsDown;

    WindowEnvelope(
            double envelopeWidth,
            double envelopeHeight,
            double left,
            double below,
            double width,
            double height,
            double paperWidth,
            double paperHeight,
            double folded,
            double free) {
        this.left = left;
        this.above = envelopeHeight - below - height;
        this.width = width;
        this.height = height;
        this.paperWidth = paperWidth;
        this.paperHeight = paperHeight;
        this.free = free;
        this.slipsRight = envelopeWidth - paperWidth;
        this.slipsDown = envelopeHeight - folded;
    }

    public double paperWidth() {
        return paperWidth;
    }

    public double paperHeight() {
        return paperHeight;
    }

    /** Whether the line is seen, with what has to be free around it, wherever the sheet lies. */
    public boolean alwaysShows(Line line) {
        return line.left() - free + ROUNDED >= left
                && line.right() + slipsRight + free <= left + width
                && line.top() - free >= above
                && line.bottom() + slipsDown + free <= above + height;
    }

    /** Whether anything of the line is seen where the sheet lies in some place. */
    public boolean mayShow(Line line) {
        return line.right() + slipsRight > left
                && line.left() < left + width
                && line.bottom() + slipsDown > above
                && line.top() < above + height;
    }

    /**
     * That these lines, and of all others only those of the sender, are seen in the window.
     *
     * @param page of the finished PDF
     * @param sender may be seen too, above the address
     */
    public void assertShows(List<Line> page, List<String> address, String sender) {
        var first = page.stream()
                .filter(line -> line.text().equals(address.getFirst()))
                .findFirst()
                .orElseThrow(() -> new AssertionError(address.getFirst() + " does not stand on the page"));
        var shown = page.stream().filter(this::mayShow).toList();
        assertThat(shown.stream()
                        .filter(line -> line.bottom() > first.top() || !sender.contains(line.text()))
                        .map(Line::text))
                .containsExactlyElementsOf(address);
        assertThat(shown.stream().filter(line -> line.bottom() > first.top()))
                .allSatisfy(line ->
                        assertThat(alwaysShows(line)).as("%s in %s", line, this).isTrue());
    }
}
