package limbqueue.letter;

import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import limbqueue.access.NotPossibleException;
import limbqueue.letter.jdbc.LetterStore;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.DecisionTakenBack;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.ReferralSubmitted;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Writes the letter that a step of a referral calls for, in the transaction of that step: none goes without its letter. */
@Component
class LetterDesk {

    private final LetterStore store;
    private final PracticeSettings settings;
    private final JsonMapper json;
    private final Clock clock;

    LetterDesk(LetterStore store, PracticeSettings settings, JsonMapper json, Clock clock) {
        this.store = store;
        this.settings = settings;
        this.json = json;
        this.clock = clock;
    }

    /** Says that the referral has arrived: once, also when it is submitted again with what was asked for. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(ReferralSubmitted submitted) {
        var referral = submitted.referral();
        if (!store.receivedWritten(referral.id())) {
            var today = LocalDate.now(clock);
            keep(referral, Optional.empty(), today, writer().received(referral, submitted.document(), today));
        }
    }

    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(ReferralDecided decided) {
        var decision = decided.decision();
        keep(decided.referral(), Optional.of(decision), decision.asOf(), writer().decided(decided));
    }

    /** The letter of a decision that was taken back never leaves. */
    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(DecisionTakenBack takenBack) {
        if (!store.withdraw(takenBack.decision().id(), clock.instant().truncatedTo(ChronoUnit.MICROS))) {
            throw new NotPossibleException(
                    "The letter about this decision has left, so the decision stands. Telephone the"
                            + " referring doctor, and enter what is new as a result.");
        }
    }

    private LetterWriter writer() {
        return new LetterWriter(settings.practice());
    }

    private void keep(Referral referral, Optional<DecisionRecord> decision, LocalDate dated, WrittenLetter letter) {
        store.add(
                referral.id(),
                decision.map(DecisionRecord::id),
                letter.kind(),
                referral.reference(),
                letter.patient(),
                letter.recipient(),
                letter.channel(),
                dated,
                clock.instant().truncatedTo(ChronoUnit.MICROS),
                json.writeValueAsString(letter.parts()),
                letter.parts().asText());
    }
}
