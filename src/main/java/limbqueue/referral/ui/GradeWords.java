package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.Wifi;

/** What the unknowns still allow for the grades of a leg, and both legs in short. */
final class GradeWords {

    /** The sides as they are laid out: the patient faces the reader. */
    static final List<Side> AS_PATIENT_FACES = List.of(Side.RIGHT, Side.LEFT);

    /** Fontaine's stages are of chronic disease: that an acutely threatened leg has none must not read as stage I. */
    static final String ACUTE_HAS_NO_STAGE = "none, acute";

    private GradeWords() {}

    /** As {@code could be 4 to 6 or acute I}; empty when only one category is possible. */
    static String possible(RutherfordGrade grade) {
        return couldBe(grade.possible().size(), TierWords.categories(grade.possible()));
    }

    static String possible(FontaineGrade grade) {
        return couldBe(grade.possible().size(), TierWords.grades(grade.possible()));
    }

    static String possible(Wifi wifi) {
        return couldBe(wifi.possibleStages().size(), TierWords.stages(wifi.possibleStages()));
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
        return values < 2 ? "" : couldBe(words);
    }

    /** {@code words} as what could be; empty when they are. */
    static String couldBe(String words) {
        return words.isEmpty() ? "" : "could be " + words;
    }
}
