package limbqueue.picture;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Segment;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * Where the arteries run on the picture, as {@code frontend/arteries.json} says: the browser draws by it too. The
 * patient's right leg, at the reader's left; the left leg is its mirror image.
 *
 * @param about what the file is, for its reader
 * @param width of the picture, in units of its own
 * @param height of the picture
 */
record Arteries(
        String about,
        double width,
        double height,
        List<Artery> segments,
        List<Part> body,
        List<Cut> cuts,
        Key key,
        LabelArea labels) {

    private static final String FILE = "/META-INF/resources/ui/arteries.json";

    static final Arteries DRAWN = read();

    /**
     * One segment.
     *
     * @param code as in the public format
     * @param up where the keyboard goes towards the heart; empty at its upper end
     * @param down where it goes towards the foot; empty where the artery ends
     * @param row which segments stand beside one another
     * @param width outer width of the drawn vessel
     * @param lengthMm how many millimetres of lesion fill the drawn segment; for drawing only
     * @param gone by level of amputation, from which share of the segment on it is gone
     * @param points waypoints from the heart outwards
     */
    record Artery(
            String code,
            String name,
            String up,
            String down,
            int row,
            double width,
            double lengthMm,
            Map<String, Double> gone,
            List<List<Double>> points) {

        Course course() {
            return Course.through(points);
        }

        boolean hasSides() {
            return !code.equals(Arteries.code(Segment.INFRARENAL_AORTA));
        }
    }

    /**
     * A part of the body's outline.
     *
     * @param edges {@code both} or {@code lateral}: which edges are drawn as lines
     * @param gone levels of amputation that take this part
     */
    record Part(String part, String edges, List<List<Double>> lateral, List<List<Double>> medial, List<String> gone) {}

    /**
     * Where an amputation is drawn.
     *
     * @param words as in {@code amputated below the knee}
     */
    record Cut(String code, String words, double y, double from, double to) {}

    /** The signs and what they mean. */
    record Key(int columns, double columnWidth, double rowHeight, List<Entry> entries) {

        record Entry(String words, String kind, double percent) {}
    }

    /**
     * Where labels stand.
     *
     * @param x where those of the right leg end
     * @param top baseline of the first line
     * @param bottom baseline of the last
     */
    record LabelArea(double x, double top, double bottom, double lineHeight) {}

    Artery of(Segment segment) {
        return segments.get(segment.ordinal());
    }

    Cut of(Amputation level) {
        return cuts.stream()
                .filter(cut -> cut.code().equals(code(level)))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("nothing is cut: " + level));
    }

    /** The name of a value in the public format: {@code COMMON_ILIAC} is {@code commonIliac}. */
    static String code(Enum<?> value) {
        var name = new StringBuilder();
        for (var word : value.name().split("_", -1)) {
            var lower = word.toLowerCase(Locale.ROOT);
            name.append(name.isEmpty() ? lower : lower.substring(0, 1).toUpperCase(Locale.ROOT) + lower.substring(1));
        }
        return name.toString();
    }

    private static Arteries read() {
        try (var file =
                Objects.requireNonNull(Arteries.class.getResourceAsStream(FILE), FILE + " is missing from the jar")) {
            return JsonMapper.builder()
                    .enable(
                            DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES,
                            DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
                    .build()
                    .readValue(file, Arteries.class);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(FILE + " cannot be read", unreadable);
        }
    }
}
