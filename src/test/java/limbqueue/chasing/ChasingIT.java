package limbqueue.chasing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.groups.Tuple.tuple;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.chasing.ChasingOutcome.Done;
import limbqueue.chasing.ChasingOutcome.Overtaken;
import limbqueue.chasing.ChasingOutcome.Refused;
import limbqueue.chasing.ChasingOutcome.Retriaged;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.document.Draft;
import limbqueue.practice.DemoRequested;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.Standing;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.triage.Tier;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/** Requests, reminders and calls on a database. All people and places in it are invented. */
@OnPostgres
class ChasingIT {

    private static final String HOSPITAL = "Marrow Point General";

    @Autowired
    private Chasing chasing;

    @Autowired
    private ChasingSettings settings;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Preparation preparation;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ApplicationEventPublisher events;

    @Autowired
    private TransactionTemplate transaction;

    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        today = office(chasing::today);
    }

    @Test
    void aRequestIsALetterAndAnItemOfTheWorkUpThatIsAskedFor() throws IOException {
        var id = approved(angiogramElsewhere()).id();
        assertThat(ask(id)).isEqualTo(new Done());

        var request = only(id);
        assertThat(request.next())
                .contains(new RecordsRequest.Next(RecordsRequest.Next.Step.SECOND_REQUEST, today.plusDays(7)));
        var letter = office(() -> chasing.letters(id)).getFirst();
        assertThat(letter.text()).contains("Request for records", HOSPITAL, "report and images");
        var pdf = office(() -> chasing.pdf(letter.id()));
        try (var document = Loader.loadPDF(pdf)) {
            assertThat(new PDFTextStripper().getText(document)).contains("Request for records", "Ångström-Łuczak");
        }
        assertThat(office(() -> chasing.pdf(letter.id()))).isEqualTo(pdf);
        for (var code : List.of("outside-report", "outside-images")) {
            assertThat(office(() -> preparation.get(id)).items())
                    .filteredOn(item -> item.code().equals(code))
                    .extracting(item -> item.standing())
                    .containsExactly(new Standing.Asked(HOSPITAL, today, today.plusDays(7)));
        }
    }

    @Test
    void remindersFollowInTheDaysThatThePracticeHasSetAndThereAreTwo() {
        var id = queued(angiogramElsewhere()).id();
        ask(id);

        assertThat(remind(only(id))).isEqualTo(new Done());
        // Four days after a second letter, three after a third: as the product comes (common practice, no source).
        assertThat(only(id).dueOn()).isEqualTo(today.plusDays(4));
        assertThat(remind(only(id))).isEqualTo(new Done());
        assertThat(only(id).dueOn()).isEqualTo(today.plusDays(3));
        assertThat(remind(only(id))).isInstanceOf(Refused.class);
        assertThat(office(() -> chasing.letters(id)))
                .extracting(RecordsLetter::number)
                .containsExactly(1, 2, 3);
        assertThat(only(id).next().orElseThrow().step()).isEqualTo(RecordsRequest.Next.Step.TELEPHONE);
    }

    @Test
    void whoRemindsWhatAnotherHasMovedIsTold() {
        var id = queued(angiogramElsewhere()).id();
        ask(id);
        var seen = only(id);
        remind(seen);

        assertThat(remind(seen)).isEqualTo(new Overtaken());
        assertThat(office(() -> chasing.arrived(seen.id(), seen.version(), true, true)))
                .isEqualTo(new Overtaken());
        assertThat(office(() -> chasing.letters(id))).hasSize(2);
    }

    @Test
    void whatCameIsHeldInTheReferralAndTheFlagFalls() {
        var id = queued(angiogramElsewhere()).id();
        ask(id);
        assertThat(flags(id)).contains("possible-undisclosed-attempt");

        var request = only(id);
        assertThat(office(() -> chasing.arrived(request.id(), request.version(), true, false)))
                .isInstanceOf(Retriaged.class);
        assertThat(document(id).get("procedures[0].reportHeld").orElseThrow().booleanValue())
                .isTrue();
        assertThat(document(id).get("procedures[0].imagesHeld").map(held -> held.booleanValue()))
                .isNotEqualTo(Optional.of(true));
        assertThat(only(id).missing()).isEqualTo("images");

        var rest = only(id);
        office(() -> chasing.arrived(rest.id(), rest.version(), false, true));
        assertThat(document(id).get("procedures[0].imagesHeld").orElseThrow().booleanValue())
                .isTrue();
        assertThat(flags(id)).doesNotContain("possible-undisclosed-attempt");
        assertThat(only(id).open()).isFalse();
        assertThat(office(() -> referrals.timeline(id)))
                .extracting(entry -> entry.what())
                .contains("entered results");
    }

    @Test
    void whatCameForAnEntryThatHasMovedIsHeldThere() {
        var referral = queued(angiogramElsewhere());
        ask(referral.id());
        var moved = Draft.of(referral.document());
        moved.putBack("procedures[1]", moved.get("procedures[0]"));
        moved.clear("procedures[0]");
        moved.set("procedures[0].kind", "bypass");
        office(() -> referrals.save(referral.id(), referral.version(), moved.toJson()));

        var request = only(referral.id());
        office(() -> chasing.arrived(request.id(), request.version(), true, true));

        assertThat(document(referral.id()).get("procedures[0].reportHeld")).isEmpty();
        assertThat(document(referral.id())
                        .get("procedures[1].reportHeld")
                        .orElseThrow()
                        .booleanValue())
                .isTrue();
    }

    @Test
    void whatIsGivenUpIsWaitedForNoMoreAndSaysWhy() {
        var id = queued(angiogramElsewhere()).id();
        ask(id);
        var request = only(id);
        assertThat(office(() -> chasing.giveUp(request.id(), request.version(), " ")))
                .isInstanceOf(Refused.class);
        assertThat(office(() -> chasing.giveUp(request.id(), request.version(), "They keep none.")))
                .isEqualTo(new Done());

        assertThat(only(id).next()).isEmpty();
        assertThat(only(id).givenUpBecause()).contains("They keep none.");
        assertThat(remind(only(id))).isEqualTo(new Overtaken());
    }

    @Test
    void whatIsNotSaidIsRefused() {
        var id = queued(angiogramElsewhere()).id();

        assertThat(request(id, " ", "angiogram", true, true, today)).isInstanceOf(Refused.class);
        assertThat(request(id, HOSPITAL, " ", true, true, today)).isInstanceOf(Refused.class);
        assertThat(request(id, HOSPITAL, "angiogram", false, false, today)).isInstanceOf(Refused.class);
        assertThat(request(
                        id,
                        "The hospital for the arteries and veins of all of the Arven Valley",
                        "angiogram",
                        true,
                        true,
                        today))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains("mm wide", "Shorten the name"));
        assertThat(request(id, "医院", "angiogram", true, true, today))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).contains("“医院”"));
        assertThat(request(id, HOSPITAL, "angiogram", true, true, today.minusDays(1)))
                .isInstanceOf(Refused.class);
        assertThat(call(id, Kind.OTHER, Optional.empty(), " ", "Said.")).isInstanceOf(Refused.class);
        assertThat(call(id, Kind.OTHER, Optional.empty(), "the surgery", " ")).isInstanceOf(Refused.class);
        assertThat(call(id, Kind.SAFETY, Optional.of(Outcome.WORSE), "the patient", " "))
                .isInstanceOf(Refused.class);
        assertThat(office(() -> chasing.state(id))).isEqualTo(new ChasingState(id, List.of(), List.of()));
    }

    @Test
    void aDayAgreedOnTheTelephoneIsTheDayToAskAgain() {
        var id = queued(angiogramElsewhere()).id();
        ask(id);
        var request = only(id);

        assertThat(office(() -> chasing.noteCall(
                        id,
                        Kind.RECORDS,
                        Optional.of(request.id()),
                        Optional.empty(),
                        "their records office",
                        "They look in the cellar.",
                        Optional.of(today.plusDays(2)))))
                .isEqualTo(new Done());

        assertThat(only(id).dueOn()).isEqualTo(today.plusDays(2));
        assertThat(office(() -> chasing.state(id)).calls())
                .extracting(PhoneCall::kind, PhoneCall::spokeWith, PhoneCall::said, PhoneCall::author)
                .containsExactly(
                        tuple(Kind.RECORDS, "their records office", "They look in the cellar.", "Wren Halloway"));
    }

    @Test
    void newSymptomsToldOnTheTelephoneAreTriagedAtOnce() {
        var id = queued(restPain()).id();

        var outcome = office(() -> chasing.tellSymptoms(
                id,
                Kind.SAFETY,
                "the patient",
                "Since this morning the foot is cold and he cannot feel the toes.",
                List.of(
                        new ToldFact("legs.left.acute.present", true),
                        new ToldFact("legs.left.acute.onset", today.toString()),
                        new ToldFact("legs.left.acute.sensory", "toes"),
                        new ToldFact("legs.left.acute.cold", true))));

        var retriaged = (Retriaged) outcome;
        assertThat(retriaged.before().urgency().tier()).isNotEqualTo(Tier.SAME_DAY);
        // Sudden onset within 14 days with coldness or sensory loss: the same day (esvs-ali-2020).
        assertThat(retriaged.now().urgency().tier()).isEqualTo(Tier.SAME_DAY);
        assertThat(office(() -> referrals.proposed(List.of(id)))
                        .getFirst()
                        .proposal()
                        .urgency()
                        .tier())
                .isEqualTo(Tier.SAME_DAY);
        assertThat(office(() -> chasing.state(id)).calls())
                .extracting(PhoneCall::outcome)
                .containsExactly(Optional.of(Outcome.WORSE));
    }

    @Test
    void newSymptomsPutAnApprovedReferralBeforeThePhysicianAgain() {
        var id = approved(restPain()).id();

        var outcome = office(() -> chasing.tellSymptoms(
                id,
                Kind.OTHER,
                "the daughter",
                "Two toes are black.",
                List.of(new ToldFact("legs.left.wound.gangrene", "digits"))));

        assertThat(((Retriaged) outcome).changes()).isNotEmpty();
        assertThat(office(() -> referrals.get(id)).state()).isEqualTo(ReferralState.QUEUED);
    }

    @Test
    void aValueThatCannotBeRightIsRefusedAndNothingIsKeptOfIt() {
        var id = queued(restPain()).id();

        var outcome = office(() -> chasing.tellSymptoms(
                id,
                Kind.SAFETY,
                "the patient",
                "Fever.",
                List.of(new ToldFact("legs.left.infection.temperatureC", 385))));

        assertThat(outcome).isInstanceOf(Refused.class);
        assertThat(document(id).get("legs.left.infection.temperatureC")).isEmpty();
        assertThat(office(() -> chasing.state(id)).calls()).isEmpty();
    }

    @Test
    void aCallAboutAReferralThatTakesNothingInAnyMoreIsKept() {
        var queued = queued(restPain());
        as(
                "physician",
                () -> referrals.decide(
                        queued.id(), queued.version(), new Decision.ReturnToReferrer("Seen elsewhere.")));

        var outcome = office(() -> chasing.tellSymptoms(
                queued.id(),
                Kind.OTHER,
                "the daughter",
                "Two toes are black.",
                List.of(new ToldFact("legs.left.wound.gangrene", "digits"))));

        assertThat(outcome).isEqualTo(new Overtaken());
        assertThat(office(() -> chasing.state(queued.id())).calls()).hasSize(1);
    }

    @Test
    void whatWasNotedAndWrittenIsNeverRewritten() {
        var id = queued(angiogramElsewhere()).id();
        ask(id);
        call(id, Kind.OTHER, Optional.empty(), "the surgery", "Nothing new.");

        for (var sql : List.of(
                "update phone_call set said = 'Other.' where referral = " + id,
                "delete from phone_call where referral = " + id,
                "update records_letter set text = 'Other.' where request in (select id from records_request where referral = "
                        + id + ")",
                "delete from records_request where referral = " + id,
                "update records_request set hospital = 'Other', version = version + 1 where referral = " + id,
                "update chasing_days set first_reply = 1")) {
            assertThatThrownBy(() -> jdbc.sql(sql).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    @Test
    void daysAreSetByPhysicianOrManagerWithAReasonAndAreKept() {
        var before = office(settings::inForce);
        var days = new ChasingDays(10, 5, 2, Map.of(Tier.WITHIN_5_DAYS, 2), 3);

        assertThatThrownBy(() -> office(() -> settings.set(before.version(), days, "Because.")))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> as("manager", () -> settings.set(before.version(), days, " ")))
                .isInstanceOf(NotPossibleException.class);
        var set = as("manager", () -> settings.set(before.version(), days, "Letters take longer here."));
        assertThat(set.days()).isEqualTo(days);
        assertThat(set.who()).isEqualTo("Osric Pell");
        assertThatThrownBy(() -> as("physician", () -> settings.set(before.version(), before.days(), "Late.")))
                .isInstanceOf(NotPossibleException.class);
        as("physician", () -> settings.set(set.version(), before.days(), "As before."));
        assertThat(office(settings::versions))
                .extracting(ChasingDaysVersion::reason)
                .startsWith("As before.", "Letters take longer here.");
    }

    @Test
    void theDemoHasRequestsAndCalls() {
        actingAs.person(
                "coordinator",
                () -> transaction.executeWithoutResult(status ->
                        events.publishEvent(new DemoRequested(Path.of("demo-referrals"), "coordinator", "physician"))));

        var ids = jdbc.sql("select id from referral where reference like 'D-%'")
                .query((row, _) -> row.getLong(1))
                .list();
        var states = office(() -> chasing.states(ids)).values();
        assertThat(states.stream().flatMap(state -> state.requests().stream()))
                .hasSize(3)
                .anyMatch(request -> request.dueOn().isBefore(today));
        assertThat(states.stream().flatMap(state -> state.calls().stream()))
                .extracting(PhoneCall::outcome)
                .contains(Optional.of(Outcome.NOT_REACHED), Optional.of(Outcome.UNCHANGED), Optional.empty());
    }

    private ChasingOutcome ask(long id) {
        return request(id, HOSPITAL, "angiogram, left leg, 20 January 2026", true, true, today.plusDays(7));
    }

    private ChasingOutcome request(
            long id, String hospital, String about, boolean report, boolean images, LocalDate due) {
        var missing = OutsideRecord.missing(document(id).read(today).document());
        return office(() -> chasing.request(
                id,
                hospital,
                "4 Quay Street, Marrow Point",
                about,
                missing.stream().findFirst().map(OutsideRecord::entry),
                report,
                images,
                due));
    }

    private ChasingOutcome remind(RecordsRequest request) {
        return office(() -> chasing.remind(request.id(), request.version()));
    }

    private ChasingOutcome call(long id, Kind kind, Optional<Outcome> outcome, String who, String said) {
        return office(() -> chasing.noteCall(id, kind, Optional.empty(), outcome, who, said, Optional.empty()));
    }

    private RecordsRequest only(long id) {
        var requests = office(() -> chasing.state(id)).requests();
        assertThat(requests).hasSize(1);
        return requests.getFirst();
    }

    private List<String> flags(long id) {
        return office(() -> referrals.proposed(List.of(id))).getFirst().proposal().redFlags().stream()
                .map(flag -> flag.code())
                .toList();
    }

    private Draft document(long id) {
        return Draft.of(office(() -> referrals.get(id)).document());
    }

    private String restPain() {
        var document = Draft.of(Arriving.REST_PAIN);
        document.set("received", today.toString());
        return document.toJson();
    }

    private String angiogramElsewhere() {
        var document = Draft.of(restPain());
        document.set("procedures[0].kind", "angiogram");
        document.set("procedures[0].side", "left");
        document.set("procedures[0].date", today.minusDays(40).toString());
        document.set("procedures[0].where", HOSPITAL);
        document.set("procedures[0].intent", "diagnostic");
        document.set("procedures[0].outcome", "completed");
        return document.toJson();
    }

    private Referral queued(String document) {
        var entered = office(() -> referrals.enter(document));
        return office(() -> ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral());
    }

    private Referral approved(String document) {
        var queued = queued(document);
        return as(
                "physician",
                () -> ((DecideOutcome.Decided) referrals.decide(queued.id(), queued.version(), new Decision.Approve()))
                        .referral());
    }

    private <T> T office(Callable<T> work) {
        return as("coordinator", work);
    }

    private <T> T as(String person, Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> {
            try {
                result.set(work.call());
            } catch (RuntimeException failed) {
                throw failed;
            } catch (Exception failed) {
                throw new IllegalStateException(failed);
            }
        });
        return result.get();
    }
}
