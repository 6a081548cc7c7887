package limbqueue.samepatient;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.document.Draft;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.samepatient.jdbc.SamePatientStore;
import limbqueue.samepatient.jdbc.SamePatientStore.Row;
import limbqueue.search.Folded;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who may be the same patient as whom, and what people said about it. It proposes; a person says. */
@Service
public class SamePatient {

    /** So many are shown while somebody enters a referral. */
    private static final int SHOWN = 5;

    /** So many pairs are looked at for the page; who works them off sees the next. */
    private static final int PAIRS = 200;

    private final SamePatientStore store;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    SamePatient(SamePatientStore store, CurrentPerson currentPerson, AuditTrail auditTrail, Clock clock) {
        this.store = store;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * Referrals that may be of the patient of a referral that is being entered, the likeliest first. None while too little is
     * known, none that was said to be somebody else.
     *
     * @param referral its id
     * @param document as it is typed now, as JSON text
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<Alike> alike(long referral, String document) {
        var person = PersonFacts.of(Draft.of(document));
        if (!person.enoughToCompare()) {
            return List.of();
        }
        var judged = store.judged(referral);
        var candidates = store.near(
                referral,
                Folded.text(person.given() + " " + person.family()),
                person.born().map(Likeness::mistyped).map(List::copyOf).orElse(List.of()),
                person.phoneEnd(),
                person.identifiers().stream()
                        .map(identifier -> Folded.text(identifier.value()).replace(" ", ""))
                        .filter(value -> !value.isEmpty())
                        .toList());
        return store.rows(candidates).stream()
                .filter(row -> !judged.contains(row.id()))
                .map(row -> alike(row, person))
                .filter(alike -> alike.likeness().worthALook())
                .sorted(Comparator.comparing((Alike alike) -> -alike.likeness().points())
                        .thenComparing(alike -> -alike.id()))
                .limit(SHOWN)
                .toList();
    }

    /** Pairs of which at least one is still open, that nobody has said anything about, the likeliest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<Pair> pairs() {
        var candidates = store.pairs();
        var ids = new LinkedHashSet<Long>();
        candidates.forEach(pair -> {
            ids.add(pair.lower());
            ids.add(pair.higher());
        });
        Map<Long, Row> rows = store.rows(List.copyOf(ids)).stream().collect(Collectors.toMap(Row::id, row -> row));
        var pairs = new ArrayList<Pair>();
        for (var candidate : candidates) {
            var one = rows.get(candidate.lower());
            var other = rows.get(candidate.higher());
            if (one != null && other != null) {
                var pair = pair(one, other);
                if (pair.likeness().worthALook()) {
                    pairs.add(pair);
                }
            }
        }
        return pairs.stream()
                .sorted(Comparator.comparing((Pair pair) -> -pair.likeness().points())
                        .thenComparing(pair -> -pair.other().id()))
                .limit(PAIRS)
                .toList();
    }

    /**
     * Two referrals beside each other, whatever was said of them.
     *
     * @throws ReferralNotFoundException if there is none with one of the ids
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Pair pair(long one, long other) {
        return pair(row(Math.min(one, other)), row(Math.max(one, other)));
    }

    /** What was said of these two last. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<Verdict> verdict(long one, long other) {
        return store.verdict(Math.min(one, other), Math.max(one, other))
                .filter(verdict -> verdict != Verdict.TAKEN_BACK);
    }

    /** Keeps what the person signed in says of these two; it can be said otherwise at any time. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public void say(long one, long other, Verdict verdict) {
        var pair = pair(one, other);
        store.add(
                pair.one().id(),
                pair.other().id(),
                verdict,
                currentPerson.get(),
                clock.instant().truncatedTo(ChronoUnit.MICROS));
        auditTrail.record(
                switch (verdict) {
                    case SAME_PERSON -> "said one person of";
                    case TWO_PEOPLE -> "said two people of";
                    case TAKEN_BACK -> "took back what was said of";
                },
                pair.one().reference() + " and " + pair.other().reference());
    }

    /** Other referrals that somebody said are of the same person, the newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<Alike> samePerson(long referral) {
        var person = facts(row(referral));
        return store.rows(store.samePerson(referral)).stream()
                .map(row -> alike(row, person))
                .toList();
    }

    private Row row(long id) {
        return store.rows(List.of(id)).stream().findFirst().orElseThrow(() -> new ReferralNotFoundException(id));
    }

    private static Pair pair(Row one, Row other) {
        var likeness = Likeness.of(facts(one), facts(other));
        return new Pair(shown(one, likeness), shown(other, likeness), likeness);
    }

    private static Alike alike(Row row, PersonFacts person) {
        return shown(row, Likeness.of(person, facts(row)));
    }

    private static Alike shown(Row row, Likeness likeness) {
        return new Alike(row.id(), row.reference(), row.state(), row.received(), facts(row), likeness);
    }

    private static PersonFacts facts(Row row) {
        return PersonFacts.of(Draft.of(row.document()));
    }
}
