package limbqueue.chasing;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Person;
import limbqueue.chasing.ChasingOutcome.Done;
import limbqueue.chasing.ChasingOutcome.Overtaken;
import limbqueue.chasing.ChasingOutcome.Refused;
import limbqueue.chasing.ChasingOutcome.Retriaged;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.chasing.jdbc.ChasingStore;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.letter.Legible;
import limbqueue.letter.LetterPage;
import limbqueue.letter.Parts;
import limbqueue.letter.PostalAddress;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.Standing;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.Referrals;
import limbqueue.referral.ResultsOutcome;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** What is asked of others for a referral, and what came of it. */
@Service
public class Chasing {

    private final Referrals referrals;
    private final Preparation preparation;
    private final ChasingStates states;
    private final ChasingStore store;
    private final ChasingSettings settings;
    private final PracticeSettings practice;
    private final LetterPage page;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final JsonMapper json;
    private final Clock clock;

    Chasing(
            Referrals referrals,
            Preparation preparation,
            ChasingStates states,
            ChasingStore store,
            ChasingSettings settings,
            PracticeSettings practice,
            LetterPage page,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            JsonMapper json,
            Clock clock) {
        this.referrals = referrals;
        this.preparation = preparation;
        this.states = states;
        this.store = store;
        this.settings = settings;
        this.practice = practice;
        this.page = page;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.json = json;
        this.clock = clock;
    }

    /** What is asked of others for each of these referrals. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Map<Long, ChasingState> states(Collection<Long> referralIds) {
        return states.of(referralIds);
    }

    /** What is asked of others for one referral. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public ChasingState state(long referralId) {
        return states(List.of(referralId)).getOrDefault(referralId, new ChasingState(referralId, List.of(), List.of()));
    }

    /** The letters of the requests for one referral, in the order in which they were written. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<RecordsLetter> letters(long referralId) {
        return store.letters(referralId);
    }

    /**
     * A letter as PDF: set when it is first wanted, and the same bytes ever after.
     *
     * @throws IllegalArgumentException if there is no letter with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public byte[] pdf(long letterId) {
        return store.pdf(letterId).orElseGet(() -> {
            var parts = store.parts(letterId)
                    .orElseThrow(() -> new IllegalArgumentException("there is no records letter " + letterId));
            store.keepPdf(letterId, page.print(json.readValue(parts, Parts.class)));
            // Not the bytes just set: somebody else may have been first.
            return store.pdf(letterId).orElseThrow();
        });
    }

    /** Today in the practice. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public LocalDate today() {
        return LocalDate.now(clock);
    }

    /**
     * Asks a hospital for records, and writes the letter.
     *
     * @param address of the hospital; may be blank
     * @param entry of the document, if they belong to one
     * @param dueOn the day by which they are hoped for
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ChasingOutcome request(
            long referralId,
            String hospital,
            String address,
            String about,
            Optional<OutsideRecord.Entry> entry,
            boolean report,
            boolean images,
            LocalDate dueOn) {
        if (dueOn.isBefore(today())) {
            return new Refused("The answer is due today or later.");
        }
        return request(referralId, hospital, address, about, entry, report, images, today(), dueOn);
    }

    /** As above, asked on another day. */
    @Transactional
    ChasingOutcome request(
            long referralId,
            String hospital,
            String address,
            String about,
            Optional<OutsideRecord.Entry> entry,
            boolean report,
            boolean images,
            LocalDate askedOn,
            LocalDate dueOn) {
        var referral = referrals.get(referralId);
        if (hospital.isBlank()) {
            return new Refused("Say which hospital is asked.");
        }
        if (about.isBlank()) {
            return new Refused("Say which examination or procedure it is about, so that they find it.");
        }
        if (!report && !images) {
            return new Refused("Ask for the report, the images or both.");
        }
        var unprintable = unprintable(RecordsLetterWriter.addressee(hospital, address), about);
        if (unprintable.isPresent()) {
            return new Refused(unprintable.get());
        }
        var request = new RecordsRequest(
                0,
                referralId,
                1,
                hospital.strip(),
                address.strip(),
                about.strip(),
                entry,
                report,
                images,
                askedOn,
                dueOn,
                0,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                me().displayName(),
                now());
        var id = store.add(request, me());
        write(referral, store.request(id).orElseThrow(), 1, askedOn);
        followUp(referralId, request.hospital(), report, images, askedOn, dueOn);
        auditTrail.record("asked for records for", referral.reference());
        return new Done();
    }

    /** What the letter could not show of it, and what to do. */
    private Optional<String> unprintable(List<String> addressee, String about) {
        return Legible.wrongWith(String.join("\n", addressee) + "\n" + about)
                .map(why -> why + " Write it in one of these scripts.")
                .or(() -> PostalAddress.tooLong(addressee, practice.practice().window())
                        .map(why -> why + " Shorten the name or the address."));
    }

    /**
     * Writes the next reminder. Its answer is due in as many days as the practice has set.
     *
     * @param version the version of the request that was looked at
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ChasingOutcome remind(long requestId, int version) {
        var request = known(requestId);
        if (request.reminders() >= 2 && request.version() == version) {
            return new Refused("Three letters were written. Call them, or give it up.");
        }
        var reminders = request.reminders() + 1;
        var dueOn = today().plusDays(settings.inForce().days().reply(Math.min(reminders, 2)));
        return move(
                request,
                version,
                "reminded of records for",
                new Move(dueOn, reminders, request.reportCameOn(), request.imagesCameOn(), Optional.empty()),
                moved -> {
                    write(referrals.get(moved.referralId()), moved, moved.reminders() + 1, today());
                    followUp(
                            moved.referralId(),
                            moved.hospital(),
                            moved.reportMissing(),
                            moved.imagesMissing(),
                            today(),
                            dueOn);
                });
    }

    /**
     * Says what came. Where the request belongs to an entry of the document, it is held there from now on, and the referral is
     * triaged anew.
     *
     * @param version the version of the request that was looked at
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ChasingOutcome arrived(long requestId, int version, boolean report, boolean images) {
        var request = known(requestId);
        if (request.version() != version || !request.open()) {
            return new Overtaken();
        }
        var reportNow = report && request.reportMissing();
        var imagesNow = images && request.imagesMissing();
        if (!reportNow && !imagesNow) {
            return new Refused("Say what came: the report, the images or both.");
        }
        // The referral before what hangs on it, as everywhere: so nobody waits in a ring.
        var outcome = hold(request, reportNow, imagesNow);
        if (outcome instanceof Refused || outcome instanceof Overtaken) {
            return outcome;
        }
        var today = today();
        var moved = move(
                request,
                version,
                "received records for",
                new Move(
                        request.dueOn(),
                        request.reminders(),
                        reportNow ? Optional.of(today) : request.reportCameOn(),
                        imagesNow ? Optional.of(today) : request.imagesCameOn(),
                        Optional.empty()),
                _ -> {});
        if (!(moved instanceof Done)) {
            throw new IllegalStateException("records request " + requestId + " changed meanwhile");
        }
        return outcome;
    }

    private ChasingOutcome hold(RecordsRequest request, boolean report, boolean images) {
        if (request.entry().isEmpty()) {
            return new Done();
        }
        var referral = referrals.get(request.referralId());
        var draft = Draft.of(referral.document());
        var path = OutsideRecord.path(
                draft.read(today()).document(), request.entry().get());
        if (path.isEmpty()) {
            // Somebody has rewritten the entry; what came is kept with the request, and nothing else is guessed.
            return new Done();
        }
        if (report) {
            draft.set(path.get() + ".reportHeld", true);
        }
        if (images) {
            draft.set(path.get() + ".imagesHeld", true);
        }
        return enter(referral, draft);
    }

    /**
     * Waits no more for what is missing.
     *
     * @param version the version of the request that was looked at
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ChasingOutcome giveUp(long requestId, int version, String reason) {
        if (reason.isBlank()) {
            return new Refused("Say why nobody waits for it any more.");
        }
        var request = known(requestId);
        return move(
                request,
                version,
                "gave up records for",
                new Move(
                        request.dueOn(),
                        request.reminders(),
                        request.reportCameOn(),
                        request.imagesCameOn(),
                        Optional.of(reason.strip())),
                _ -> {});
    }

    /** What of a request may change. */
    private record Move(
            LocalDate dueOn,
            int reminders,
            Optional<LocalDate> reportCameOn,
            Optional<LocalDate> imagesCameOn,
            Optional<String> givenUpBecause) {}

    private ChasingOutcome move(
            RecordsRequest request, int version, String deed, Move to, Consumer<RecordsRequest> then) {
        var moved = new RecordsRequest(
                request.id(),
                request.referralId(),
                version + 1,
                request.hospital(),
                request.address(),
                request.about(),
                request.entry(),
                request.report(),
                request.images(),
                request.askedOn(),
                to.dueOn(),
                to.reminders(),
                to.reportCameOn(),
                to.imagesCameOn(),
                to.givenUpBecause(),
                me().displayName(),
                now());
        if (!request.open() || !store.put(moved, me())) {
            return new Overtaken();
        }
        then.accept(moved);
        auditTrail.record(deed, referrals.get(request.referralId()).reference());
        return new Done();
    }

    /**
     * Notes a call.
     *
     * @param requestId the records request that it was about; only with {@link Kind#RECORDS}
     * @param outcome how the patient is; only with {@link Kind#SAFETY}
     * @param againOn the day on which to call again; a call about records moves their due day there
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ChasingOutcome noteCall(
            long referralId,
            Kind kind,
            Optional<Long> requestId,
            Optional<Outcome> outcome,
            String spokeWith,
            String said,
            Optional<LocalDate> againOn) {
        return noteCall(referralId, kind, requestId, outcome, today(), spokeWith, said, againOn);
    }

    /** As above, of a call on another day. */
    @Transactional
    ChasingOutcome noteCall(
            long referralId,
            Kind kind,
            Optional<Long> requestId,
            Optional<Outcome> outcome,
            LocalDate calledOn,
            String spokeWith,
            String said,
            Optional<LocalDate> againOn) {
        var referral = referrals.get(referralId);
        var refusal = refusal(kind, requestId, outcome, spokeWith, said, againOn);
        if (refusal.isPresent()) {
            return new Refused(refusal.get());
        }
        var request = requestId.map(this::known);
        if (request.isPresent() && againOn.isPresent() && request.get().open()) {
            var about = request.get();
            var moved = move(
                    about,
                    about.version(),
                    "agreed another day for records for",
                    new Move(
                            againOn.get(),
                            about.reminders(),
                            about.reportCameOn(),
                            about.imagesCameOn(),
                            Optional.empty()),
                    _ -> {});
            if (!(moved instanceof Done)) {
                return moved;
            }
        }
        add(referralId, kind, requestId, outcome, calledOn, spokeWith, said, againOn);
        auditTrail.record("noted a call about", referral.reference());
        return new Done();
    }

    private Optional<String> refusal(
            Kind kind,
            Optional<Long> requestId,
            Optional<Outcome> outcome,
            String spokeWith,
            String said,
            Optional<LocalDate> againOn) {
        if ((kind == Kind.SAFETY) != outcome.isPresent() || (kind == Kind.RECORDS) != requestId.isPresent()) {
            throw new IllegalArgumentException("a call about " + kind + " with " + outcome + " and " + requestId);
        }
        if (spokeWith.isBlank()) {
            return Optional.of("Say with whom you spoke, or whom you tried to reach.");
        }
        if (said.isBlank() && !(outcome.isPresent() && outcome.get() != Outcome.WORSE)) {
            return Optional.of("Say what was said.");
        }
        return againOn.filter(day -> day.isBefore(today())).map(_ -> "The day to call again is today or later.");
    }

    /**
     * Notes a call in which new symptoms were told, and puts them into the document, which is triaged anew. The call is kept
     * also where the referral takes nothing in any more.
     *
     * @param kind {@link Kind#SAFETY} or {@link Kind#OTHER}
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public ChasingOutcome tellSymptoms(
            long referralId, Kind kind, String spokeWith, String said, List<ToldFact> facts) {
        if (facts.isEmpty()) {
            return new Refused("Enter at least one symptom. If nothing is new, note the call alone.");
        }
        var outcome = kind == Kind.SAFETY ? Optional.of(Outcome.WORSE) : Optional.<Outcome>empty();
        var refusal = refusal(kind, Optional.empty(), outcome, spokeWith, said, Optional.empty());
        if (refusal.isPresent()) {
            return new Refused(refusal.get());
        }
        var referral = referrals.get(referralId);
        var draft = Draft.of(referral.document());
        facts.forEach(fact -> draft.set(fact.path(), fact.value()));
        var entered = enter(referral, draft);
        if (entered instanceof Refused) {
            return entered;
        }
        add(referralId, kind, Optional.empty(), outcome, today(), spokeWith, said, Optional.empty());
        auditTrail.record("noted new symptoms of", referral.reference());
        return entered;
    }

    private ChasingOutcome enter(Referral referral, Draft draft) {
        var before = referrals.propose(Draft.of(referral.document()).read(today()));
        return switch (referrals.enterResults(referral.id(), referral.version(), draft.toJson())) {
            case ResultsOutcome.Entered(var entered, var changes) ->
                new Retriaged(
                        before, referrals.propose(Draft.of(entered.document()).read(today())), changes);
            case ResultsOutcome.NotRight(var problems) ->
                new Refused(problems.stream().map(Problem::text).collect(Collectors.joining(" ")));
            case ResultsOutcome.Overtaken _ -> new Overtaken();
        };
    }

    private void add(
            long referralId,
            Kind kind,
            Optional<Long> requestId,
            Optional<Outcome> outcome,
            LocalDate calledOn,
            String spokeWith,
            String said,
            Optional<LocalDate> againOn) {
        store.add(
                new PhoneCall(
                        0,
                        referralId,
                        kind,
                        requestId,
                        outcome,
                        calledOn,
                        spokeWith.strip(),
                        said.strip(),
                        againOn,
                        me().displayName(),
                        now()),
                me());
    }

    private void write(Referral referral, RecordsRequest request, int number, LocalDate dated) {
        var patient = Draft.of(referral.document()).read(today()).document().patient();
        var earlier = store.letters(referral.id()).stream()
                .filter(letter -> letter.requestId() == request.id())
                .map(RecordsLetter::dated)
                .toList();
        var parts = new RecordsLetterWriter(practice.practice())
                .write(request, number, referral.reference(), patient, dated, earlier, request.dueOn());
        store.add(
                new RecordsLetter(0, request.id(), number, dated, parts.asText()),
                json.writeValueAsString(parts),
                me(),
                now().atOffset(ZoneOffset.UTC));
    }

    /** The work-up says the same as the request: asked of whom, and when to ask again. */
    private void followUp(
            long referralId, String hospital, boolean report, boolean images, LocalDate askedOn, LocalDate dueOn) {
        var codes = new ArrayList<String>();
        if (report) {
            codes.add("outside-report");
        }
        if (images) {
            codes.add("outside-images");
        }
        preparation.get(referralId).items().stream()
                .filter(item -> item.proposed() && item.needed() && codes.contains(item.code()))
                .forEach(item -> preparation.track(
                        referralId, item.code(), item.version(), new Standing.Asked(hospital, askedOn, dueOn)));
    }

    private RecordsRequest known(long requestId) {
        return store.request(requestId)
                .orElseThrow(() -> new IllegalArgumentException("there is no records request " + requestId));
    }

    private Person me() {
        return currentPerson.get();
    }

    /** To the microsecond, which is what the database keeps. */
    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
