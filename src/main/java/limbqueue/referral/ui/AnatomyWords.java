package limbqueue.referral.ui;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.Region;
import limbqueue.triage.TriageResult.Tasc;

/** What the reported lesions amount to, in words. GLASS is marked as seen in secondary copies wherever it is shown. */
final class AnatomyWords {

    /** One line of the grades of both legs. */
    enum Line {
        AORTO_ILIAC("TASC II, aorto\u2011iliac"),
        FEMOROPOPLITEAL("TASC II, femoro\u2011popliteal"),
        GLASS("GLASS, from secondary copies");

        private final String title;

        Line(String title) {
            this.title = title;
        }

        String title() {
            return title;
        }

        /** The entry of one side; empty where none is reported there. */
        Optional<Anatomy> of(TriageResult result, Side side) {
            return result.anatomy().stream()
                    .filter(entry -> entry.side() == side && shows(entry))
                    .findFirst();
        }

        boolean isOf(TriageResult result) {
            return result.anatomy().stream().anyMatch(this::shows);
        }

        /** Whether an entry has something to say in this line. */
        private boolean shows(Anatomy entry) {
            return switch (this) {
                case AORTO_ILIAC -> entry.region() == Region.AORTO_ILIAC;
                case FEMOROPOPLITEAL -> entry.region() == Region.FEMOROPOPLITEAL;
                case GLASS -> entry.glassFemoropopliteal().isPresent();
            };
        }

        /** As {@code type B} or {@code stage 2 (3‑1)}, the grades between groin and knee and below it in brackets. */
        String value(Anatomy entry) {
            return this == GLASS ? stage(entry) : type(entry);
        }

        /** As {@code A to C}; empty when nothing else is possible. */
        String possible(Anatomy entry) {
            return this == GLASS ? stages(entry.glassPossible()) : types(entry.possible());
        }

        /** Whether the value is the mildest that is possible. */
        boolean mildest(Anatomy entry) {
            return this == GLASS
                    ? entry.glass().orElse(0).equals(entry.glassPossible().getFirst())
                    : entry.tasc().orElse(Tasc.NONE) == entry.possible().getFirst();
        }
    }

    private AnatomyWords() {}

    private static String type(Anatomy entry) {
        return entry.tasc().map(type -> "type " + type.label()).orElse("no type");
    }

    private static String stage(Anatomy entry) {
        return entry.glass()
                .map(stage ->
                        "stage " + stage + " (" + entry.glassFemoropopliteal().orElse(0) + "\u2011"
                                + entry.glassInfrapopliteal().orElse(0) + ")")
                .orElse("no stage");
    }

    private static String types(List<Tasc> possible) {
        return possible.size() < 2 ? "" : TierWords.types(possible);
    }

    private static String stages(List<Integer> possible) {
        return possible.size() < 2 ? "" : TierWords.anatomicStages(possible);
    }

    /** Of the reasons of a result those that say which row the lesions meet. */
    static List<Reason> reasons(TriageResult result) {
        return result.reasons().stream().filter(AnatomyWords::isAnatomic).toList();
    }

    static boolean isAnatomic(Reason reason) {
        return reason.rule().startsWith("tasc-") || reason.rule().equals("glass");
    }
}
