package limbqueue.picture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.picture.LegPicture.Label;
import limbqueue.triage.Side;

/** Lays the labels out in a column beside each leg, none upon another, each as near to what it names as it can be. */
final class Labels {

    private static final Arteries.LabelArea AREA = Arteries.DRAWN.labels();
    private static final double ARM_Y = 42;

    /** @param pointX on the right leg, whichever leg it is for */
    private record Wanted(List<String> text, double pointX, double pointY) {}

    private final Map<Side, List<Wanted>> wanted = new EnumMap<>(Side.class);
    private final List<Label> laidOut = new ArrayList<>();

    void add(Side side, List<String> text, double pointX, double pointY) {
        wanted.computeIfAbsent(side, _ -> new ArrayList<>()).add(new Wanted(text, pointX, pointY));
    }

    /** Lines that have a place of their own: the arm's above all others, the foot's below. */
    void fixed(Side side, String arm, List<String> foot) {
        laidOut.add(label(side, arm, ARM_Y));
        for (var i = 0; i < foot.size(); i++) {
            laidOut.add(label(side, foot.get(i), AREA.bottom() + (i + 1.5) * AREA.lineHeight()));
        }
    }

    List<Label> laidOut() {
        wanted.forEach((side, labels) -> laidOut.addAll(column(side, labels)));
        return laidOut;
    }

    private static List<Label> column(Side side, List<Wanted> labels) {
        labels.sort(Comparator.comparingDouble(Wanted::pointY));
        var most = (int) ((AREA.bottom() - AREA.top()) / AREA.lineHeight()) + 1;
        var shown = new ArrayList<Wanted>();
        var lines = 0;
        for (var i = 0; i < labels.size(); i++) {
            var label = labels.get(i);
            lines += label.text().size();
            // All but the last leave a line for the number of those that have no room.
            if (lines > most - (i == labels.size() - 1 ? 0 : 1)) {
                break;
            }
            shown.add(label);
        }
        var tops = tops(shown, shown.size() < labels.size() ? AREA.bottom() - AREA.lineHeight() : AREA.bottom());
        var column = new ArrayList<Label>();
        for (var i = 0; i < shown.size(); i++) {
            var label = shown.get(i);
            for (var line = 0; line < label.text().size(); line++) {
                var y = tops.get(i) + line * AREA.lineHeight();
                column.add(
                        line == 0
                                ? leading(side, label, y)
                                : label(side, label.text().get(line), y));
            }
        }
        if (shown.size() < labels.size()) {
            column.add(label(side, "+ " + (labels.size() - shown.size()) + " in words", AREA.bottom()));
        }
        return column;
    }

    /** The first baseline of each: at its point, below those before it, and with room for those after it. */
    private static List<Double> tops(List<Wanted> labels, double bottom) {
        var tops = new ArrayList<Double>();
        var free = AREA.top();
        for (var label : labels) {
            var top = Math.max(free, label.pointY() + 4);
            tops.add(top);
            free = top + label.text().size() * AREA.lineHeight();
        }
        var ends = bottom + AREA.lineHeight();
        for (var i = labels.size() - 1; i >= 0; i--) {
            ends = Math.min(tops.get(i), ends - labels.get(i).text().size() * AREA.lineHeight());
            tops.set(i, ends);
        }
        return tops;
    }

    private static Label leading(Side side, Wanted label, double y) {
        var width = Arteries.DRAWN.width();
        return side == Side.LEFT
                ? new Label(label.text().getFirst(), width - AREA.x(), y, false, width - label.pointX(), label.pointY())
                : new Label(label.text().getFirst(), AREA.x(), y, true, label.pointX(), label.pointY());
    }

    private static Label label(Side side, String text, double y) {
        var x = side == Side.LEFT ? Arteries.DRAWN.width() - AREA.x() : AREA.x();
        return new Label(text, x, y, side == Side.RIGHT, x, y);
    }
}
