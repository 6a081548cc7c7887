package limbqueue.picture;

import java.util.List;
import java.util.stream.Collectors;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.TriageResult;

/**
 * What is seen on the picture of the leg arteries, and the words that say the same. It holds findings as they were
 * reported and no proposal; what nobody has reported is shown as not known.
 *
 * @param lesionsKnown whether anybody has said which lesions there are, or that there are none
 * @param places every segment, from the aorta to the feet, the right leg before the left
 * @param marks what is drawn on the segments, in the order of drawing
 * @param cuts amputations, at most one a leg
 * @param labels words on the picture
 * @param caption what the picture as a whole must not leave unsaid
 * @param lines the same in words, line by line
 */
public record LegPicture(
        boolean lesionsKnown,
        List<Place> places,
        List<Mark> marks,
        List<Cut> cuts,
        List<Label> labels,
        String caption,
        List<Line> lines) {

    /**
     * One segment of one side.
     *
     * @param segment as in the public format
     * @param side {@code left} or {@code right}; empty for the aorta
     * @param name {@code right external iliac}
     * @param words what is reported of it, in a sentence without its name; says so when nothing is
     * @param goneFrom the share of its length, 0 to 1, from which on it was amputated; 1 when it was not
     */
    public record Place(String segment, String side, String name, String words, double goneFrom) {}

    /**
     * Something drawn on a segment.
     *
     * @param kind {@code stenosis}, {@code occlusion}, {@code unknown} (how narrow, nobody says), {@code moderate} or
     *     {@code severe} (calcification), {@code stent}, {@code bypass}, {@code aneurysm}
     * @param from where it begins, as a share of the segment's length, 0 to 1
     * @param to where it ends
     * @param percent how narrow a stenosis is, 0 to 100; 0 for other kinds
     */
    public record Mark(String kind, String segment, String side, double from, double to, double percent) {}

    /** @param level as in the public format */
    public record Cut(String level, String side) {}

    /**
     * Words on the picture.
     *
     * @param x where they begin, or end when {@code end}
     * @param y their baseline
     * @param end whether they end at {@code x}
     * @param pointX what they speak of; equal to {@code x} when no line leads there
     */
    public record Label(String text, double x, double y, boolean end, double pointX, double pointY) {

        boolean leads() {
            return pointX != x;
        }
    }

    /**
     * A line of the words.
     *
     * @param both what is said of both sides, or of what has none; empty when each side is spoken of alone
     */
    public record Line(String label, String right, String left, String both) {}

    public LegPicture {
        places = List.copyOf(places);
        marks = List.copyOf(marks);
        cuts = List.copyOf(cuts);
        labels = List.copyOf(labels);
        lines = List.copyOf(lines);
    }

    /** All lines as one text. */
    public String inWords() {
        return lines.stream()
                .map(line -> line.label() + ": "
                        + (line.both().isEmpty() ? "right " + line.right() + ", left " + line.left() : line.both()))
                .collect(Collectors.joining(". ", "Leg arteries. ", "."));
    }

    /**
     * The picture of this referral.
     *
     * @param result what was computed from {@code document}: the indices are taken from there
     */
    public static LegPicture of(ReferralDocument document, TriageResult result) {
        return new LegFindings(document, result).picture();
    }
}
