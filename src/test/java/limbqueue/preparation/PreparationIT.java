package limbqueue.preparation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.groups.Tuple.tuple;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.preparation.NextThing.Group;
import limbqueue.preparation.PreparationOutcome.Done;
import limbqueue.preparation.PreparationOutcome.Overtaken;
import limbqueue.preparation.PreparationOutcome.Refused;
import limbqueue.preparation.Readiness.Kind;
import limbqueue.preparation.Readiness.NotReady;
import limbqueue.preparation.Readiness.Obstacle;
import limbqueue.preparation.Readiness.Overridden;
import limbqueue.preparation.Readiness.Ready;
import limbqueue.preparation.Standing.Asked;
import limbqueue.preparation.Standing.In;
import limbqueue.preparation.Standing.NotNeeded;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.ResultsOutcome;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.AuthenticationException;

/** Preparation on a database. All people and lots in it are invented. */
@OnPostgres
class PreparationIT {

    private static final Optional<Side> LEFT = Optional.of(Side.LEFT);

    @Autowired
    private Preparation preparation;

    @Autowired
    private StentStock stock;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        today = office(preparation::today);
    }

    @Test
    void anItemIsFollowedFromWantedToInWithWhoAndWhen() {
        var id = approved(restPain()).id();
        assertThat(item(id, "kidney-function").version()).isZero();

        assertThat(track(id, "kidney-function", 0, new Asked("Millbeck Surgery", today, today.plusDays(3))))
                .isEqualTo(new Done());
        assertThat(track(id, "kidney-function", 1, new Standing.Booked(today.plusDays(1), "the laboratory")))
                .isEqualTo(new Done());
        assertThat(track(id, "kidney-function", 2, new In(today))).isEqualTo(new Done());
        assertThat(track(id, "duplex", 0, new NotNeeded("The angiogram shows it.")))
                .isEqualTo(new Done());

        assertThat(item(id, "kidney-function").standing()).isEqualTo(new In(today));
        assertThat(item(id, "kidney-function").author()).isEqualTo("Wren Halloway");
        assertThat(office(() -> preparation.steps(id)))
                .extracting(TrackedStep::code, TrackedStep::version, TrackedStep::state, TrackedStep::details)
                .containsExactly(
                        tuple("duplex", 1, "NOT_NEEDED", "The angiogram shows it."),
                        tuple("kidney-function", 3, "IN", today.toString()),
                        tuple("kidney-function", 2, "BOOKED", today.plusDays(1) + ", the laboratory"),
                        tuple(
                                "kidney-function",
                                1,
                                "ASKED",
                                "Millbeck Surgery, " + today + ", chase on " + today.plusDays(3)));
    }

    @Test
    void whoFollowsUpWhatAnotherHasMovedIsTold() {
        var id = approved(restPain()).id();
        track(id, "duplex", 0, new Asked("the hospital", today, today));

        assertThat(track(id, "duplex", 0, new In(today))).isEqualTo(new Overtaken());
        assertThat(item(id, "duplex").standing()).isInstanceOf(Asked.class);
        assertThat(office(() -> preparation.steps(id))).hasSize(1);
    }

    @Test
    void whatIsNotSaidOrCannotBeIsRefused() {
        var id = approved(restPain()).id();

        for (var standing : List.of(
                new Asked(" ", today, today),
                new Asked("the surgery", today.plusDays(1), today.plusDays(2)),
                new Asked("the surgery", today, today.minusDays(1)),
                new Standing.Booked(today, " "),
                new In(today.plusDays(1)),
                new NotNeeded(" "))) {
            assertThat(track(id, "duplex", 0, standing)).as("%s", standing).isInstanceOf(Refused.class);
        }
        assertThat(track(id, "no-such-item", 0, new In(today))).isInstanceOf(Refused.class);
        assertThat(office(() -> preparation.steps(id))).isEmpty();
    }

    @Test
    void anItemThatIsNotProposedAnyMoreIsStillShown() {
        var document = restPain();
        document.set("history.diabetes", true);
        var approved = approved(document);
        track(approved.id(), "hba1c", 0, new Asked("Millbeck Surgery", today, today));

        document = Draft.of(approved.document());
        document.set("history.diabetes", false);
        var text = document.toJson();
        office(() -> referrals.enterResults(approved.id(), approved.version(), text));

        var item = item(approved.id(), "hba1c");
        assertThat(item.proposed()).isFalse();
        assertThat(item.red()).isFalse();
        assertThat(item.what()).isEqualTo("HbA1c");
        assertThat(item.standing()).isInstanceOf(Asked.class);
    }

    @Test
    void aResultTypedInGoesIntoTheReferralAndItsItemIsIn() {
        var approved = approved(restPain());
        book(approved.id(), today.plusDays(5));

        var outcome = office(() -> preparation.enterResults(
                approved.id(),
                approved.version(),
                Optional.of("potassium"),
                List.of(new TypedResult.Laboratory(LabTest.POTASSIUM, new BigDecimal("4.4"), "mmol/L", today))));

        var entered = (ResultsOutcome.Entered) outcome;
        assertThat(entered.changes()).isEmpty();
        assertThat(Draft.of(entered.referral().document())
                        .get("labs[0].value")
                        .orElseThrow()
                        .asInt())
                .isEqualTo(4);
        var item = item(approved.id(), "potassium");
        assertThat(item.needed()).isFalse();
        assertThat(item.standing()).isEqualTo(new In(today));
    }

    @Test
    void aResultHeldThatRunsOutBeforeTheProcedureIsRedAgain() {
        var document = restPain();
        document.set("labs[0].test", "potassium");
        document.set("labs[0].value", 4.4);
        document.set("labs[0].unit", "mmol/L");
        document.set("labs[0].taken", today.toString());
        var id = approved(document).id();
        assertThat(item(id, "potassium").red()).isFalse();

        book(id, today.plusDays(60));
        assertThat(item(id, "potassium").red()).isTrue();
        track(id, "potassium", 0, new In(today));
        assertThat(item(id, "potassium").red())
                .as("it came, and is not typed in")
                .isTrue();

        book(id, today.plusDays(10));
        assertThat(item(id, "potassium").red()).isFalse();
    }

    @Test
    void aResultThatRaisesAFlagClosesTheGate() {
        var id = ready();

        var now = office(() -> referrals.get(id));
        office(() -> preparation.enterResults(
                id,
                now.version(),
                Optional.of("kidney-function"),
                List.of(new TypedResult.Laboratory(LabTest.EGFR, BigDecimal.valueOf(22), "mL/min/{1.73_m2}", today))));

        assertThat(office(() -> referrals.get(id)).state()).isEqualTo(ReferralState.QUEUED);
        assertThat(kinds(id)).contains(Kind.NOT_APPROVED);
        assertThat(office(() -> preparation.sendToRoom(id))).isInstanceOf(Refused.class);
    }

    @Test
    void theGateStopsACaseUntilItsStentIsConfirmed() {
        addStent(8, 58, "A-1", 1);
        var id = withEverythingIn(approved(iliacOcclusion()));

        assertThat(kinds(id)).containsExactly(Kind.STENT_NOT_CONFIRMED);
        assertThat(((Refused) office(() -> preparation.sendToRoom(id))).why())
                .startsWith(
                        "The case is not ready: No covered stent is confirmed in the room for the left external iliac");

        assertThat(confirm(id, stent("A-1"))).isEqualTo(new Done());
        assertThat(office(() -> preparation.get(id)).readiness()).isEqualTo(new Ready());
        assertThat(office(() -> preparation.sendToRoom(id))).isEqualTo(new Done());
        assertThat(office(() -> preparation.get(id)).booking().orElseThrow().readyBy())
                .contains("Wren Halloway");
        assertThat(office(() -> preparation.sendToRoom(id))).isInstanceOf(Refused.class);
        assertThat(office(() -> preparation.withdrawStent(id, LEFT, Segment.EXTERNAL_ILIAC)))
                .isInstanceOf(Refused.class);
    }

    @Test
    void aVesselOfUnknownWidthIsAskedAbout() {
        addStent(8, 58, "B-1", 1);
        var document = iliacOcclusion();
        document.clear("lesions[0].diameterMm");
        var id = withEverythingIn(approved(document));
        assertThat(kinds(id)).containsExactly(Kind.DIAMETER_NOT_KNOWN);

        var outcome = office(() -> preparation.enterResults(
                id,
                referrals.get(id).version(),
                Optional.empty(),
                List.of(new TypedResult.LesionMeasured(
                        0, Optional.empty(), Optional.of(BigDecimal.valueOf(8)), Optional.empty(), Optional.empty()))));

        assertThat(((ResultsOutcome.Entered) outcome).changes()).isEmpty();
        assertThat(kinds(id)).containsExactly(Kind.STENT_NOT_CONFIRMED);
    }

    @Test
    void aStentThatDoesNotFitOrHasExpiredOrIsPromisedIsNotConfirmed() {
        addStent(10, 58, "C-wide", 1);
        addStent(8, 38, "C-short", 1);
        addStent(8, 58, "C-promised", 1);
        office(() -> stock.add(8, 58, 7, today.plusDays(3), "C-expiring", "Cabinet 2", 1));
        var other = withEverythingIn(approved(iliacOcclusion()));
        confirm(other, stent("C-promised"));
        var id = withEverythingIn(approved(iliacOcclusion()));

        for (var lot : List.of("C-wide", "C-short", "C-promised", "C-expiring")) {
            assertThat(confirm(id, stent(lot))).as(lot).isInstanceOf(Refused.class);
        }
        assertThat(kinds(id)).hasSize(1);
    }

    @Test
    void ofTwoCasesThatConfirmTheLastStentAtTheSameTimeOneIsRefused() throws Exception {
        var one = withEverythingIn(approved(iliacOcclusion()));
        var other = withEverythingIn(approved(iliacOcclusion()));
        var rounds = 20;
        for (var i = 0; i < rounds; i++) {
            addStent(8, 58, "R-" + i, 1);
        }
        var stents = new ArrayList<CoveredStent>();
        for (var i = 0; i < rounds; i++) {
            stents.add(stent("R-" + i));
        }
        var start = new CyclicBarrier(2);
        try (var people = Executors.newFixedThreadPool(2)) {
            var first = people.submit(() -> confirmEach(one, stents, start));
            var second = people.submit(() -> confirmEach(other, stents, start));
            var ofOne = first.get(2, TimeUnit.MINUTES);
            var ofOther = second.get(2, TimeUnit.MINUTES);
            for (var i = 0; i < rounds; i++) {
                assertThat(List.of(ofOne.get(i), ofOther.get(i)))
                        .as("stent %d", i)
                        .hasAtLeastOneElementOfType(Done.class)
                        .hasAtLeastOneElementOfType(Refused.class);
            }
        }
    }

    private List<PreparationOutcome> confirmEach(long id, List<CoveredStent> stents, CyclicBarrier start) {
        return office(() -> {
            var outcomes = new ArrayList<PreparationOutcome>();
            for (var stent : stents) {
                start.await(20, TimeUnit.SECONDS);
                outcomes.add(preparation.confirmStent(id, LEFT, Segment.EXTERNAL_ILIAC, stent.id()));
                // Both have tried before either gives it back.
                start.await(20, TimeUnit.SECONDS);
                if (outcomes.getLast() instanceof Done) {
                    preparation.withdrawStent(id, LEFT, Segment.EXTERNAL_ILIAC);
                }
            }
            return outcomes;
        });
    }

    @Test
    void anOverrideIsAPhysiciansAndFallsWhenTheFactsChange() {
        addStent(8, 58, "D-1", 1);
        var id = withEverythingIn(approved(iliacOcclusion()));
        var facts = office(() -> preparation.get(id)).facts();

        assertThatThrownBy(() -> office(() -> preparation.override(id, facts, "Now.")))
                .isInstanceOf(AccessDeniedException.class);
        assertThat(physician(() -> preparation.override(id, facts, " "))).isInstanceOf(Refused.class);
        assertThat(physician(() -> preparation.override(id, facts + " ", "Now.")))
                .isEqualTo(new Overtaken());
        assertThat(physician(() -> preparation.override(id, facts, "The leg does not wait.")))
                .isEqualTo(new Done());

        var overridden = (Overridden) office(() -> preparation.get(id)).readiness();
        assertThat(overridden.by().author()).isEqualTo("Dr Imogen Tarrant");
        assertThat(overridden.by().reason()).isEqualTo("The leg does not wait.");
        book(id, today.plusDays(9));
        assertThat(office(() -> preparation.get(id)).readiness()).isInstanceOf(NotReady.class);
        book(id, today.plusDays(5));
        assertThat(office(() -> preparation.get(id)).readiness()).isInstanceOf(Overridden.class);
        assertThat(office(() -> preparation.sendToRoom(id))).isEqualTo(new Done());
    }

    @Test
    void nothingIsOverriddenWithoutAnApproval() {
        var queued = queued(iliacOcclusion());
        book(queued.id(), today.plusDays(5));
        var facts = office(() -> preparation.get(queued.id())).facts();

        assertThat(physician(() -> preparation.override(queued.id(), facts, "Now.")))
                .isInstanceOf(Refused.class);
    }

    @Test
    void aCaseIsTakenBackBookedAnewAndRecordedOnce() {
        var id = ready();
        assertThat(office(() -> preparation.record(id, 90, "left groin", CaseOutcome.AS_PLANNED, "")))
                .isInstanceOf(Refused.class);
        office(() -> preparation.sendToRoom(id));
        assertThat(book(id, today.plusDays(6))).isInstanceOf(Refused.class);
        assertThat(office(() -> preparation.takeBack(id))).isEqualTo(new Done());
        assertThat(book(id, today.plusDays(6))).isEqualTo(new Done());
        office(() -> preparation.sendToRoom(id));

        assertThat(office(() -> preparation.record(id, 0, "left groin", CaseOutcome.AS_PLANNED, "")))
                .isInstanceOf(Refused.class);
        assertThat(office(() -> preparation.record(id, 90, "left groin", CaseOutcome.FAILED, " ")))
                .isInstanceOf(Refused.class);
        assertThat(office(() -> preparation.record(id, 90, "left groin", CaseOutcome.OTHER_ACCESS, "")))
                .isEqualTo(new Done());
        assertThat(office(() -> preparation.record(id, 91, "left groin", CaseOutcome.AS_PLANNED, "")))
                .isInstanceOf(Overtaken.class);
        assertThat(office(preparation::records))
                .filteredOn(record -> record.referralId() == id)
                .extracting(CaseRecord::minutes, CaseRecord::access, CaseRecord::outcome)
                .containsExactly(tuple(90, "left groin", CaseOutcome.OTHER_ACCESS));
        assertThat(office(preparation::worklist)).noneMatch(line -> line.id() == id);
    }

    @Test
    void whatCasesTookMovesWhatTheNextOneIsExpectedToTake() {
        var first = withEverythingIn(approved(femoralStenosis()));
        var before = office(() -> preparation.expectedMinutes(preparation.get(first)))
                .orElseThrow();
        for (var i = 0; i < 3; i++) {
            var id = withEverythingIn(approved(femoralStenosis()));
            office(() -> preparation.sendToRoom(id));
            assertThat(office(() ->
                            preparation.record(id, before.median() * 2, "opposite groin", CaseOutcome.AS_PLANNED, "")))
                    .isEqualTo(new Done());
        }

        var after = office(() -> preparation.expectedMinutes(preparation.get(first)))
                .orElseThrow();

        assertThat(before.ownCases()).isZero();
        assertThat(after.ownCases()).isEqualTo(3);
        assertThat(after.median()).isGreaterThan(before.median()).isLessThan(before.median() * 2);
        assertThat(office(() -> preparation.expectedMinutes(
                        preparation.get(approved(restPain()).id()))))
                .as("before imaging")
                .isEmpty();
    }

    @Test
    void theWorklistSaysTheOneThingToDoNextAndWhatToChaseFirst() {
        var wanted = approved(restPain()).id();
        var chased = approved(restPain()).id();
        for (var item : office(() -> preparation.get(chased)).red()) {
            track(chased, item.code(), 0, new Asked("Millbeck Surgery", today.minusDays(9), today.minusDays(2)));
        }
        var advice = queued(Draft.of("{\"patient\": {\"family\": \"Quill\"}}")).id();
        assertThat(advice).isPositive();

        var lines = office(preparation::worklist);

        assertThat(lines.getFirst().next().group()).isEqualTo(Group.CHASE);
        assertThat(lines)
                .filteredOn(line -> line.id() == chased)
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.next().what()).startsWith("Chase: ").contains("asked of Millbeck Surgery");
                    assertThat(line.next().on()).contains(today.minusDays(2));
                });
        assertThat(lines)
                .filteredOn(line -> line.id() == wanted)
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.next().group()).isEqualTo(Group.ASK);
                    assertThat(line.red()).isPositive();
                    assertThat(line.patient()).isEqualTo("Sallow, Enid");
                });
    }

    @Test
    void theWorklistAsksTheDatabaseAsOftenForManyCasesAsForOne() {
        for (var i = 0; i < 300; i++) {
            approved(restPain());
        }
        office(preparation::worklist);
        var began = System.nanoTime();
        var lines = office(preparation::worklist);
        var millis = (System.nanoTime() - began) / 1_000_000;

        assertThat(lines).hasSizeGreaterThanOrEqualTo(300);
        assertThat(millis).as("milliseconds for %d cases", lines.size()).isLessThan(3000);
    }

    @Test
    void theStockIsCountedAndWhatCannotBeIsRefused() {
        addStent(7, 38, "E-1", 2);
        var stent = stent("E-1");

        assertThat(office(() -> stock.count(stent.id(), stent.version(), 1))).isEqualTo(new Done());
        assertThat(office(() -> stock.count(stent.id(), stent.version(), 0))).isEqualTo(new Overtaken());
        assertThat(stent("E-1").count()).isEqualTo(1);
        for (var refused : List.<Callable<PreparationOutcome>>of(
                () -> stock.add(7, 38, 7, today.plusDays(9), "E-1", "Cabinet 2", 2),
                () -> stock.add(2.9, 38, 7, today.plusDays(9), "E-2", "Cabinet 2", 2),
                () -> stock.add(7, 9, 7, today.plusDays(9), "E-2", "Cabinet 2", 2),
                () -> stock.add(Double.NaN, 38, 7, today.plusDays(9), "E-2", "Cabinet 2", 2),
                () -> stock.add(7, 38, 3, today.plusDays(9), "E-2", "Cabinet 2", 2),
                () -> stock.add(7, 38, 7, today.minusDays(1), "E-2", "Cabinet 2", 2),
                () -> stock.add(7, 38, 7, today.plusDays(9), " ", "Cabinet 2", 2),
                () -> stock.add(7, 38, 7, today.plusDays(9), "E-2", " ", 2),
                () -> stock.add(7, 38, 7, today.plusDays(9), "E-2", "Cabinet 2", 0),
                () -> stock.count(stent.id(), stent.version() + 1, -1))) {
            assertThat(office(refused)).isInstanceOf(Refused.class);
        }
    }

    @Test
    void everyKindOfResultFindsItsPlaceInTheReferral() {
        var document = restPain();
        document.set("procedures[0].kind", "angiogram");
        document.set("imaging[0].kind", "cta");
        document.set("lesions[0].segment", "externalIliac");
        for (var result : List.of(
                new TypedResult.ToePressure(Side.RIGHT, BigDecimal.valueOf(61)),
                new TypedResult.ImagingReport(ImagingKind.DUPLEX, today, "Tarn Edge", true, "Open."),
                new TypedResult.OutsideRecords(false),
                new TypedResult.Pregnancy(false),
                new TypedResult.Laboratory(LabTest.WHITE_CELLS, BigDecimal.valueOf(9), "10*9/L", today),
                new TypedResult.LesionMeasured(
                        0,
                        Optional.of(Side.LEFT),
                        Optional.of(BigDecimal.valueOf(7.5)),
                        Optional.of(BigDecimal.valueOf(80)),
                        Optional.of(Calcification.SEVERE)))) {
            result.into(document);
        }

        var reading = document.read(today);

        assertThat(reading.problems()).isEmpty();
        var read = reading.document();
        assertThat(read.legs().right().pressures().toe().orElseThrow().value()).isEqualTo(61);
        assertThat(read.imaging().orElseThrow())
                .allMatch(image -> image.reportHeld().orElse(false));
        assertThat(read.procedures().orElseThrow())
                .allMatch(one -> one.reportHeld().orElse(false));
        assertThat(read.imaging().orElseThrow().get(1).kind()).contains(ImagingKind.DUPLEX);
        assertThat(read.history().pregnant()).contains(false);
        assertThat(read.labs().orElseThrow().getFirst().test()).contains(LabTest.WHITE_CELLS);
        assertThat(read.lesions().orElseThrow().getFirst().calcification()).contains(Calcification.SEVERE);
        assertThat(read.lesions()
                        .orElseThrow()
                        .getFirst()
                        .diameterMm()
                        .orElseThrow()
                        .value())
                .isEqualTo(7.5);
    }

    @Test
    void aManagerSeesNothingClinicalAndNobodyUnknownAnything() {
        var id = approved(restPain()).id();

        for (var act : List.<Runnable>of(
                preparation::worklist,
                () -> preparation.get(id),
                () -> preparation.steps(id),
                () -> preparation.overrides(id),
                preparation::records,
                () -> preparation.track(id, "duplex", 0, new In(today)),
                () -> preparation.enterResults(id, 1, Optional.empty(), List.of()),
                () -> preparation.book(id, 0, today.atStartOfDay(), "Room 2"),
                () -> preparation.confirmStent(id, LEFT, Segment.EXTERNAL_ILIAC, 1),
                () -> preparation.withdrawStent(id, LEFT, Segment.EXTERNAL_ILIAC),
                () -> preparation.override(id, "x", "x"),
                () -> preparation.sendToRoom(id),
                () -> preparation.takeBack(id),
                () -> preparation.record(id, 1, "x", CaseOutcome.AS_PLANNED, ""),
                stock::all,
                () -> stock.add(8, 58, 7, today, "x", "x", 1),
                () -> stock.count(1, 1, 1))) {
            assertThatThrownBy(() -> actingAs.person("manager", act)).isInstanceOf(AccessDeniedException.class);
            assertThatThrownBy(act::run).isInstanceOf(AuthenticationException.class);
        }
        assertThatThrownBy(() -> physician(() -> stock.count(1, 1, 1))).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> office(() -> preparation.get(-1))).isInstanceOf(ReferralNotFoundException.class);
    }

    @Test
    void theDatabaseKeepsWhatWasDoneAndRefusesHalfOfIt() {
        addStent(8, 58, "F-1", 1);
        var id = withEverythingIn(approved(iliacOcclusion()));
        confirm(id, stent("F-1"));
        office(() -> preparation.withdrawStent(id, LEFT, Segment.EXTERNAL_ILIAC));
        physician(() -> preparation.override(id, preparation.get(id).facts(), "The leg does not wait."));
        office(() -> preparation.sendToRoom(id));
        office(() -> preparation.record(id, 90, "left groin", CaseOutcome.AS_PLANNED, ""));

        for (var sql : List.of(
                "delete from tracked_item",
                "update tracked_item set what = 'x'",
                "update tracked_item set version = version + 1, state = 'ASKED'",
                "update tracked_item set version = version + 1, state = 'NOT_NEEDED', came_on = null",
                "update tracked_item set version = version + 1, state = 'IN', came_on = null",
                "update tracked_item_step set author = 'x'",
                "delete from tracked_item_step",
                "truncate tracked_item_step",
                "delete from procedure_booking",
                "update procedure_booking set version = version + 1, room = 'x' where ready_at is not null",
                "update procedure_booking set version = version + 1, ready_by = null where ready_at is not null",
                "delete from stent_confirmation",
                "update stent_confirmation set withdrawn_at = null, withdrawn_by = null",
                "delete from covered_stent",
                "update covered_stent set version = version + 1, expires = expires + 365",
                "update covered_stent set version = version + 1, count = -1",
                "update readiness_override set reason = 'x'",
                "delete from readiness_override",
                "truncate readiness_override",
                "update recorded_case set minutes = 1",
                "delete from recorded_case")) {
            assertThatThrownBy(() -> jdbc.sql(sql).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    private PreparationOutcome track(long id, String code, int version, Standing standing) {
        return office(() -> preparation.track(id, code, version, standing));
    }

    private PreparationOutcome book(long id, LocalDate day) {
        return office(() -> preparation.book(
                id,
                preparation.get(id).booking().map(ProcedureBooking::version).orElse(0),
                LocalDateTime.of(day, LocalTime.of(8, 30)),
                "Room 2"));
    }

    private CaseItem item(long id, String code) {
        return office(() -> preparation.get(id)).items().stream()
                .filter(item -> item.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private List<Kind> kinds(long id) {
        return office(() -> preparation.get(id)).readiness().obstacles().stream()
                .map(Obstacle::kind)
                .toList();
    }

    private void addStent(double diameterMm, double lengthMm, String lot, int count) {
        assertThat(office(() -> stock.add(diameterMm, lengthMm, 7, today.plusYears(1), lot, "Cabinet 2", count)))
                .isEqualTo(new Done());
    }

    private CoveredStent stent(String lot) {
        return office(stock::all).stream()
                .filter(stent -> stent.lot().equals(lot))
                .findFirst()
                .orElseThrow();
    }

    private PreparationOutcome confirm(long id, CoveredStent stent) {
        return office(() -> preparation.confirmStent(id, LEFT, Segment.EXTERNAL_ILIAC, stent.id()));
    }

    /** A case of the leg without iliac disease for which everything is there. */
    private long ready() {
        return withEverythingIn(approved(restPain()));
    }

    /** Books the case in five days, and says of every open item that it is in. */
    private long withEverythingIn(Referral referral) {
        var id = referral.id();
        book(id, today.plusDays(5));
        for (var item : office(() -> preparation.get(id)).red()) {
            track(id, item.code(), item.version(), new In(today));
        }
        return id;
    }

    private static Draft restPain() {
        var draft = Draft.of(Arriving.REST_PAIN);
        draft.set("patient.given", "Enid");
        draft.set("patient.family", "Sallow");
        return draft;
    }

    private static Draft femoralStenosis() {
        var draft = restPain();
        draft.set("lesions[0].segment", "superficialFemoral");
        draft.set("lesions[0].side", "left");
        draft.set("lesions[0].stenosisPercent", 80);
        draft.set("lesions[0].lengthMm", 40);
        draft.set("lesions[0].calcification", "none");
        return draft;
    }

    private static Draft iliacOcclusion() {
        var draft = restPain();
        draft.set("lesions[0].segment", "externalIliac");
        draft.set("lesions[0].side", "left");
        draft.set("lesions[0].stenosisPercent", 100);
        draft.set("lesions[0].lengthMm", 45);
        draft.set("lesions[0].diameterMm", 8);
        draft.set("lesions[0].calcification", "severe");
        return draft;
    }

    private Referral approved(Draft document) {
        var queued = queued(document);
        return ((DecideOutcome.Decided)
                        physician(() -> referrals.decide(queued.id(), queued.version(), new Decision.Approve())))
                .referral();
    }

    private Referral queued(Draft document) {
        return office(() -> {
            var entered = referrals.enter(document.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    private <T> T office(Callable<T> work) {
        return as("coordinator", work);
    }

    private <T> T physician(Callable<T> work) {
        return as("physician", work);
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
