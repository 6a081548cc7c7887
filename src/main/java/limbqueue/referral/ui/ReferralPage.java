package limbqueue.referral.ui;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.document.Reading;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.TriageResult;

/**
 * One referral as a physician reads it: what is held, what was understood of it, and what is proposed today.
 *
 * @param draft the document as it was typed
 * @param reading what could be read of it
 */
record ReferralPage(Referral referral, Draft draft, Reading reading, TriageResult proposal, LocalDate today) {

    static ReferralPage of(Referrals referrals, Referral referral) {
        var triaged = referrals.triaged(referral);
        return new ReferralPage(
                referral, Draft.of(referral.document()), triaged.reading(), triaged.proposal(), referrals.today());
    }

    ReferralDocument document() {
        return reading.document();
    }

    /** Family and given name; says so when neither is known. */
    String patient() {
        var name = Stream.of(document().patient().family(), document().patient().given())
                .flatMap(Optional::stream)
                .collect(Collectors.joining(", "));
        return name.isEmpty() ? "Name not known" : name;
    }

    /** What the referring doctor asked for: {@code stat, faster on personal grounds}; empty when nothing was. */
    String asked() {
        var faster = document()
                .asked()
                .expedite()
                .filter(Boolean::booleanValue)
                .map(yes -> "faster"
                        + draft.get("asked.expediteGrounds")
                                .map(grounds -> ", grounds: "
                                        + FieldWords.value("asked.expediteGrounds", grounds)
                                                .toLowerCase(Locale.ROOT))
                                .orElse(", no grounds given"));
        return Stream.of(
                        draft.get("asked.priority")
                                .map(priority -> FieldWords.value("asked.priority", priority)
                                        .toLowerCase(Locale.ROOT)),
                        faster)
                .flatMap(Optional::stream)
                .collect(Collectors.joining("; "));
    }

    /** Whether words chosen from a list say something: "not stated" does not. */
    static boolean stated(String words) {
        return !words.equalsIgnoreCase("not stated");
    }

    /** A value of the document as it was typed, in words. */
    Optional<String> value(String path) {
        return draft.get(path).map(value -> FieldWords.value(path, value)).filter(words -> !words.isBlank());
    }
}
