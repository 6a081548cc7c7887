package limbqueue.letter;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.letter.wording.Template;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.CaseOutcome;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import org.springframework.stereotype.Component;

/** Letters as they would be if what they tell of happened today. Nothing of it is kept. */
@Component
class LetterPreviews {

    private static final String PHYSICIAN = "Dr … (who decides)";
    private static final String REASON = "… (what the physician writes)";
    private static final String ROOM = "… (the room)";

    private final PracticeSettings settings;
    private final Clock clock;

    LetterPreviews(PracticeSettings settings, Clock clock) {
        this.settings = settings;
        this.clock = clock;
    }

    /** A referral of which nothing is known. */
    ProposedCase unknown() {
        var today = LocalDate.now(clock);
        var document = Draft.of("{}").read(today).document();
        var proposal = Triage.triage(document, settings.policy(), today);
        return new ProposedCase(
                new Referral(0, 1, "…", ReferralState.QUEUED, today, "{}", "", Instant.EPOCH, Optional.empty()),
                document,
                proposal,
                Optional.empty(),
                proposal.urgency().targetDate());
    }

    Parts of(LetterKind kind, String language, Template template, ProposedCase about) {
        var writer = new LetterWriter(settings.practice(), (_, _) -> template, language);
        var today = LocalDate.now(clock);
        var letter = switch (kind) {
            case RECEIVED -> writer.received(about.referral(), about.document(), today);
            case INFORMATION_NEEDED -> decided(writer, about, DecisionKind.INFORMATION_ASKED, today);
            case TRIAGED -> decided(writer, about, DecisionKind.APPROVED, today);
            case ADVICE -> decided(writer, about, DecisionKind.CHANGED, today);
            case SENT_TO_HOSPITAL -> decided(writer, about, DecisionKind.SENT_TO_HOSPITAL, today);
            case RETURNED -> decided(writer, about, DecisionKind.RETURNED, today);
            case BOOKED, CHANGED, CANCELLED, PATIENT_APPOINTMENT, PATIENT_CHANGED, PATIENT_CANCELLED ->
                writer.visit(
                        kind,
                        about.referral(),
                        about.document(),
                        today,
                        new Visit(StepKind.PROCEDURE, today.plusWeeks(1).atTime(8, 30), ROOM));
            case DONE -> writer.done(about.referral(), about.document(), today, today, CaseOutcome.AS_PLANNED);
        };
        return letter.parts();
    }

    private WrittenLetter decided(LetterWriter writer, ProposedCase about, DecisionKind kind, LocalDate today) {
        var policy = settings.policy();
        var tier = tier(kind, about.tier());
        var decision = new DecisionRecord(
                0,
                about.referral().id(),
                kind,
                PHYSICIAN,
                clock.instant(),
                policy.id(),
                Optional.empty(),
                today,
                "{}",
                "{}",
                about.proposal().urgency().tier(),
                tier,
                policy.targetDate(tier, about.referral().received()),
                Map.of(),
                REASON);
        return writer.decided(
                new ReferralDecided(about.referral(), decision, about.document(), about.proposal(), policy));
    }

    /** One that makes the letter of this kind, whatever is proposed. */
    private static Tier tier(DecisionKind kind, Tier proposed) {
        return switch (kind) {
            case CHANGED -> Tier.ADVICE_ONLY;
            case SENT_TO_HOSPITAL -> Tier.SAME_DAY;
            default -> proposed == Tier.ADVICE_ONLY ? Tier.WITHIN_18_WEEKS : proposed;
        };
    }
}
