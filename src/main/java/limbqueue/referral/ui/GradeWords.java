package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Benefit;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.RutherfordScale;
import limbqueue.triage.TriageResult.Wifi;

/** The grades of a leg in words. */
final class GradeWords {

    private GradeWords() {}

    /** As {@code 5} or {@code acute IIa}. */
    static String category(Rutherford category) {
        return (category.scale() == RutherfordScale.ACUTE ? "acute " : "") + category.label();
    }

    /** What the category means, as the 1997 standards name it. */
    static String meaning(Rutherford category) {
        return switch (category) {
            case CHRONIC_0 -> "no symptoms";
            case CHRONIC_1 -> "mild claudication";
            case CHRONIC_2 -> "moderate claudication";
            case CHRONIC_3 -> "severe claudication";
            case CHRONIC_4 -> "rest pain";
            case CHRONIC_5 -> "minor tissue loss";
            case CHRONIC_6 -> "major tissue loss";
            case ACUTE_I -> "viable";
            case ACUTE_IIA -> "marginally threatened";
            case ACUTE_IIB -> "immediately threatened";
            case ACUTE_III -> "irreversible";
        };
    }

    /** What else is possible: {@code could be 4 to 6}; empty when nothing else is. */
    static String possible(RutherfordGrade grade) {
        return couldBe(grade.possible().size(), rutherfordRanges(grade.possible()));
    }

    static String possible(FontaineGrade grade) {
        return couldBe(
                grade.possible().size(),
                ranges(
                        grade.possible().stream().sorted().map(Enum::ordinal).toList(),
                        ordinal -> label(Fontaine.values()[ordinal])));
    }

    static String possible(Wifi wifi) {
        return couldBe(
                wifi.possibleStages().size(),
                ranges(wifi.possibleStages().stream().sorted().toList(), stage -> Integer.toString(stage)));
    }

    static String possible(LegResult leg) {
        var others = leg.chronicLimbThreateningPossible();
        return couldBe(others.size(), others.stream().map(GradeWords::answer).collect(Collectors.joining(" or ")));
    }

    /** As printed: {@code IIa}. */
    static String label(Fontaine grade) {
        return switch (grade) {
            case I -> "I";
            case IIA -> "IIa";
            case IIB -> "IIb";
            case III -> "III";
            case IV -> "IV";
        };
    }

    static String answer(Answer answer) {
        return switch (answer) {
            case YES -> "yes";
            case NO -> "no";
            case CANNOT_SAY -> "cannot say";
        };
    }

    static String benefit(Benefit benefit) {
        return switch (benefit) {
            case VERY_LOW -> "very low";
            case LOW -> "low";
            case MODERATE -> "moderate";
            case HIGH -> "high";
        };
    }

    /**
     * Both legs in short, for one line of a list: {@code right 5, left 2 to 3}. A leg that is known to be without
     * symptoms is left out.
     */
    static String inShort(TriageResult result) {
        var legs = new ArrayList<String>();
        for (var side : List.of(Side.RIGHT, Side.LEFT)) {
            var grade = result.legs().of(side).rutherford();
            if (!grade.possible().equals(List.of(Rutherford.CHRONIC_0))) {
                legs.add((side == Side.RIGHT ? "right " : "left ") + inShort(grade));
            }
        }
        return legs.isEmpty() ? "no symptoms" : String.join(", ", legs);
    }

    private static String inShort(RutherfordGrade grade) {
        var openEnded = grade.possible().size() > 1;
        return openEnded && grade.category() == Rutherford.CHRONIC_0
                ? "not known"
                : category(grade.category()) + (openEnded ? "?" : "");
    }

    private static String couldBe(int values, String words) {
        return values < 2 ? "" : "could be " + words;
    }

    private static String rutherfordRanges(List<Rutherford> possible) {
        var parts = new ArrayList<String>();
        for (var scale : RutherfordScale.values()) {
            var ordinals = possible.stream()
                    .filter(category -> category.scale() == scale)
                    .sorted()
                    .map(Enum::ordinal)
                    .toList();
            if (!ordinals.isEmpty()) {
                parts.add((scale == RutherfordScale.ACUTE ? "acute " : "")
                        + ranges(ordinals, ordinal -> Rutherford.values()[ordinal].label()));
            }
        }
        return String.join(", or ", parts);
    }

    /** Neighbours joined to ranges: 0, 4, 5, 6 become {@code 0, 4 to 6}. */
    private static String ranges(List<Integer> rising, java.util.function.IntFunction<String> label) {
        var parts = new ArrayList<String>();
        var start = 0;
        for (var at = 0; at < rising.size(); at++) {
            var last = at == rising.size() - 1;
            if (!last && rising.get(at + 1) == rising.get(at) + 1) {
                continue;
            }
            var from = label.apply(rising.get(start));
            var to = label.apply(rising.get(at));
            parts.add(start == at ? from : start + 1 == at ? from + " or " + to : from + " to " + to);
            start = at + 1;
        }
        return String.join(", ", parts);
    }
}
