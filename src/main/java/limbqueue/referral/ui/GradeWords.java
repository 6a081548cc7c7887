package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.RutherfordScale;
import limbqueue.triage.TriageResult.Wifi;

/** What the unknowns still allow for the grades of a leg, and both legs in short. */
final class GradeWords {

    /** The sides as they are laid out: the patient faces the reader. */
    static final List<Side> AS_PATIENT_FACES = List.of(Side.RIGHT, Side.LEFT);

    private GradeWords() {}

    /** As {@code could be 4 to 6, or acute I}; empty when only one category is possible. */
    static String possible(RutherfordGrade grade) {
        var parts = new ArrayList<String>();
        for (var scale : RutherfordScale.values()) {
            var ordinals = grade.possible().stream()
                    .filter(category -> category.scale() == scale)
                    .sorted()
                    .map(Enum::ordinal)
                    .toList();
            if (!ordinals.isEmpty()) {
                parts.add((scale == RutherfordScale.ACUTE ? "acute " : "")
                        + ranges(ordinals, ordinal -> Rutherford.values()[ordinal].label()));
            }
        }
        return couldBe(grade.possible().size(), String.join(", or ", parts));
    }

    static String possible(FontaineGrade grade) {
        var ordinals = grade.possible().stream().sorted().map(Enum::ordinal).toList();
        return couldBe(ordinals.size(), ranges(ordinals, ordinal -> TierWords.grade(Fontaine.values()[ordinal])));
    }

    static String possible(Wifi wifi) {
        var stages = wifi.possibleStages().stream().sorted().toList();
        return couldBe(stages.size(), "stage " + ranges(stages, Integer::toString));
    }

    /** Whether the leg could be limb-threatening or not. */
    static String possible(LegResult leg) {
        var others = leg.chronicLimbThreateningPossible().stream()
                .filter(answer -> answer != leg.chronicLimbThreatening())
                .toList();
        return others.isEmpty() ? "" : "could be " + TierWords.answers(others);
    }

    /**
     * The Rutherford category of both legs, for one line of a list: {@code right 5, left 2}. A question mark says that
     * unknowns still allow another; a leg known to be without symptoms is left out.
     */
    static String inShort(TriageResult result) {
        var legs = new ArrayList<String>();
        for (var side : AS_PATIENT_FACES) {
            var grade = result.legs().of(side).rutherford();
            if (!grade.possible().equals(List.of(Rutherford.CHRONIC_0))) {
                legs.add(side(side) + " " + inShort(grade));
            }
        }
        return legs.isEmpty() ? "no symptoms" : String.join(", ", legs);
    }

    /** {@code right} or {@code left}. */
    static String side(Side side) {
        return side == Side.RIGHT ? "right" : "left";
    }

    /** {@code Right leg} or {@code Left leg}. */
    static String leg(Side side) {
        return side == Side.RIGHT ? "Right leg" : "Left leg";
    }

    private static String inShort(RutherfordGrade grade) {
        var open = grade.possible().size() > 1;
        if (open && grade.category() == Rutherford.CHRONIC_0) {
            return "not known";
        }
        return TierWords.category(grade.category()) + (open ? "?" : "");
    }

    private static String couldBe(int values, String words) {
        return values < 2 ? "" : "could be " + words;
    }

    /** Neighbours joined to ranges: 0, 4, 5, 6 become {@code 0, 4 to 6}. */
    private static String ranges(List<Integer> rising, IntFunction<String> label) {
        var parts = new ArrayList<String>();
        var start = 0;
        for (var at = 0; at < rising.size(); at++) {
            var last = at == rising.size() - 1;
            if (!last && rising.get(at + 1) == rising.get(at) + 1) {
                continue;
            }
            var from = label.apply(rising.get(start));
            var to = label.apply(rising.get(at));
            if (at == start) {
                parts.add(from);
            } else {
                parts.add(from + (at == start + 1 ? " or " : " to ") + to);
            }
            start = at + 1;
        }
        return String.join(", ", parts);
    }
}
