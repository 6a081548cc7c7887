package limbqueue.referral;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.referral.jdbc.ReferralQuery.Row;
import limbqueue.referral.jdbc.ReferralQuery.Standing;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument.Patient;
import limbqueue.triage.ReferralDocument.Referrer;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.rule.RuleBook;

/** Makes the lines of the lists: the one place where a whole list is triaged. */
final class ReferralLines {

    /**
     * @param waitingSince the day from which the patient has waited
     * @param worsening whether a leg is said to be getting worse
     */
    record Placed(ReferralLine line, LocalDate waitingSince, boolean worsening) {}

    /** Most urgent tier first, then target date, then who has waited longest, then whose leg is getting worse. */
    static final Comparator<Placed> MOST_URGENT_FIRST = Comparator.comparing(
                    (Placed placed) -> placed.line().proposedTier())
            .thenComparing(placed -> placed.line().targetDate().orElse(LocalDate.MAX))
            .thenComparing(Placed::waitingSince)
            .thenComparing(placed -> !placed.worsening())
            .thenComparing(placed -> placed.line().id());

    /** Open referrals before those decided; within each, the newest received first. */
    static final Comparator<Placed> OPEN_FIRST = Comparator.comparing(
                    (Placed placed) -> !open(placed.line().state()))
            .thenComparing(placed -> placed.line().received(), Comparator.reverseOrder())
            .thenComparing(placed -> placed.line().id(), Comparator.reverseOrder());

    private final TriagedDocuments documents;
    private final Policy policy;
    private final RuleBook book;
    private final LocalDate today;

    /** @param today the day as of which open referrals are triaged; decided ones keep the day of their decision */
    ReferralLines(TriagedDocuments documents, Policy policy, RuleBook book, LocalDate today) {
        this.documents = documents;
        this.policy = policy;
        this.book = book;
        this.today = today;
    }

    List<ReferralLine> of(List<Row> rows, Comparator<Placed> order) {
        return rows.stream().map(this::placed).sorted(order).map(Placed::line).toList();
    }

    private Placed placed(Row row) {
        var referral = row.referral();
        var settled = open(referral.state()) ? Optional.<Standing>empty() : row.decision();
        var asOf = settled.map(Standing::asOf).orElse(today);
        var triaged = triaged(referral, asOf);
        var reading = triaged.reading();
        var document = reading.document();
        var proposal = triaged.proposal();
        var line = new ReferralLine(
                referral.id(),
                referral.reference(),
                referral.state(),
                patient(document.patient()),
                document.patient().born(),
                referrer(document.referrer()),
                referral.received(),
                settled.map(Standing::proposedTier).orElse(proposal.urgency().tier()),
                settled.flatMap(ReferralLines::decidedTier),
                targetDate(settled, proposal),
                proposal.urgency().because(),
                proposal.questions().size(),
                proposal.questions().stream().map(Question::askBy).min(Comparator.naturalOrder()),
                reading.problems().size(),
                proposal.redFlags().stream().map(RedFlag::code).toList(),
                referral.submittedAt(),
                referral.savedBy());
        return new Placed(
                line, proposal.urgency().waitingSince(), !Worsening.of(document).isEmpty());
    }

    /** The queue is looked at again and again; the whole list is long, and not worth remembering. */
    private Triaged triaged(Referral referral, LocalDate asOf) {
        if (referral.state() == ReferralState.QUEUED) {
            return documents.triage(referral.document(), policy, book, asOf);
        }
        var reading = Draft.of(referral.document()).read(asOf);
        return new Triaged(reading, Triage.triage(reading.document(), policy, book, asOf));
    }

    private static Optional<LocalDate> targetDate(Optional<Standing> settled, TriageResult proposal) {
        if (settled.isEmpty()) {
            return proposal.urgency().targetDate();
        }
        // A referral returned to its doctor waits for nothing here.
        return settled.flatMap(standing -> decidedTier(standing).flatMap(tier -> standing.targetDate()));
    }

    private static Optional<Tier> decidedTier(Standing standing) {
        return switch (standing.kind()) {
            case APPROVED, CHANGED, SENT_TO_HOSPITAL -> Optional.of(standing.tier());
            case INFORMATION_ASKED, RETURNED -> Optional.empty();
        };
    }

    private static boolean open(ReferralState state) {
        return switch (state) {
            case DRAFT, QUEUED, INFORMATION_NEEDED -> true;
            case APPROVED, RETURNED, SENT_TO_HOSPITAL -> false;
        };
    }

    private static String patient(Patient patient) {
        return Stream.of(patient.family(), patient.given())
                .flatMap(Optional::stream)
                .filter(name -> !name.isBlank())
                .collect(Collectors.joining(", "));
    }

    private static String referrer(Referrer referrer) {
        return Stream.of(referrer.name(), referrer.organisation())
                .flatMap(Optional::stream)
                .filter(name -> !name.isBlank())
                .collect(Collectors.joining(", "));
    }
}
