package limbqueue.prospect;

import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.booking.HeldTime;
import limbqueue.booking.LeadDays;
import limbqueue.forecast.Arrivals;
import limbqueue.forecast.Attendance;
import limbqueue.forecast.HeldBack;
import limbqueue.forecast.HeldFor;
import limbqueue.forecast.QueuedCase;
import limbqueue.forecast.RoomSession;
import limbqueue.forecast.Situation;
import limbqueue.forecast.Situation.Coming;
import limbqueue.forecast.UrgentTier;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.RuleBooks;
import limbqueue.prospect.Basis.Given;
import limbqueue.prospect.Basis.History;
import limbqueue.prospect.Basis.Lacking;
import limbqueue.prospect.jdbc.ArrivalStore;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.ReferralState;
import limbqueue.shell.CountedWords;
import limbqueue.timetable.ProcedureRoom;
import limbqueue.timetable.RoomAhead;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;
import limbqueue.triage.plan.CaseMinutes.Minutes;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What a look ahead begins with: the practice's own arrivals, its queue, and its sessions. */
@Service
public class Prospects {

    static final int WEEKS = 12;

    /** A year: what came before tells little of what comes. */
    private static final int HISTORY_WEEKS = 52;

    /** Fewer weeks, or fewer referrals, say nothing (our choice). */
    private static final int LEAST_WEEKS = 4;

    private static final int LEAST_REFERRALS = 10;

    /** Fewer weeks, or fewer referrals, say little (our choice). */
    private static final int FEW_WEEKS = 12;

    private static final int FEW_REFERRALS = 50;

    /** Cases of a tier that waits of which its minutes are learned; with fewer, all tiers together are taken. */
    private static final int LEAST_CASES = 5;

    private static final List<Tier> TIERS =
            List.of(Tier.WITHIN_5_DAYS, Tier.WITHIN_14_DAYS, Tier.WITHIN_6_WEEKS, Tier.WITHIN_18_WEEKS);

    /** The share of free time that finds an ordinary patient with each day of notice is common practice, no source. */
    private static final HeldFor HELD_FOR =
            new HeldFor(TIERS.stream().filter(HeldTime::isFor).collect(Collectors.toSet()), 0.3);

    private final ProcedureRoom room;
    private final ArrivalStore arrivals;
    private final ProposedCases referrals;
    private final PolicyInForce policy;
    private final RuleBooks books;

    Prospects(
            ProcedureRoom room, ArrivalStore arrivals, ProposedCases referrals, PolicyInForce policy, RuleBooks books) {
        this.room = room;
        this.arrivals = arrivals;
        this.referrals = referrals;
        this.policy = policy;
        this.books = books;
    }

    /** As it is stored now. */
    @RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public Basis basis() {
        var ahead = room.ahead();
        var today = ahead.today();
        var policyNow = policy.version().policy();
        var open = referrals.open(policyNow, today).stream()
                .filter(one -> one.referral().state() != ReferralState.DRAFT && TIERS.contains(one.tier()))
                .toList();
        var last = today.minusDays(1);
        var yearAgo = today.minusWeeks(HISTORY_WEEKS);
        var first = arrivals.first()
                .map(day -> day.isBefore(yearAgo) ? yearAgo : day)
                .orElse(today);
        var weeks = Math.toIntExact(ChronoUnit.DAYS.between(first, today) / 7);
        var since = today.minusWeeks(weeks);
        var received = Stream.concat(
                        arrivals.approved(since).stream(),
                        open.stream()
                                .map(one -> new Arrivals.Received(one.referral().received(), one.tier())))
                .filter(one -> !one.date().isBefore(since) && !one.date().isAfter(last))
                .toList();
        var lacking = lacking(weeks, received.size(), ahead);
        if (!lacking.isEmpty()) {
            return new Lacking(lacking);
        }
        return given(ahead, open, policyNow, received, new History(since, last, weeks, received.size()));
    }

    private static List<String> lacking(int weeks, int referrals, RoomAhead ahead) {
        var lacking = new ArrayList<String>();
        if (weeks < LEAST_WEEKS || referrals < LEAST_REFERRALS) {
            lacking.add(("Too little history to learn from: %s the procedure room in %s. With %d referrals in %d"
                            + " weeks a forecast is possible.")
                    .formatted(
                            CountedWords.of(referrals, "referral that needs", "referrals that need"),
                            CountedWords.of(weeks, "whole week"),
                            LEAST_REFERRALS,
                            LEAST_WEEKS));
        }
        if (ahead.sessions().isEmpty()) {
            lacking.add("No session of the procedure room is open until %s. Enter the sessions that there will be."
                    .formatted(ahead.lastDay()));
        }
        return lacking;
    }

    private Given given(
            RoomAhead ahead,
            List<ProposedCase> open,
            Policy policyNow,
            List<Arrivals.Received> received,
            History history) {
        var today = ahead.today();
        var queue = queue(ahead, open);
        var arrivalsKnown = Arrivals.from(received, history.first(), history.last());
        var coming = coming(queue, today);
        var usualWeek = UsualWeek.of(ahead.sessions(), today);
        var situation = new Situation(
                today,
                WEEKS,
                queue,
                ahead.sessions().stream()
                        .map(session -> new RoomSession(
                                session.date(),
                                session.minutes(),
                                session.held().minutes(),
                                session.held().releaseDays()))
                        .toList(),
                policyNow,
                arrivalsKnown,
                coming,
                // Nothing is recorded of appointments that were missed.
                new Attendance(0, 0),
                HELD_FOR);
        return new Given(
                situation,
                history,
                open.size(),
                usualWeek,
                usualWeek.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new HeldBack(
                                arrivalsKnown, urgent(coming, policyNow), usualWeek, HELD_FOR.filledADay())),
                remarks(history, queue.size(), usualWeek.isEmpty()));
    }

    private List<QueuedCase> queue(RoomAhead ahead, List<ProposedCase> open) {
        var today = ahead.today();
        var since = arrivals.waitingSince(
                ahead.waiting().stream().map(RoomAhead.ForRoom::referralId).toList());
        var decided = ahead.waiting().stream()
                .map(one -> new QueuedCase(
                        one.tier(),
                        since.getOrDefault(one.referralId(), today),
                        one.ready(),
                        one.target(),
                        new Minutes(one.minutes().median(), one.minutes().ninety())));
        var undecided = open.stream()
                .flatMap(one -> one.proposal().procedurePlan().stream()
                        .map(plan -> new QueuedCase(
                                one.tier(),
                                one.proposal().urgency().waitingSince(),
                                today.plusDays(lead(one.tier())),
                                one.targetDate().orElse(today),
                                new Minutes(
                                        plan.expectedMinutes(),
                                        Math.max(plan.expectedMinutes(), plan.expectedMinutes90())))));
        return Stream.concat(decided, undecided).toList();
    }

    /** New cases of a tier are as those of it that wait. */
    private Map<Tier, Coming> coming(List<QueuedCase> queue, LocalDate today) {
        var coming = new EnumMap<Tier, Coming>(Tier.class);
        var all = queue.stream().map(QueuedCase::minutes).toList();
        for (var tier : TIERS) {
            var ofTier = queue.stream()
                    .filter(one -> one.tier() == tier)
                    .map(QueuedCase::minutes)
                    .toList();
            var like = ofTier.size() >= LEAST_CASES ? ofTier : all;
            coming.put(tier, new Coming(like.isEmpty() ? beforeImaging(today) : PooledMinutes.of(like), lead(tier)));
        }
        return coming;
    }

    private Minutes beforeImaging(LocalDate today) {
        return CaseMinutes.prior(books.inForce().on(today)).beforeImaging();
    }

    /** Days from being received until the procedure can be at the soonest (common practice, no source). */
    private static int lead(Tier tier) {
        var usual = LeadDays.usual();
        return HeldTime.isFor(tier)
                ? usual.notice()
                : usual.notice() + Math.max(usual.bloodTests(), usual.prescriber()) + usual.ctaReport();
    }

    private static List<UrgentTier> urgent(Map<Tier, Coming> coming, Policy policy) {
        return coming.entrySet().stream()
                .filter(entry -> HeldTime.isFor(entry.getKey()))
                .map(entry -> new UrgentTier(
                        entry.getKey(),
                        entry.getValue().minutes(),
                        entry.getValue().lead(),
                        Math.max(
                                entry.getValue().lead(),
                                policy.days()
                                        .getOrDefault(
                                                entry.getKey(), entry.getValue().lead()))))
                .toList();
    }

    private static List<String> remarks(History history, int queue, boolean noUsualWeek) {
        var remarks = new ArrayList<String>();
        if (history.weeks() < FEW_WEEKS || history.referrals() < FEW_REFERRALS) {
            remarks.add("That is little to learn from: the ranges are wide, and a season cannot be told from chance.");
        }
        if (queue < LEAST_CASES) {
            remarks.add(
                    "Few wait whose minutes are known, so those of new cases are common practice or those of a few.");
        }
        if (noUsualWeek) {
            remarks.add(
                    "No day of the week has a session in at least half of the weeks to come, so no usual week is known"
                            + " of which time could be held.");
        }
        return remarks;
    }
}
