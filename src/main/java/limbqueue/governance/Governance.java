package limbqueue.governance;

import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import limbqueue.governance.jdbc.GovernanceStore;
import limbqueue.practice.RuleBooks;
import limbqueue.triage.rule.Rule;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The figures of governance. They hold no name of a patient. */
@Service
@RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
public class Governance {

    private static final int RULES = 10;
    private static final int REASONS = 5;

    private final GovernanceStore store;
    private final RuleBooks books;
    private final Clock clock;

    Governance(GovernanceStore store, RuleBooks books, Clock clock) {
        this.store = store;
        this.books = books;
        this.clock = clock;
    }

    /** Today in the practice. */
    public LocalDate today() {
        return LocalDate.now(clock);
    }

    @Transactional(readOnly = true)
    public GovernanceReport report(Period period) {
        var before = start(period.to().plusDays(1));
        var judgements = store.judgements(start(period.from()), before, clock.getZone());
        var half = period.lastHalfYear();
        var since = half.from().isBefore(period.from()) ? half.from() : period.from();
        var courses = store.courses(start(since), before, clock.getZone());
        var agreement = Agreement.of(judgements);
        return new GovernanceReport(
                period,
                agreement,
                mostOverruled(agreement, judgements),
                Outcomes.of(courses, period),
                Waiting.of(courses, period),
                Equity.of(courses, period));
    }

    /** What each rule of the book in force says, by its id. */
    public Map<String, String> rules() {
        return books.inForce().rules().stream().collect(Collectors.toMap(Rule::id, Rule::says));
    }

    private List<Overruling> mostOverruled(Agreement agreement, List<Judgement> judgements) {
        var overruled = judgements.stream()
                .filter(judgement -> !judgement.agrees())
                .sorted(Comparator.comparing(Judgement::day)
                        .thenComparing(Judgement::decision)
                        .reversed())
                .toList();
        var lines = agreement.byRule().stream()
                .filter(line -> line.overruled().of() > 0)
                .limit(RULES)
                .toList();
        var latest = lines.stream()
                .collect(Collectors.toMap(
                        Agreement.Line::of,
                        line -> overruled.stream()
                                .filter(judgement -> judgement.rules().contains(line.of()))
                                .limit(REASONS)
                                .toList()));
        var decisions = new HashSet<Long>();
        latest.values().forEach(those -> those.forEach(one -> decisions.add(one.decision())));
        var words = store.reasons(decisions).stream()
                .collect(Collectors.toMap(
                        GovernanceStore.Typed::decision,
                        typed -> Nameless.words(typed.reason(), typed.given(), typed.family())));
        var says = rules();
        return lines.stream()
                .map(line -> new Overruling(
                        line.of(),
                        says.getOrDefault(line.of(), ""),
                        line.overruled(),
                        latest.getOrDefault(line.of(), List.of()).stream()
                                .map(one -> new Overruling.Reason(
                                        one.day(),
                                        one.proposed(),
                                        one.decided(),
                                        words.getOrDefault(one.decision(), "")))
                                .toList()))
                .toList();
    }

    private Instant start(LocalDate day) {
        return day.atStartOfDay(clock.getZone()).toInstant();
    }
}
