package limbqueue.chasing.ui;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import limbqueue.chasing.PhoneCall;
import limbqueue.chasing.RecordsRequest;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.DayWords;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;

/** Requests, calls and tiers in the words of these screens. */
final class ChasingWords {

    private ChasingWords() {}

    static String of(PhoneCall call) {
        return switch (call.kind()) {
            case SAFETY ->
                "Safety call: "
                        + switch (call.outcome().orElseThrow()) {
                            case UNCHANGED -> "unchanged";
                            case WORSE -> "worse";
                            case NOT_REACHED -> "not reached";
                        };
            case RECORDS -> "About records";
            case INFORMATION -> "About what the physician asked";
            case OTHER -> "Call";
        };
    }

    static String of(PhoneCall.Kind kind) {
        return switch (kind) {
            case SAFETY -> "How the patient is";
            case RECORDS -> "Records of another hospital";
            case INFORMATION -> "What the physician asked for";
            case OTHER -> "Something else";
        };
    }

    /** Where a request stands. */
    static String state(RecordsRequest request, LocalDate today) {
        var came = request.reportCameOn()
                .map(day -> "report came on " + DayWords.date(day))
                .map(words -> request.imagesCameOn()
                        .map(day -> words + ", images on " + DayWords.date(day))
                        .orElse(words))
                .or(() -> request.imagesCameOn().map(day -> "images came on " + DayWords.date(day)));
        var rest = request.givenUpBecause()
                .map(why -> request.missing() + " given up: " + why)
                .or(() ->
                        request.next().map(next -> "waiting for the " + request.missing() + "; " + next(next, today)));
        return came.map(words -> words + rest.map(more -> "; " + more).orElse(""))
                .or(() -> rest)
                .map(ChasingWords::sentence)
                .orElse("");
    }

    private static String next(RecordsRequest.Next next, LocalDate today) {
        return switch (next.step()) {
                    case SECOND_REQUEST -> "second letter";
                    case THIRD_REQUEST -> "third letter";
                    case TELEPHONE -> "call them";
                }
                + " " + DayWords.until(next.on(), today) + " (" + DayWords.date(next.on()) + ")";
    }

    static String letter(int number) {
        return switch (number) {
            case 1 -> "First letter";
            case 2 -> "Second letter";
            default -> "Third letter";
        };
    }

    static String tier(Tier tier, Policy policy) {
        return sentence(TierPhrase.of(tier, policy));
    }

    /** What is proposed, with its day: {@code within 14 days, by 3 Nov 2026}. */
    static String proposed(TriageResult proposal, PracticeSettings settings) {
        return TierPhrase.of(proposal.urgency().tier(), settings.policy())
                + proposal.urgency()
                        .targetDate()
                        .filter(_ -> proposal.urgency().tier() != Tier.SAME_DAY)
                        .map(day -> ", by " + DayWords.date(day))
                        .orElse("");
    }

    static String sentence(String words) {
        return words.isEmpty() ? words : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    static String day(Optional<LocalDate> day) {
        return day.map(DayWords::date).orElse("");
    }
}
