package limbqueue.chasing;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Imaging;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.Side;

/**
 * An examination or procedure of the document of which another hospital holds something.
 *
 * @param hospital where it was, as written; empty when that is not known
 * @param about what it was, in the words of a letter
 * @param reportMissing whether its report is not held
 * @param imagesMissing whether its images are not held
 */
public record OutsideRecord(Entry entry, String hospital, String about, boolean reportMissing, boolean imagesMissing) {

    /** Lists of the document. */
    public enum EntryList {
        IMAGING("imaging"),
        PROCEDURES("procedures");

        private final String path;

        EntryList(String path) {
            this.path = path;
        }

        /** Its name in the public format. */
        public String path() {
            return path;
        }

        /** @throws IllegalArgumentException if there is no list of this name */
        public static EntryList of(String path) {
            for (var list : values()) {
                if (list.path.equals(path)) {
                    return list;
                }
            }
            throw new IllegalArgumentException("no such list of the document: " + path);
        }
    }

    /**
     * An entry of the document, found again when the entries have moved.
     *
     * @param facts what it was, when and where
     */
    public record Entry(EntryList list, String facts) {}

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.UK);

    /** What other hospitals may hold of this patient and is not here: procedures first, each list in its order. */
    public static List<OutsideRecord> missing(ReferralDocument document) {
        return all(document)
                .filter(one -> one.reportMissing() || one.imagesMissing())
                .toList();
    }

    /** The path of this entry, as {@code procedures[1]}; empty if the document has it no more. */
    public static Optional<String> path(ReferralDocument document, Entry entry) {
        var paths = new ArrayList<String>();
        switch (entry.list()) {
            case PROCEDURES -> {
                var procedures = document.procedures().orElse(List.of());
                for (var i = 0; i < procedures.size(); i++) {
                    if (of(procedures.get(i)).entry().equals(entry)) {
                        paths.add("procedures[" + i + "]");
                    }
                }
            }
            case IMAGING -> {
                var imaging = document.imaging().orElse(List.of());
                for (var i = 0; i < imaging.size(); i++) {
                    if (of(imaging.get(i)).entry().equals(entry)) {
                        paths.add("imaging[" + i + "]");
                    }
                }
            }
        }
        return paths.stream().findFirst();
    }

    private static Stream<OutsideRecord> all(ReferralDocument document) {
        return Stream.concat(
                document.procedures().orElse(List.of()).stream().map(OutsideRecord::of),
                document.imaging().orElse(List.of()).stream().map(OutsideRecord::of));
    }

    private static OutsideRecord of(Procedure procedure) {
        var about = about(
                procedure.kind().map(OutsideRecord::words).orElse("procedure"), procedure.side(), procedure.date());
        return new OutsideRecord(
                new Entry(EntryList.PROCEDURES, facts(about, procedure.where())),
                procedure.where().map(String::strip).orElse(""),
                about,
                !procedure.reportHeld().orElse(false),
                !procedure.imagesHeld().orElse(false));
    }

    private static OutsideRecord of(Imaging imaging) {
        var about = about(imaging.kind().map(OutsideRecord::words).orElse("imaging"), imaging.side(), imaging.date());
        return new OutsideRecord(
                new Entry(EntryList.IMAGING, facts(about, imaging.where())),
                imaging.where().map(String::strip).orElse(""),
                about,
                !imaging.reportHeld().orElse(false),
                !imaging.imagesHeld().orElse(false));
    }

    private static String facts(String about, Optional<String> where) {
        return about + where.map(place -> ", " + place).orElse("");
    }

    private static String about(String what, Optional<Side> side, Optional<LocalDate> date) {
        return Stream.of(
                        Optional.of(what),
                        side.map(one -> one == Side.LEFT ? "left leg" : "right leg"),
                        date.map(DATE::format))
                .flatMap(Optional::stream)
                .collect(Collectors.joining(", "));
    }

    private static String words(ProcedureKind kind) {
        return switch (kind) {
            case ANGIOGRAM -> "angiogram";
            case ANGIOPLASTY -> "angioplasty";
            case STENT -> "stent placement";
            case THROMBECTOMY -> "thrombectomy";
            case BYPASS -> "bypass operation";
            case ENDARTERECTOMY -> "endarterectomy";
            case AMPUTATION -> "amputation";
            case ANEURYSM_REPAIR -> "aneurysm repair";
        };
    }

    private static String words(ImagingKind kind) {
        return switch (kind) {
            case DUPLEX -> "duplex examination";
            case CTA -> "CT angiogram";
            case MRA -> "MR angiogram";
            case ANGIOGRAM -> "angiogram";
            case RADIOGRAPH -> "radiograph";
        };
    }
}
