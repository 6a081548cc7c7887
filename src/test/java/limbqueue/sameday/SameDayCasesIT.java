package limbqueue.sameday;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.practice.LeadPhysicians;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.referral.TimelineEntry;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

@OnPostgres
class SameDayCasesIT {

    @Autowired
    private SameDayCases cases;

    @Autowired
    private SameDayChoices choices;

    @Autowired
    private LeadPhysicians leads;

    @Autowired
    private Watch watch;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;

    @BeforeEach
    void staff() {
        staff = new Staff(actingAs);
    }

    @Test
    void aSameDayCaseRingsUntilSomebodyTakesItAndTheTimelineSaysWho() {
        var calm = submitted(Arriving.REST_PAIN);
        var sudden = submitted(SUDDEN_WITH_NUMBERS);

        assertThat(ringing()).extracting(one -> one.sameDay().referral()).doesNotContain(calm.id());
        var rings = ringing(sudden);
        assertThat(rings.patient().orElseThrow().name()).isEqualTo("Tolliver, Bram");
        assertThat(rings.patient().orElseThrow().phone()).contains("01632 960211");
        assertThat(rings.patient().orElseThrow().referrerPhone()).contains("01632 960311");
        assertThat(rings.sameDay().escalation()).isEmpty();

        var taken = (TakeOutcome.Taken)
                staff.as("coordinator", () -> cases.take(rings.sameDay().id()));

        assertThat(taken.sameDay().taken().orElseThrow().by()).isEqualTo("Wren Halloway");
        assertThat(ringing()).extracting(one -> one.sameDay().referral()).doesNotContain(sudden.id());
        assertThat(staff.as("physician", () -> cases.take(rings.sameDay().id())))
                .isEqualTo(new TakeOutcome.TakenBefore(taken.sameDay().taken().orElseThrow()));
        assertThat(timeline(sudden)).first().satisfies(entry -> {
            assertThat(entry.what()).isEqualTo("took the same-day case");
            assertThat(entry.who()).isEqualTo("Wren Halloway");
            assertThat(entry.at())
                    .isEqualTo(taken.sameDay().taken().orElseThrow().at());
        });
    }

    @Test
    void ofTwoWhoTakeItAtOnceOneHasItAndTheOtherIsTold() throws Exception {
        var start = new CyclicBarrier(2);
        try (var people = Executors.newFixedThreadPool(2)) {
            for (var round = 0; round < 50; round++) {
                var rings = ringing(submitted(Arriving.SUDDEN)).sameDay().id();
                Callable<TakeOutcome> take = () -> {
                    start.await(20, TimeUnit.SECONDS);
                    return cases.take(rings);
                };
                var one = people.submit(() -> staff.as("coordinator", take));
                var other = people.submit(() -> staff.as("physician", take));
                var outcomes = List.of(one.get(1, TimeUnit.MINUTES), other.get(1, TimeUnit.MINUTES));
                assertThat(outcomes)
                        .as("round %d", round)
                        .hasAtLeastOneElementOfType(TakeOutcome.Taken.class)
                        .hasAtLeastOneElementOfType(TakeOutcome.TakenBefore.class);
            }
        }
    }

    @Test
    void whatIsDecidedRingsNoMoreAndWhatComesBackRingsAgain() {
        var sudden = submitted(Arriving.SUDDEN);
        var first = ringing(sudden).sameDay().id();

        var asked = (DecideOutcome.Decided) staff.as(
                "physician",
                () -> referrals.decide(
                        sudden.id(), sudden.version(), new Decision.AskForInformation("Since what hour is it cold?")));
        assertThat(ringing()).extracting(one -> one.sameDay().referral()).doesNotContain(sudden.id());
        assertThat(staff.as("physician", () -> cases.take(first))).isEqualTo(new TakeOutcome.Over());

        var again = (SubmitOutcome.Submitted) staff.as(
                "coordinator",
                () -> referrals.submit(sudden.id(), asked.referral().version()));
        assertThat(ringing(sudden).sameDay().id()).isNotEqualTo(first);

        staff.as(
                "physician",
                () -> referrals.decide(
                        sudden.id(),
                        again.referral().version(),
                        new Decision.SendToHospital("The hospital's vascular team, by telephone.")));
        assertThat(ringing()).extracting(one -> one.sameDay().referral()).doesNotContain(sudden.id());
    }

    @Test
    void aResultThatMakesItASameDayCaseMakesItRing() {
        var calm = submitted(Arriving.REST_PAIN);
        var worse = Arriving.REST_PAIN.replace(
                "\"left\": {\"restPain\": {\"present\": true, \"sinceDays\": 40}, \"acute\": {\"present\": false}",
                "\"left\": {\"restPain\": {\"present\": true, \"sinceDays\": 1}, \"acute\": {\"present\": true, \"sensory\":"
                        + " \"beyondToes\", \"motor\": \"mild\", \"pain\": true, \"cold\": true}");

        staff.as("coordinator", () -> referrals.enterResults(calm.id(), calm.version(), worse));

        assertThat(staff.as("physician", referrals::queue))
                .filteredOn(line -> line.id() == calm.id())
                .singleElement()
                .satisfies(line -> assertThat(line.proposedTier()).isEqualTo(Tier.SAME_DAY));
        assertThat(ringing(calm).patient().orElseThrow().name()).isEqualTo("Ångström-Łuczak, Zoë");
    }

    @Test
    void whatNobodyTakesInTimeIsAskedOfTheLeadPhysicianAndTheManagersWhoSeeNoPatient() {
        var version = staff.as("manager", choices::inForce).version();
        assertThatThrownBy(() ->
                        staff.as("manager", () -> choices.choose(version, new SameDayChoice(20, "", "", ""), " ")))
                .isInstanceOf(NotPossibleException.class);
        staff.as(
                "manager",
                () -> choices.choose(
                        version,
                        new SameDayChoice(20, "Harrow Vale Hospital", "01632 960900", "01632 960901"),
                        "Agreed at the meeting."));
        staff.as("manager", () -> {
            leads.name(leads.physicians().stream().findFirst());
            return leads.named();
        });
        var sudden = submitted(Arriving.SUDDEN);
        watch.look();
        assertThat(ringing(sudden).sameDay().escalation()).isEmpty();
        assertThat(staff.as("manager", cases::escalated)).isEmpty();

        setBack(sudden, 21);
        watch.look();
        var late = ringing(sudden).sameDay().escalation().orElseThrow();
        watch.look();

        assertThat(late.minutes()).isEqualTo(20);
        assertThat(late.to()).isEqualTo("the lead physician and the managers");
        assertThat(ringing(sudden).sameDay().escalation()).contains(late);
        assertThat(staff.as("manager", cases::escalated)).singleElement().satisfies(one -> {
            assertThat(one.reference()).isEqualTo(sudden.reference());
            assertThat(one.patient()).isEmpty();
            assertThat(one.numbers().lead()).isEqualTo("Dr Imogen Tarrant");
            assertThat(one.numbers().leadPhone()).contains("01632 960901");
            assertThat(one.numbers().hospitalPhone()).contains("01632 960900");
        });
        assertThat(timeline(sudden))
                .extracting(TimelineEntry::what)
                .contains("found that nobody had taken the same-day case for 20 minutes: asked of the"
                        + " lead physician and the managers");
        assertThatThrownBy(() -> staff.as("manager", cases::ringing)).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("manager", () -> cases.take(1))).isInstanceOf(AccessDeniedException.class);
    }

    @Test
    void whatHappenedToACaseIsKept() {
        var rings = ringing(submitted(Arriving.SUDDEN)).sameDay().id();
        staff.as("physician", () -> cases.take(rings));

        for (var change : List.of(
                "update same_day_case set taken_by = 'x' where id = :id",
                "update same_day_case set since = now() where id = :id",
                "delete from same_day_case where id = :id")) {
            assertThatThrownBy(() -> jdbc.sql(change).param("id", rings).update())
                    .as(change)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    private static final String SUDDEN_WITH_NUMBERS = Arriving.SUDDEN
            .replace("\"born\"", "\"phone\": \"01632 960211\", \"born\"")
            .replace("\"legs\"", "\"referrer\": {\"name\": \"Dr Ines Farrow\", \"phone\": \"01632 960311\"}, \"legs\"");

    private void setBack(Referral referral, int minutes) {
        jdbc.sql("alter table same_day_case disable trigger same_day_case_guarded")
                .update();
        jdbc.sql("update same_day_case set since = since - make_interval(mins => :minutes) where referral = :referral")
                .param("minutes", minutes)
                .param("referral", referral.id())
                .update();
        jdbc.sql("alter table same_day_case enable trigger same_day_case_guarded")
                .update();
    }

    private Referral submitted(String document) {
        return staff.as("coordinator", () -> {
            var entered = referrals.enter(document);
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    private List<RingingCase> ringing() {
        return staff.as("physician", cases::ringing);
    }

    private RingingCase ringing(Referral referral) {
        return ringing().stream()
                .filter(one -> one.sameDay().referral() == referral.id())
                .findFirst()
                .orElseThrow();
    }

    private List<TimelineEntry> timeline(Referral referral) {
        return staff.as("coordinator", () -> referrals.timeline(referral.id()));
    }
}
