package limbqueue.preparation;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.RuleBooks;
import limbqueue.preparation.jdbc.CoveredStentStore;
import limbqueue.preparation.jdbc.PreparationStore;
import limbqueue.referral.ProposedCases;
import limbqueue.triage.Triage;
import org.springframework.stereotype.Component;

/** Cases as they stand, for the application itself; people ask {@link Preparation}. */
@Component
public class PreparationCases {

    private final ProposedCases referrals;
    private final PreparationStore store;
    private final CoveredStentStore stents;
    private final PolicyInForce policy;
    private final RuleBooks books;
    private final Clock clock;

    PreparationCases(
            ProposedCases referrals,
            PreparationStore store,
            CoveredStentStore stents,
            PolicyInForce policy,
            RuleBooks books,
            Clock clock) {
        this.referrals = referrals;
        this.store = store;
        this.stents = stents;
        this.policy = policy;
        this.books = books;
        this.clock = clock;
    }

    /** In the order of their ids. One that is not there is left out. */
    public List<PreparationCase> of(Collection<Long> ids) {
        var tracked = store.items(ids).stream().collect(Collectors.groupingBy(TrackedItem::referralId));
        var bookings = byReferral(store.bookings(ids), ProcedureBooking::referralId);
        var confirmed =
                stents.confirmations(ids).stream().collect(Collectors.groupingBy(StentConfirmation::referralId));
        var overrides = byReferral(store.lastOverrides(ids), ReadinessOverride::referralId);
        var stock = stents.all();
        var policyNow = policy.version().policy();
        var book = books.inForce();
        var today = LocalDate.now(clock);
        var limits = book.on(today);
        return referrals.of(ids).stream()
                .map(proposed -> {
                    var id = proposed.referral().id();
                    var booking = Optional.ofNullable(bookings.get(id));
                    return PreparationCase.of(
                            proposed,
                            booking.map(booked ->
                                    Triage.workUpFor(proposed.document(), policyNow, book, today, booked.starts())),
                            tracked.getOrDefault(id, List.of()),
                            booking,
                            confirmed.getOrDefault(id, List.of()),
                            stock,
                            Optional.ofNullable(overrides.get(id)),
                            // Asked for one case only: the worklist holds none that is over.
                            ids.size() == 1 ? store.record(id) : Optional.empty(),
                            limits);
                })
                .toList();
    }

    private static <T> Map<Long, T> byReferral(List<T> all, Function<T, Long> referral) {
        return all.stream().collect(Collectors.toMap(referral, one -> one));
    }
}
