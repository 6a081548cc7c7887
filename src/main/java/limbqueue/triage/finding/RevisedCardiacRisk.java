package limbqueue.triage.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * The revised cardiac risk index (lee-1999): one point for each of six factors. It was not derived for procedures from
 * within under local anaesthetic. Ischaemic heart disease other than a bypass and a recent infarction has no field, and
 * stays possible.
 *
 * @param present the factors that are shown, in words
 * @param open the factors that are not known, in words
 */
public record RevisedCardiacRisk(List<String> present, List<String> open) {

    private static final int MOST_GROUPS = 3;

    /** Major cardiac complications in percent with 0, 1, 2, and 3 or more factors, as printed (lee-1999, abstract). */
    private static final List<String> DERIVATION = List.of("0.5", "1.3", "4", "9");

    private static final List<String> VALIDATION = List.of("0.4", "0.9", "7", "11");

    public static RevisedCardiacRisk of(ReferralDocument document, Limits limits) {
        var present = new ArrayList<String>();
        var open = new ArrayList<String>();
        var history = document.history();
        sort("surgery above the groin", aboveTheGroin(document), present, open);
        sort("ischaemic heart disease", ischaemicHeart(document), present, open);
        sort("heart failure", history.heartFailure(), present, open);
        sort("stroke", history.stroke(), present, open);
        sort("insulin", insulin(document), present, open);
        sort(
                "creatinine above the limit",
                Creatinine.latest(document)
                        .map(creatinine -> creatinine.mgPerDl() > limits.of(Limit.CARDIAC_RISK_CREATININE_MORE_THAN)),
                present,
                open);
        return new RevisedCardiacRisk(List.copyOf(present), List.copyOf(open));
    }

    private static void sort(String factor, Optional<Boolean> answer, List<String> present, List<String> open) {
        if (answer.isEmpty()) {
            open.add(factor);
        } else if (answer.get()) {
            present.add(factor);
        }
    }

    /** Unknown while nobody reported any lesion. */
    private static Optional<Boolean> aboveTheGroin(ReferralDocument document) {
        return document.lesions().map(lesions -> Entries.any(lesions, BleedingClass::inAortaOrPelvis));
    }

    private static Optional<Boolean> ischaemicHeart(ReferralDocument document) {
        return document.history().coronaryBypass().orElse(false)
                        || document.history().recentMyocardialInfarctionDays().isPresent()
                ? Optional.of(true)
                : Optional.empty();
    }

    private static Optional<Boolean> insulin(ReferralDocument document) {
        if (document.medicines().isPresent()) {
            return Optional.of(Entries.any(
                    document.medicines().get(),
                    medicine -> medicine.name().map(Substances::isInsulin).orElse(false)));
        }
        return document.history().diabetes().filter(diabetes -> !diabetes);
    }

    /** Points with every unknown at its best. */
    public int least() {
        return present.size();
    }

    /** Points with every unknown at its worst. */
    public int most() {
        return present.size() + open.size();
    }

    /** Points, percentages of both sets of patients, and what is not known. */
    public String words() {
        return Sentence.of(
                        "%s points: major cardiac complications in %s %% of the patients of its validation and %s %% of"
                                + " those of its derivation",
                        range(Integer.toString(least()), Integer.toString(most())),
                        percent(VALIDATION),
                        percent(DERIVATION))
                + (open.isEmpty() ? "" : "; not known: " + String.join(", ", open));
    }

    private String percent(List<String> printed) {
        return range(printed.get(Math.min(least(), MOST_GROUPS)), printed.get(Math.min(most(), MOST_GROUPS)));
    }

    private static String range(String from, String to) {
        return from.equals(to) ? from : from + " to " + to;
    }
}
