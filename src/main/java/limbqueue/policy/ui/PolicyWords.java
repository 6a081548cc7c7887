package limbqueue.policy.ui;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.policy.PolicyNumber;
import limbqueue.policy.PolicyPreview.Line;
import limbqueue.policy.PolicyPreview.WorkUp;
import limbqueue.practice.PolicyVersion;
import limbqueue.referral.Placing;
import limbqueue.referral.ReferralState;
import limbqueue.shell.DayWords;
import limbqueue.triage.Policy.Metformin;

/** Policies and what they move, in words. */
final class PolicyWords {

    private PolicyWords() {}

    /** Everything that a version says: what it is about, and the value with its unit. */
    static Map<String, String> of(PolicyVersion version) {
        var words = new LinkedHashMap<String, String>();
        for (var number : PolicyNumber.values()) {
            words.put(
                    about(number),
                    amount(number.of(version.policy()), number.range().unit()));
        }
        words.put("Metformin about contrast into an artery", of(version.policy().metformin()));
        words.put(
                "Second look: tier lowered against a red flag",
                yesOrNo(version.secondLook().loweredAgainstRedFlag()));
        words.put(
                "Second look: tier lowered below a limb-threatening grade",
                yesOrNo(version.secondLook().loweredBelowLimbThreat()));
        return words;
    }

    private static String about(PolicyNumber number) {
        return (number.ofTier() ? "Target of the tier " : "Validity: ") + number.label();
    }

    static String of(Metformin metformin) {
        return switch (metformin) {
            case DRUG_LABEL -> "by the drug label: held about every contrast";
            case CONTRAST_MANUAL -> "by the contrast manual: held at low or unknown kidney function only";
        };
    }

    static String amount(int value, String unit) {
        return value + " " + (value == 1 ? unit.substring(0, unit.length() - 1) : unit);
    }

    private static String yesOrNo(boolean yes) {
        return yes ? "yes" : "no";
    }

    static String of(ReferralState state) {
        return switch (state) {
            case DRAFT -> "being entered";
            case QUEUED -> "with the physician";
            case INFORMATION_NEEDED -> "information needed";
            case APPROVED -> "approved";
            case RETURNED -> "returned";
            case SENT_TO_HOSPITAL -> "sent to hospital";
        };
    }

    static String place(Placing placing) {
        return placing.tier().words()
                + placing.targetDate().map(day -> ", by " + DayWords.date(day)).orElse("");
    }

    static String flags(Placing placing) {
        return placing.flags().isEmpty()
                ? "none"
                : placing.flags().stream().map(code -> code.replace('-', ' ')).collect(Collectors.joining(", "));
    }

    /** Only the items that differ, as they stand on one side. */
    static List<String> workUp(Line line, boolean after) {
        var mine = byCode(after ? line.workUpAfter() : line.workUpBefore());
        var other = byCode(after ? line.workUpBefore() : line.workUpAfter());
        var words = new ArrayList<String>();
        mine.forEach((code, item) -> {
            if (!item.equals(other.get(code))) {
                words.add(item.text() + ": " + standing(item.needed(), item.validUntil()));
            }
        });
        other.forEach((code, item) -> {
            if (!mine.containsKey(code)) {
                words.add("Not asked: " + item.text());
            }
        });
        return words;
    }

    private static Map<String, WorkUp> byCode(List<WorkUp> items) {
        return items.stream()
                .collect(Collectors.toMap(WorkUp::code, Function.identity(), (one, _) -> one, LinkedHashMap::new));
    }

    private static String standing(boolean needed, Optional<LocalDate> validUntil) {
        return validUntil
                .map(day ->
                        (needed ? "needed, the result held is good until " : "held, good until ") + DayWords.date(day))
                .orElse(needed ? "needed" : "held");
    }

    /** {@code 12 would move, 3 more would get another work-up, 20 stay as they are}. */
    static String summary(int moving, int otherWorkUp, int staying) {
        return moving + " would move, " + otherWorkUp + " more would get another work-up, " + staying
                + (staying == 1 ? " stays as it is" : " stay as they are");
    }
}
