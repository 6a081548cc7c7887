package limbqueue.worklist;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.chasing.Chasing;
import limbqueue.chasing.ChasingOutcome;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.document.Draft;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.preparation.Standing;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * The lists on a database. Days of reminders and calls are those that the product comes with (common practice, no source);
 * all people are invented.
 */
@OnPostgres
class WorklistsIT {

    @Autowired
    private Worklists worklists;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Preparation preparation;

    @Autowired
    private Chasing chasing;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TransactionTemplate transaction;

    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        today = office(referrals::today);
    }

    @Test
    void aDraftSaysWhatIsMissingAndIsGoneOnceItIsSubmitted() {
        var draft = office(() -> referrals.enter(restPain(0)));
        var step = step(WorkList.TO_COMPLETE, draft.id());
        assertThat(step.what()).startsWith("Ask: ");
        assertThat(step.due()).isPresent();
        assertThat(step.page()).isEqualTo(WorkStep.Page.FORM);

        submit(draft);
        assertThat(line(WorkList.TO_COMPLETE, draft.id())).isEmpty();
        assertThat(step(WorkList.PHYSICIAN, draft.id()).what()).isEqualTo("The physician decides");
        // Received today, within 14 days (vs-qif-2019, value from memory).
        assertThat(step(WorkList.PHYSICIAN, draft.id()).due()).contains(today.plusDays(14));
    }

    @Test
    void aValueThatCannotBeRightIsMendedFirst() {
        var draft = office(() -> referrals.enter(Arriving.IMPOSSIBLE));

        assertThat(step(WorkList.TO_COMPLETE, draft.id()).what()).isEqualTo("Mend 1 value that cannot be right");
    }

    @Test
    void theSameDayDoesNotWaitToBeComplete() {
        var draft = office(() -> referrals.enter(Arriving.SUDDEN));

        assertThat(step(WorkList.TO_COMPLETE, draft.id()))
                .isEqualTo(new WorkStep(
                        "Put it before the physician now: same day is proposed",
                        Optional.of(today),
                        WorkStep.Page.FORM));
        submit(draft);
        assertThat(step(WorkList.PHYSICIAN, draft.id()).what())
                .isEqualTo("Call the physician now: same day is proposed");
        assertThat(step(WorkList.LATE, draft.id()).due()).contains(today);
    }

    @Test
    void anApprovedCaseIsBookedPreparedAndLeavesTheList() {
        var id = approved(restPain(0));
        assertThat(step(WorkList.TO_BOOK, id).what()).isEqualTo("Book a date and a room");
        assertThat(step(WorkList.TO_BOOK, id).due()).contains(today.plusDays(14));
        assertThat(step(WorkList.WORK_UP, id).what()).startsWith("Ask for: ");
        assertThat(line(WorkList.PHYSICIAN, id)).isEmpty();

        book(id, 7);
        assertThat(line(WorkList.TO_BOOK, id)).isEmpty();
        everythingIn(id);
        assertThat(line(WorkList.WORK_UP, id)).isEmpty();
        assertThat(line(WorkList.LATE, id)).isEmpty();
    }

    @Test
    void whatWasAskedOfOthersIsChasedOnItsDay() {
        var id = approved(restPain(0));
        office(() -> preparation.get(id)).red().forEach(item -> {
            assertThat(office(() -> preparation.track(
                            id,
                            item.code(),
                            item.version(),
                            new Standing.Asked("Millbeck Surgery", today, today.plusDays(2)))))
                    .isEqualTo(new PreparationOutcome.Done());
        });
        book(id, 7);

        assertThat(step(WorkList.WAITING, id).due()).contains(today.plusDays(2));
        assertThat(line(WorkList.WORK_UP, id)).isEmpty();
    }

    @Test
    void recordsOfAnotherHospitalAreWaitedForUntilTheyCome() {
        var document = Draft.of(restPain(0));
        document.set("procedures[0].kind", "angiogram");
        document.set("procedures[0].where", "Marrow Point General");
        document.set("procedures[0].date", "2026-01-05");
        var id = office(() -> referrals.enter(document.toJson())).id();
        assertThat(office(() -> chasing.request(
                        id,
                        "Marrow Point General",
                        "",
                        "angiogram, 5 January 2026",
                        Optional.empty(),
                        true,
                        true,
                        today.plusDays(7))))
                .isEqualTo(new ChasingOutcome.Done());

        var step = step(WorkList.WAITING, id);
        assertThat(step.what()).startsWith("Remind: report and images of Marrow Point General");
        assertThat(step.due()).contains(today.plusDays(7));
        assertThat(step.page()).isEqualTo(WorkStep.Page.CHASING);

        var request = office(() -> chasing.state(id)).requests().getFirst();
        office(() -> chasing.arrived(request.id(), request.version(), true, true));
        assertThat(line(WorkList.WAITING, id)).isEmpty();
    }

    @Test
    void whatThePhysicianAskedIsChasedAfterAWeekOrOnTheDayAgreed() {
        var queued = submit(office(() -> referrals.enter(restPain(0))));
        as(
                "physician",
                () -> referrals.decide(
                        queued.id(),
                        queued.version(),
                        new Decision.AskForInformation("Please send the wound's photograph.")));
        assertThat(step(WorkList.WAITING, queued.id()).due()).contains(today.plusDays(7));

        office(() -> chasing.noteCall(
                queued.id(),
                Kind.INFORMATION,
                Optional.empty(),
                Optional.empty(),
                "the surgery",
                "They send it on Thursday.",
                Optional.of(today.plusDays(3))));
        assertThat(step(WorkList.WAITING, queued.id()).due()).contains(today.plusDays(3));
    }

    @Test
    void aPatientWithRestPainIsCalledEveryThirdDay() {
        var waits = submit(office(() -> referrals.enter(restPain(3)))).id();
        var young = submit(office(() -> referrals.enter(restPain(2)))).id();
        assertThat(step(WorkList.TO_CALL, waits).due()).contains(today);
        assertThat(line(WorkList.TO_CALL, young)).isEmpty();

        office(() -> chasing.noteCall(
                waits,
                Kind.SAFETY,
                Optional.empty(),
                Optional.of(Outcome.UNCHANGED),
                "the patient",
                "",
                Optional.empty()));
        assertThat(line(WorkList.TO_CALL, waits)).isEmpty();
    }

    @Test
    void aReferralIsAboutToBeLateFiveDaysBeforeItsTargetDate() {
        var near = submit(office(() -> referrals.enter(restPain(9)))).id();
        var far = submit(office(() -> referrals.enter(restPain(8)))).id();

        assertThat(step(WorkList.LATE, near).due()).contains(today.plusDays(5));
        assertThat(line(WorkList.LATE, far)).isEmpty();
    }

    @Test
    void aCaseBookedAfterItsTargetDateIsBroughtForward() {
        var id = approved(restPain(10));
        book(id, 4);
        assertThat(line(WorkList.LATE, id)).isEmpty();

        office(() -> preparation.book(id, 1, today.plusDays(5).atTime(9, 0), "Room 1"));
        assertThat(step(WorkList.LATE, id).what()).startsWith("Bring forward: booked for ");
        assertThat(step(WorkList.LATE, id).due()).contains(today.plusDays(4));
    }

    @Test
    void whatIsDueFirstStandsOnTop() {
        submit(office(() -> referrals.enter(restPain(1))));
        submit(office(() -> referrals.enter(restPain(12))));

        assertThat(office(worklists::now).of(WorkList.PHYSICIAN))
                .extracting(line -> line.step().due().orElse(LocalDate.MAX))
                .isSorted();
    }

    @Test
    void otherDaysCountAtOnceForEveryReferral() {
        var id = submit(office(() -> referrals.enter(restPain(2)))).id();
        assertThat(line(WorkList.TO_CALL, id)).isEmpty();

        jdbc.sql("""
                insert into chasing_days (version, first_reply, second_reply, third_reply, call_within_14_days, late_warning,
                                          who, reason)
                values (2, 7, 4, 3, 2, 5, 'Test', 'Called more often.'), (3, 7, 4, 3, 3, 5, 'Test', 'As before.')
                """).update();
        assertThat(line(WorkList.TO_CALL, id)).isEmpty();
        jdbc.sql("""
                insert into chasing_days (version, first_reply, second_reply, third_reply, call_within_14_days, late_warning,
                                          who, reason)
                values (4, 7, 4, 3, 2, 5, 'Test', 'Called more often.')
                """).update();
        assertThat(step(WorkList.TO_CALL, id).due()).contains(today);
        jdbc.sql("""
                insert into chasing_days (version, first_reply, second_reply, third_reply, call_within_5_days,
                                          call_within_14_days, call_within_6_weeks, late_warning, who, reason)
                values (5, 7, 4, 3, 1, 3, 7, 5, 'Test', 'As the product comes.')
                """).update();
    }

    /** What is asked for again is what was worked out before; how long it took is printed and judged by a reader. */
    @Test
    void threeThousandReferralsAreWorkedOutOnceAndThenOnlyWhatChanges() {
        var referralsBefore = office(worklists::now);
        var generated = new GeneratedReferrals(20260302);
        var ids = new ArrayList<Long>();
        office(() -> {
            transaction.executeWithoutResult(status -> {
                for (var document : generated.lines(3000)) {
                    var entered = referrals.enter(document);
                    ids.add(entered.id());
                    if (ids.size() % 3 != 0) {
                        referrals.submit(entered.id(), entered.version());
                    }
                }
            });
            return true;
        });

        var first = System.nanoTime();
        var work = office(worklists::now);
        var again = System.nanoTime();
        var same = office(worklists::now);
        var changed = System.nanoTime();
        office(referrals::begin);
        var one = System.nanoTime();
        var after = office(worklists::now);
        var end = System.nanoTime();
        System.out.printf(
                "3,000 referrals: first %d ms, again %d ms, after one change %d ms%n",
                Duration.ofNanos(again - first).toMillis(),
                Duration.ofNanos(changed - again).toMillis(),
                Duration.ofNanos(end - one).toMillis());

        assertThat(work.count(WorkList.TO_COMPLETE) + work.count(WorkList.PHYSICIAN))
                .isEqualTo(
                        referralsBefore.count(WorkList.TO_COMPLETE) + referralsBefore.count(WorkList.PHYSICIAN) + 3000);
        assertThat(same).isSameAs(work);
        assertThat(after.count(WorkList.TO_COMPLETE)).isEqualTo(work.count(WorkList.TO_COMPLETE) + 1);
    }

    @Test
    void theListsAreForTheOfficeAndThePhysician() {
        assertThatThrownBy(() -> as("manager", worklists::now)).isInstanceOf(AccessDeniedException.class);
        assertThat(as("physician", worklists::now).today()).isEqualTo(today);
    }

    /** Also of a referral on which nothing else is to be done. */
    @Test
    void aLetterThatReachedNobodyIsATaskUntilItIsOnItsWayAgain() {
        var document = Draft.of(restPain(0));
        document.set("referrer.email", "ines@millbeck.example");
        document.set("referrer.prefers", "email");
        var queued = submit(office(() -> referrals.enter(document.toJson())));
        as(
                "physician",
                () -> referrals.decide(
                        queued.id(), queued.version(), new Decision.ReturnToReferrer("Known elsewhere.")));
        assertThat(line(WorkList.LETTERS, queued.id())).isEmpty();

        outbox(queued.id(), "state = 'SENDING', claimed_at = now(), attempts = 1");
        outbox(queued.id(), "state = 'SENT', claimed_at = null");
        outbox(queued.id(), "state = 'BOUNCED', why = 'It came back: there is no such mailbox (5.1.1).', at = now()");
        assertThat(step(WorkList.LETTERS, queued.id()).what())
                .isEqualTo("Send the letter “received” to Dr Ines Farrow, Millbeck Surgery another way: it came back.");
        assertThat(step(WorkList.LETTERS, queued.id()).due()).contains(today);
        assertThat(step(WorkList.LETTERS, queued.id()).page()).isEqualTo(WorkStep.Page.LETTERS);

        outbox(queued.id(), "state = 'TO_SEND', why = '', round = 2, attempts = 0");
        assertThat(line(WorkList.LETTERS, queued.id())).isEmpty();
    }

    private void outbox(long referral, String set) {
        jdbc.sql("update outbox set version = version + 1, " + set + """
                 where letter = (select id from letter where referral = :referral and kind = 'RECEIVED')
                """)
                .param("referral", referral)
                .update();
    }

    private WorkStep step(WorkList list, long id) {
        return line(list, id)
                .orElseThrow(() -> new AssertionError("not in " + list))
                .step();
    }

    private Optional<WorkLine> line(WorkList list, long id) {
        return office(worklists::now).of(list).stream()
                .filter(line -> line.id() == id)
                .findFirst();
    }

    /** Rest pain, received so many days ago. */
    private String restPain(int daysAgo) {
        var document = Draft.of(Arriving.REST_PAIN);
        document.set("received", today.minusDays(daysAgo).toString());
        return document.toJson();
    }

    private Referral submit(Referral entered) {
        return office(() -> ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral());
    }

    private long approved(String document) {
        var queued = submit(office(() -> referrals.enter(document)));
        as("physician", () ->
                (DecideOutcome.Decided) referrals.decide(queued.id(), queued.version(), new Decision.Approve()));
        return queued.id();
    }

    private void book(long id, int days) {
        assertThat(office(() -> preparation.book(id, 0, today.plusDays(days).atTime(9, 0), "Room 1")))
                .isEqualTo(new PreparationOutcome.Done());
    }

    private void everythingIn(long id) {
        for (var item : office(() -> preparation.get(id)).red()) {
            office(() -> preparation.track(id, item.code(), item.version(), new Standing.In(today)));
        }
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
