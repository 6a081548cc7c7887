package limbqueue.preparation;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.referral.ProposedCase;
import limbqueue.triage.DrugTiming;
import limbqueue.triage.ProcedureWorkUp;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.plan.StentNeed;
import limbqueue.triage.threshold.Limits;

/**
 * One case under preparation, as it stands today.
 *
 * @param drugs what is proposed for each drug about the procedure; none while it is not booked
 * @param items the work-up: red ones first, those no longer proposed last
 * @param needs the vessels for which a covered stent must be in the room
 * @param confirmed the stents seen there
 * @param stock every covered stent there is
 * @param override the last one that a physician gave, whether it holds or has fallen
 * @param record what became of the case, once it is over
 */
public record PreparationCase(
        ProposedCase proposed,
        List<DrugTiming> drugs,
        List<CaseItem> items,
        Optional<ProcedureBooking> booking,
        List<StentNeed> needs,
        List<StentConfirmation> confirmed,
        List<CoveredStent> stock,
        Optional<ReadinessOverride> override,
        Optional<CaseRecord> record,
        Readiness readiness) {

    static PreparationCase of(
            ProposedCase proposed,
            Optional<ProcedureWorkUp> atProcedure,
            List<TrackedItem> tracked,
            Optional<ProcedureBooking> booking,
            List<StentConfirmation> confirmed,
            List<CoveredStent> stock,
            Optional<ReadinessOverride> override,
            Optional<CaseRecord> record,
            Limits limits) {
        var starts = booking.map(ProcedureBooking::starts);
        var items = items(
                atProcedure
                        .map(ProcedureWorkUp::items)
                        .orElse(proposed.proposal().workUp()),
                tracked,
                starts.map(LocalDateTime::toLocalDate));
        var needs = proposed.proposal()
                .procedurePlan()
                .map(plan -> StentNeed.of(proposed.document(), plan, limits))
                .orElse(List.of());
        return new PreparationCase(
                proposed,
                atProcedure.map(ProcedureWorkUp::drugs).orElse(List.of()),
                items,
                booking,
                needs,
                confirmed,
                stock,
                override,
                record,
                ReadinessGate.readiness(proposed.referral().state(), starts, items, needs, confirmed, stock, override));
    }

    private static List<CaseItem> items(
            List<WorkUpItem> workUp, List<TrackedItem> tracked, Optional<LocalDate> procedure) {
        var byCode = tracked.stream().collect(Collectors.toMap(TrackedItem::code, item -> item));
        var items = new ArrayList<CaseItem>();
        for (var item : workUp) {
            items.add(CaseItem.of(item, Optional.ofNullable(byCode.remove(item.code())), procedure));
        }
        byCode.values().stream()
                .sorted(Comparator.comparing(TrackedItem::code))
                .map(CaseItem::notProposed)
                .forEach(items::add);
        items.sort(Comparator.comparing((CaseItem item) -> !item.red())
                .thenComparing(item -> !item.proposed())
                .thenComparing(CaseItem::settled));
        return List.copyOf(items);
    }

    public long id() {
        return proposed.referral().id();
    }

    /** Family and given name, as far as known. */
    public String patient() {
        var patient = proposed.document().patient();
        return Stream.of(patient.family(), patient.given())
                .flatMap(Optional::stream)
                .filter(name -> !name.isBlank())
                .collect(Collectors.joining(", "));
    }

    public List<CaseItem> red() {
        return items.stream().filter(CaseItem::red).toList();
    }

    public Optional<LocalDateTime> starts() {
        return booking.map(ProcedureBooking::starts);
    }

    /** Whether the case has gone to the room. */
    public boolean inRoom() {
        return booking.flatMap(ProcedureBooking::readyAt).isPresent();
    }

    /** What an override would be given for. */
    public String facts() {
        return ReadinessGate.facts(readiness.obstacles(), starts());
    }

    /** What is confirmed for this vessel. */
    public Optional<StentConfirmation> confirmed(StentNeed need) {
        return confirmed.stream()
                .filter(one -> one.segment() == need.segment() && one.side().equals(need.side()))
                .findFirst();
    }

    /** The stents in stock that could be confirmed for this vessel. */
    public List<CoveredStent> fitting(StentNeed need) {
        return ReadinessGate.fitting(need, stock, starts().map(LocalDateTime::toLocalDate));
    }
}
