package limbqueue.sameday;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Person;
import limbqueue.document.Draft;
import limbqueue.practice.LeadPhysicians;
import limbqueue.referral.Referrals;
import limbqueue.sameday.RingingCase.Numbers;
import limbqueue.sameday.RingingCase.Patient;
import limbqueue.sameday.jdbc.SameDayChoiceStore;
import limbqueue.sameday.jdbc.SameDayStore;
import limbqueue.sameday.jdbc.SameDayStore.Ringing;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** Same-day cases: which ring, and who has taken them. */
@Service
public class SameDayCases {

    private final SameDayStore store;
    private final SameDayChoiceStore choices;
    private final Referrals referrals;
    private final LeadPhysicians lead;
    private final CurrentPerson person;
    private final AuditTrail auditTrail;
    private final Clock clock;

    SameDayCases(
            SameDayStore store,
            SameDayChoiceStore choices,
            Referrals referrals,
            LeadPhysicians lead,
            CurrentPerson person,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.choices = choices;
        this.referrals = referrals;
        this.lead = lead;
        this.person = person;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** Cases that nobody has taken, the oldest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<RingingCase> ringing() {
        var ringing = store.ringing();
        if (ringing.isEmpty()) {
            return List.of();
        }
        var numbers = numbers();
        return ringing.stream().map(one -> withPatient(one, numbers)).toList();
    }

    /** Cases that nobody has taken in time, without their patients, for those who are asked then and see no patients. */
    @RolesAllowed(IS_MANAGER)
    @Transactional(readOnly = true)
    public List<RingingCase> escalated() {
        var escalated = store.ringing().stream()
                .filter(one -> one.sameDay().escalation().isPresent())
                .toList();
        if (escalated.isEmpty()) {
            return List.of();
        }
        var numbers = numbers();
        return escalated.stream()
                .map(one -> new RingingCase(one.sameDay(), one.reference(), Optional.empty(), numbers))
                .toList();
    }

    /**
     * Takes a case: it stops ringing everywhere, and its timeline says who took it and when.
     *
     * @throws IllegalArgumentException if there is none with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public TakeOutcome take(long id) {
        var taken = store.take(id, person.get(), clock.instant().truncatedTo(ChronoUnit.MICROS));
        if (taken.isPresent()) {
            auditTrail.record(
                    "took the same-day case",
                    referrals.get(taken.get().referral()).reference());
            return new TakeOutcome.Taken(taken.get());
        }
        return store.find(id)
                .orElseThrow(() -> new IllegalArgumentException("There is no same-day case " + id + "."))
                .taken()
                .<TakeOutcome>map(TakeOutcome.TakenBefore::new)
                .orElseGet(TakeOutcome.Over::new);
    }

    /** The same-day case that this referral is now. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<SameDayCase> current(long referral) {
        return store.current(referral);
    }

    private static RingingCase withPatient(Ringing one, Numbers numbers) {
        var draft = Draft.of(one.document());
        var name = words(draft, "patient.family", "patient.given");
        return new RingingCase(
                one.sameDay(),
                one.reference(),
                Optional.of(new Patient(
                        name.isEmpty() ? "Name not known" : name,
                        word(draft, "patient.phone"),
                        words(draft, "referrer.name"),
                        word(draft, "referrer.phone"))),
                numbers);
    }

    private Numbers numbers() {
        var choice = choices.newest().choice();
        return new Numbers(
                choice.hospital(),
                known(choice.hospitalPhone()),
                lead.named().map(Person::displayName).orElse(""),
                known(choice.leadPhone()));
    }

    private static String words(Draft draft, String... paths) {
        return Stream.of(paths).flatMap(path -> word(draft, path).stream()).collect(Collectors.joining(", "));
    }

    private static Optional<String> word(Draft draft, String path) {
        return draft.get(path)
                .filter(JsonNode::isString)
                .map(JsonNode::stringValue)
                .flatMap(SameDayCases::known);
    }

    private static Optional<String> known(String text) {
        return Optional.of(text.strip()).filter(words -> !words.isEmpty());
    }
}
