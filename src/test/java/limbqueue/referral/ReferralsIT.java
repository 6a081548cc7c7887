package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.document.ResultFormat;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.DecideOutcome.Changed;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.referral.DecideOutcome.Refused;
import limbqueue.referral.Decision.Approve;
import limbqueue.referral.Decision.AskForInformation;
import limbqueue.referral.Decision.Change;
import limbqueue.referral.Decision.ReturnToReferrer;
import limbqueue.referral.Decision.SendToHospital;
import limbqueue.referral.ResultsOutcome.Entered;
import limbqueue.referral.ResultsOutcome.NotRight;
import limbqueue.referral.ResultsOutcome.Overtaken;
import limbqueue.referral.SaveOutcome.Conflict;
import limbqueue.referral.SaveOutcome.Saved;
import limbqueue.referral.SubmitOutcome.NotYet;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.testbed.OnPostgres;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.PessimisticLockingFailureException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.transaction.support.TransactionTemplate;

@OnPostgres
class ReferralsIT {

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private PracticeSettings settings;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TransactionTemplate transaction;

    @Test
    void aReferralGoesFromTheFirstKeystrokeToTheDecision() {
        var draft = office(referrals::begin);
        var today = office(referrals::today);
        assertThat(draft.reference()).matches("LQ-" + today.getYear() + "-\\d{4}");
        assertThat(draft.state()).isEqualTo(ReferralState.DRAFT);
        assertThat(draft.received()).isEqualTo(today);
        assertThat(Draft.of(draft.document()).get("received").orElseThrow().stringValue())
                .isEqualTo(today.toString());

        var saved = saved(office(() -> referrals.save(draft.id(), draft.version(), Arriving.REST_PAIN)));
        assertThat(saved.received()).isEqualTo("2026-01-12");
        assertThat(saved.reference()).isEqualTo(draft.reference());

        var queued = submitted(office(() -> referrals.submit(saved.id(), saved.version())));
        assertThat(queued.state()).isEqualTo(ReferralState.QUEUED);
        assertThat(office(referrals::queue))
                .filteredOn(line -> line.id() == queued.id())
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.patient()).isEqualTo("Ångström-Łuczak, Zoë");
                    assertThat(line.referrer()).isEqualTo("Dr Ines Farrow, Millbeck Surgery");
                    assertThat(line.decidedTier()).isEmpty();
                    assertThat(line.targetDate()).isPresent();
                });

        var decided = (Decided) physician(() -> referrals.decide(queued.id(), queued.version(), new Approve()));
        assertThat(decided.referral().state()).isEqualTo(ReferralState.APPROVED);
        assertThat(decided.decision().author()).isEqualTo("Dr Imogen Tarrant");
        assertThat(decided.decision().tier()).isEqualTo(Tier.WITHIN_14_DAYS);
        assertThat(office(referrals::queue)).noneMatch(line -> line.id() == queued.id());
        assertThat(office(referrals::worklist))
                .filteredOn(line -> line.id() == queued.id())
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.decidedTier()).contains(Tier.WITHIN_14_DAYS);
                    assertThat(line.targetDate()).isEqualTo(decided.decision().targetDate());
                });
        assertThat(office(() -> referrals.timeline(queued.id())))
                .extracting(TimelineEntry::what)
                .containsExactly(
                        "approved the proposal: within 14 days",
                        "put the referral before the physician",
                        "saved the referral",
                        "began the referral");
    }

    @Test
    void aDecisionIsReadBackAsItWasMade() {
        var queued = queued(Arriving.REST_PAIN);
        var decided = (Decided) physician(() -> referrals.decide(
                queued.id(),
                queued.version(),
                new Change(Tier.WITHIN_5_DAYS, Map.of(Side.RIGHT, Rutherford.CHRONIC_1), "The foot was seen today.")));

        assertThat(office(() -> referrals.decisions(queued.id()))).containsExactly(decided.decision());
        assertThat(office(() -> referrals.get(queued.id()))).isEqualTo(decided.referral());
    }

    @Test
    void aDecisionComesOutTheSameFromWhatIsKeptOfIt() {
        var policy = office(settings::policy);
        for (var document : List.of(Arriving.REST_PAIN, Arriving.SUDDEN)) {
            var queued = queued(document);
            var kept = ((Decided) physician(() ->
                            referrals.decide(queued.id(), queued.version(), new AskForInformation("Which medicines?"))))
                    .decision();

            assertThat(kept.policy()).isEqualTo(policy.id());
            assertThat(kept.document()).isEqualTo(queued.document());
            assertThat(kept.proposal())
                    .isEqualTo(ResultFormat.write(Triage.triage(
                            Draft.of(kept.document()).read(kept.asOf()).document(), policy, kept.asOf())));
            assertThat(office(() -> referrals.decisions(queued.id())).getFirst().proposal())
                    .isEqualTo(kept.proposal());
        }
    }

    @Test
    void aDocumentIsKeptToTheByte() {
        var odd =
                "{ \"patient\" : {\"family\":\"O\\u0027Hara  \"},\t\"letterText\":\"a\\u0000b ü\", \"heightCm\":1.70e2 }";
        var draft = office(referrals::begin);

        var saved = saved(office(() -> referrals.save(draft.id(), draft.version(), odd)));

        assertThat(office(() -> referrals.get(saved.id())).document()).isEqualTo(odd);
    }

    @Test
    void savingWhatIsThereAlreadyMakesNoNewVersion() {
        var draft = office(referrals::begin);

        assertThat(saved(office(() -> referrals.save(draft.id(), draft.version(), draft.document()))))
                .isEqualTo(draft);
    }

    @Test
    void ofTwoWhoSaveAtTheSameTimeOneIsToldAndBothDocumentsAreKept() throws Exception {
        var draft = office(referrals::begin);
        var firstHasSaved = new CountDownLatch(1);
        var secondIsSaving = new CountDownLatch(1);
        try (var people = Executors.newFixedThreadPool(2)) {
            var first = people.submit(() -> office(() -> transaction.execute(status -> {
                var outcome = referrals.save(draft.id(), draft.version(), "{\"letterText\": \"first\"}");
                firstHasSaved.countDown();
                await(secondIsSaving);
                return outcome;
            })));
            var second = people.submit(() -> office(() -> {
                await(firstHasSaved);
                secondIsSaving.countDown();
                return referrals.save(draft.id(), draft.version(), "{\"letterText\": \"second\"}");
            }));

            assertThat(first.get(20, TimeUnit.SECONDS)).isInstanceOf(Saved.class);
            var conflict = (Conflict) second.get(20, TimeUnit.SECONDS);
            assertThat(conflict.theirs().document()).isEqualTo("{\"letterText\": \"first\"}");
            assertThat(conflict.mine()).isEqualTo("{\"letterText\": \"second\"}");
        }
        assertThat(jdbc.sql("""
                        select document::text || case when won then ' won' else ' kept' end
                        from referral_revision
                        where referral = :id and made_on is not null
                        order by id
                        """).param("id", draft.id()).query(String.class).list())
                .containsExactly("{\"letterText\": \"first\"} won", "{\"letterText\": \"second\"} kept");
        assertThat(office(() -> referrals.timeline(draft.id())).getFirst().what())
                .contains("both are kept");
    }

    @Test
    void ofTwoWhoDecideAtTheSameTimeExactlyOneDecides() throws Exception {
        var waiting = new ArrayList<Referral>();
        office(() -> {
            for (var i = 0; i < 200; i++) {
                waiting.add(queuedBy(Arriving.REST_PAIN));
            }
            return waiting;
        });
        var start = new CyclicBarrier(2);
        try (var people = Executors.newFixedThreadPool(2)) {
            Callable<List<DecideOutcome>> round = () -> physician(() -> {
                var mine = new ArrayList<DecideOutcome>();
                for (var referral : waiting) {
                    start.await(20, TimeUnit.SECONDS);
                    mine.add(referrals.decide(referral.id(), referral.version(), new Approve()));
                }
                return mine;
            });
            var one = people.submit(round);
            var other = people.submit(round);
            var first = one.get(2, TimeUnit.MINUTES);
            var second = other.get(2, TimeUnit.MINUTES);
            for (var i = 0; i < waiting.size(); i++) {
                assertThat(List.of(first.get(i), second.get(i)))
                        .as("referral %d", i)
                        .hasAtLeastOneElementOfType(Decided.class)
                        .hasAtLeastOneElementOfType(Changed.class);
            }
        }
        assertThat(jdbc.sql("""
                        select count(*)
                        from decision
                        where referral between :first and :last
                        """)
                        .param("first", waiting.getFirst().id())
                        .param("last", waiting.getLast().id())
                        .query(Integer.class)
                        .single())
                .isEqualTo(200);
    }

    @Test
    void aPhysicianWhoDecidesOnWhatWasCorrectedMeanwhileIsTold() {
        var queued = queued(Arriving.REST_PAIN);
        var corrected = saved(office(() -> referrals.save(
                queued.id(), queued.version(), Arriving.REST_PAIN.replace("\"toe\": 22", "\"toe\": 25"))));

        assertThat(corrected.state()).isEqualTo(ReferralState.QUEUED);
        assertThat(physician(() -> referrals.decide(queued.id(), queued.version(), new Approve())))
                .isEqualTo(new Changed(corrected, Optional.empty()));
        assertThat(office(() -> referrals.decisions(queued.id()))).isEmpty();
        assertThat(physician(() -> referrals.decide(queued.id(), corrected.version(), new Approve())))
                .isInstanceOf(Decided.class);
        assertThat(office(() -> referrals.timeline(queued.id())))
                .extracting(TimelineEntry::what)
                .contains("corrected the referral in the queue");
    }

    @Test
    void savingOverADecisionIsAConflictAndTheDocumentIsKept() {
        var queued = queued(Arriving.REST_PAIN);
        physician(() -> referrals.decide(queued.id(), queued.version(), new ReturnToReferrer("Not a leg artery.")));

        var late = office(() -> referrals.save(queued.id(), queued.version(), "{\"letterText\": \"late\"}"));
        var later = office(() -> referrals.save(queued.id(), queued.version() + 1, "{\"letterText\": \"later\"}"));

        assertThat(((Conflict) late).theirs().state()).isEqualTo(ReferralState.RETURNED);
        assertThat(((Conflict) later).theirs().document()).isEqualTo(queued.document());
        assertThat(jdbc.sql("""
                        select count(*)
                        from referral_revision
                        where referral = :id and not won
                        """).param("id", queued.id()).query(Integer.class).single())
                .isEqualTo(2);
    }

    @Test
    void aResultThatChangesNothingLeavesTheDecisionStanding() {
        var approved = approved(Arriving.REST_PAIN);
        var document =
                with(approved.document(), "labs", "[{\"test\": \"potassium\", \"value\": 4.4, \"unit\": \"mmol/L\"}]");

        var outcome = (Entered) office(() -> referrals.enterResults(approved.id(), approved.version(), document));

        assertThat(outcome.changes()).isEmpty();
        assertThat(outcome.referral().state()).isEqualTo(ReferralState.APPROVED);
        assertThat(outcome.referral().document()).isEqualTo(document);
        assertThat(office(() -> referrals.reopening(approved.id()))).isEmpty();
        assertThat(office(() -> referrals.worklist()))
                .filteredOn(line -> line.id() == approved.id())
                .singleElement()
                .satisfies(line -> assertThat(line.decidedTier()).contains(Tier.WITHIN_14_DAYS));
        assertThat(office(() -> referrals.timeline(approved.id())))
                .extracting(TimelineEntry::what)
                .startsWith("entered results", "approved the proposal: within 14 days");
    }

    @Test
    void aResultThatRaisesAFlagPutsTheReferralBackWithWhatChanged() {
        var approved = approved(Arriving.REST_PAIN);
        // An eGFR under 30: prophylaxis considered (acr-contrast).
        var document = with(
                approved.document(), "labs", "[{\"test\": \"egfr\", \"value\": 22, \"unit\": \"mL/min/{1.73_m2}\"}]");

        var outcome = (Entered) office(() -> referrals.enterResults(approved.id(), approved.version(), document));

        assertThat(outcome.changes()).singleElement().asString().startsWith("New red flag, kidney risk: ");
        assertThat(outcome.referral().state()).isEqualTo(ReferralState.QUEUED);
        assertThat(physician(referrals::queue)).anyMatch(line -> line.id() == approved.id());
        var reopening = office(() -> referrals.reopening(approved.id())).orElseThrow();
        assertThat(reopening.changes()).isEqualTo(outcome.changes());
        assertThat(reopening.author()).isEqualTo("Wren Halloway");
        assertThat(office(() -> referrals.timeline(approved.id())).getFirst().what())
                .startsWith("put the referral back before the physician, since results changed it. New red flag");

        var again = (Decided) physician(
                () -> referrals.decide(approved.id(), outcome.referral().version(), new Approve()));
        assertThat(again.referral().state()).isEqualTo(ReferralState.APPROVED);
        assertThat(office(() -> referrals.reopening(approved.id()))).isEmpty();
        assertThat(office(() -> referrals.decisions(approved.id()))).hasSize(2);
    }

    @Test
    void aResultThatMakesTheLegBetterOrWorsePutsTheReferralBack() {
        var approved = approved(Arriving.REST_PAIN);

        var worse = Draft.of(approved.document());
        worse.set("legs.left.wound.ulcer", "deep");
        worse.set("legs.left.wound.site", "forefoot");
        worse.set("legs.left.wound.sinceDays", 30);
        worse.set("legs.left.wound.gangrene", "extensive");

        var outcome = (Entered) office(() -> referrals.enterResults(approved.id(), approved.version(), worse.toJson()));

        assertThat(outcome.changes())
                .contains("The left leg was Rutherford 4, now is 6.")
                .anyMatch(change -> change.startsWith("Urgency was within 14 days, now is "));
        assertThat(outcome.referral().state()).isEqualTo(ReferralState.QUEUED);
    }

    @Test
    void aResultThatCannotBeRightIsRefusedAndNothingIsSaved() {
        var approved = approved(Arriving.REST_PAIN);

        var outcome = (NotRight) office(() -> referrals.enterResults(
                approved.id(), approved.version(), with(approved.document(), "heightCm", "1.7")));

        assertThat(outcome.problems()).extracting("path").containsExactly("heightCm");
        assertThat(office(() -> referrals.get(approved.id()))).isEqualTo(approved);
    }

    @Test
    void resultsForAReferralThatMovedOnAreKeptAndSaidToBeOvertaken() {
        var approved = approved(Arriving.REST_PAIN);
        var returned = queued(Arriving.REST_PAIN);
        physician(() -> referrals.decide(returned.id(), returned.version(), new ReturnToReferrer("Not a leg artery.")));

        assertThat(office(() ->
                        referrals.enterResults(approved.id(), approved.version() - 1, "{\"letterText\": \"late\"}")))
                .isEqualTo(new Overtaken(approved));
        assertThat(office(() ->
                        referrals.enterResults(returned.id(), returned.version() + 1, "{\"letterText\": \"late\"}")))
                .isInstanceOf(Overtaken.class);
        assertThat(jdbc.sql("""
                        select count(*)
                        from referral_revision
                        where referral in (:one, :other) and not won
                        """)
                        .param("one", approved.id())
                        .param("other", returned.id())
                        .query(Integer.class)
                        .single())
                .isEqualTo(2);
    }

    @Test
    void ofADecisionAndAResultAtTheSameTimeOneIsOvertaken() throws Exception {
        var waiting = new ArrayList<Referral>();
        office(() -> {
            for (var i = 0; i < 60; i++) {
                waiting.add(queuedBy(Arriving.REST_PAIN));
            }
            return waiting;
        });
        var start = new CyclicBarrier(2);
        try (var people = Executors.newFixedThreadPool(2)) {
            var deciding = people.submit(() -> physician(() -> {
                var mine = new ArrayList<DecideOutcome>();
                for (var referral : waiting) {
                    start.await(20, TimeUnit.SECONDS);
                    mine.add(referrals.decide(referral.id(), referral.version(), new Approve()));
                }
                return mine;
            }));
            var typing = people.submit(() -> office(() -> {
                var mine = new ArrayList<ResultsOutcome>();
                for (var referral : waiting) {
                    start.await(20, TimeUnit.SECONDS);
                    mine.add(referrals.enterResults(
                            referral.id(),
                            referral.version(),
                            with(referral.document(), "labs", "[{\"test\": \"egfr\", \"value\": 22}]")));
                }
                return mine;
            }));
            var decided = deciding.get(2, TimeUnit.MINUTES);
            var typed = typing.get(2, TimeUnit.MINUTES);
            for (var i = 0; i < waiting.size(); i++) {
                assertThat(decided.get(i) instanceof Decided)
                        .as("referral %d: %s, %s", i, decided.get(i), typed.get(i))
                        .isEqualTo(typed.get(i) instanceof Overtaken);
            }
        }
    }

    @Test
    void whatCannotBeRightIsMendedBeforeItIsSubmitted() {
        var entered = office(() -> referrals.enter(Arriving.IMPOSSIBLE));

        var outcome = (NotYet) office(() -> referrals.submit(entered.id(), entered.version()));

        assertThat(outcome.problems()).extracting("path").containsExactly("legs.left.abi");
        assertThat(office(() -> referrals.get(entered.id()))).isEqualTo(entered);
    }

    @Test
    void whatWasSentBackForInformationComesToTheQueueAgain() {
        var queued = queued(Arriving.REST_PAIN);
        var asked = (Decided) physician(() -> referrals.decide(
                queued.id(), queued.version(), new AskForInformation("How far does the redness reach?")));
        assertThat(asked.referral().state()).isEqualTo(ReferralState.INFORMATION_NEEDED);

        var again = submitted(
                office(() -> referrals.submit(queued.id(), asked.referral().version())));
        var decided = (Decided) physician(() -> referrals.decide(queued.id(), again.version(), new Approve()));

        assertThat(office(() -> referrals.decisions(queued.id())))
                .containsExactly(decided.decision(), asked.decision());
    }

    @Test
    void submittingTwiceIsSubmittingOnce() {
        var queued = queued(Arriving.REST_PAIN);

        assertThat(submitted(office(() -> referrals.submit(queued.id(), queued.version()))))
                .isEqualTo(queued);
    }

    @Test
    void aRefusedDecisionChangesNothing() {
        var queued = queued(Arriving.SUDDEN);

        assertThat(physician(() -> referrals.decide(queued.id(), queued.version(), new Approve())))
                .isInstanceOf(Refused.class);
        assertThat(physician(() -> referrals.decide(queued.id(), queued.version(), new SendToHospital(" "))))
                .isInstanceOf(Refused.class);
        assertThat(office(() -> referrals.get(queued.id()))).isEqualTo(queued);
        var sent = (Decided) physician(
                () -> referrals.decide(queued.id(), queued.version(), new SendToHospital("Tarn Edge, by telephone")));
        assertThat(sent.referral().state()).isEqualTo(ReferralState.SENT_TO_HOSPITAL);
        assertThat(sent.decision().targetDate()).contains(office(referrals::today));
    }

    @Test
    void theQueueShowsTheMostUrgentFirst() {
        var later = queued(Arriving.REST_PAIN);
        var sooner = queued(Arriving.SUDDEN);

        assertThat(physician(referrals::queue))
                .extracting(ReferralLine::id)
                .containsSubsequence(sooner.id(), later.id());
        assertThat(physician(referrals::queue))
                .isSortedAccordingTo(Comparator.comparing(ReferralLine::proposedTier)
                        .thenComparing(line -> line.targetDate().orElse(LocalDate.MAX)));
    }

    @Test
    void aReferenceThatCameWithTheDocumentStaysUnlessItIsTaken() {
        var brought = "{\"reference\": \"D-0031\", \"received\": \"2026-01-05\"}";
        var first = office(() -> referrals.enter(brought));
        var second = office(() -> referrals.enter(brought));

        assertThat(first.reference()).isEqualTo("D-0031");
        assertThat(first.document()).isEqualTo(brought);
        assertThat(second.reference()).startsWith("LQ-");
        assertThat(Draft.of(second.document()).get("reference").orElseThrow().stringValue())
                .isEqualTo(second.reference());
    }

    @Test
    void onlyAPhysicianDecidesAndAManagerSeesNothingClinical() {
        var queued = queued(Arriving.REST_PAIN);

        assertThatThrownBy(() -> office(() -> referrals.decide(queued.id(), queued.version(), new Approve())))
                .isInstanceOf(AccessDeniedException.class);
        for (var act : List.<Runnable>of(
                referrals::begin,
                referrals::queue,
                referrals::worklist,
                () -> referrals.get(queued.id()),
                () -> referrals.decisions(queued.id()),
                () -> referrals.timeline(queued.id()),
                () -> referrals.enter("{}"),
                () -> referrals.save(queued.id(), queued.version(), "{}"),
                () -> referrals.submit(queued.id(), queued.version()),
                () -> referrals.enterResults(queued.id(), queued.version(), "{}"),
                () -> referrals.reopening(queued.id()),
                () -> referrals.proposed(List.of(queued.id())),
                () -> referrals.propose(Draft.empty().read(LocalDate.EPOCH)),
                () -> referrals.decide(queued.id(), queued.version(), new Approve()))) {
            assertThatThrownBy(() -> actingAs.person("manager", act)).isInstanceOf(AccessDeniedException.class);
            assertThatThrownBy(act::run).isInstanceOf(AuthenticationException.class);
        }
    }

    @Test
    void theAuditTrailHoldsReferencesAndNoName() {
        var queued = queued(Arriving.REST_PAIN);
        physician(() -> referrals.decide(queued.id(), queued.version(), new Approve()));

        assertThat(jdbc.sql("""
                        select who || ': ' || action
                        from audit_entry
                        where subject = :reference
                        order by id
                        """)
                        .param("reference", queued.reference())
                        .query(String.class)
                        .list())
                .containsExactly("Wren Halloway: entered", "Wren Halloway: submitted", "Dr Imogen Tarrant: approved");
    }

    @Test
    void theDatabaseKeepsWhatWasDecidedAndSaved() {
        var queued = queued(Arriving.REST_PAIN);
        physician(() -> referrals.decide(queued.id(), queued.version(), new Approve()));

        for (var sql : List.of(
                "update decision set reason = 'x'",
                "delete from decision",
                "truncate decision cascade",
                "update referral_revision set won = false",
                "delete from referral_revision",
                "update submission set author = 'x'",
                "delete from referral",
                "update referral set state = 'QUEUED', decision = null, version = version + 1 where state = 'APPROVED'",
                "update referral set document = '{}'",
                "update referral set document = '{}', decision = null, version = version + 1 where state = 'APPROVED'",
                "insert into reopening (referral, version, decision, changes, account, author, at) "
                        + "select referral, version + 1, id, '{}', account, author, at from decision")) {
            assertThatThrownBy(() -> undisturbed(sql)).as(sql).isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    /** Emptying a table wants every table that hangs on it: whoever reads one at that moment is in the way and says nothing of the rule. */
    private void undisturbed(String sql) {
        undisturbed(sql, 5);
    }

    private void undisturbed(String sql, int tries) {
        try {
            jdbc.sql(sql).update();
        } catch (PessimisticLockingFailureException inTheWay) {
            if (tries == 1) {
                throw inTheWay;
            }
            undisturbed(sql, tries - 1);
        }
    }

    @Test
    void theDatabaseRefusesADecisionWithoutAReason() {
        var queued = queued(Arriving.REST_PAIN);
        for (var row : List.of(
                "'CHANGED', 'WITHIN_5_DAYS', '2026-03-07', ' '",
                "'CHANGED', 'WITHIN_14_DAYS', '2026-03-16', 'Nothing changes.'",
                "'APPROVED', 'WITHIN_5_DAYS', '2026-03-07', ''",
                "'APPROVED', 'WITHIN_14_DAYS', null, ''",
                "'SENT_TO_HOSPITAL', 'WITHIN_14_DAYS', '2026-03-16', 'By telephone.'")) {
            assertThatThrownBy(() -> jdbc.sql("""
                            insert into decision (referral, version, account, author, at, policy, rule_book, as_of, document,
                                                  proposal, proposed_tier, kind, tier, target_date, reason)
                            select :id, :version, a.id, 'x', now(), 'standard-1', b.id, '2026-03-02', '{}', '{}',
                                   'WITHIN_14_DAYS', %s
                            from account a cross join rule_book b
                            where a.sign_in_name = 'physician'
                            """.formatted(row.replaceAll("'(\\d{4}-\\d\\d-\\d\\d)'", "date '$1'")
                                    .replace(" null,", " cast(null as date),")))
                            .param("id", queued.id())
                            .param("version", queued.version())
                            .update())
                    .as(row)
                    .isInstanceOf(DataIntegrityViolationException.class)
                    .hasMessageMatching(
                            "(?s).*\"decision_(reason|target|changes_something|tier_kept|hospital_is_same_day)\".*");
        }
    }

    @Test
    void aReferralThatIsNotThereIsSaidToBeMissing() {
        assertThatThrownBy(() -> office(() -> referrals.get(-1))).isInstanceOf(ReferralNotFoundException.class);
        assertThatThrownBy(() -> physician(() -> referrals.decide(-1, 1, new Approve())))
                .isInstanceOf(ReferralNotFoundException.class);
    }

    /** {@code document} with one field more at its end. */
    private static String with(String document, String field, String value) {
        return document.strip().substring(0, document.strip().length() - 1) + ", \"" + field + "\": " + value + "}";
    }

    private Referral approved(String document) {
        var queued = queued(document);
        return ((Decided) physician(() -> referrals.decide(queued.id(), queued.version(), new Approve()))).referral();
    }

    private Referral queued(String document) {
        return office(() -> queuedBy(document));
    }

    private Referral queuedBy(String document) {
        var entered = referrals.enter(document);
        return submitted(referrals.submit(entered.id(), entered.version()));
    }

    private static Referral saved(SaveOutcome outcome) {
        return ((Saved) outcome).referral();
    }

    private static Referral submitted(SubmitOutcome outcome) {
        return ((Submitted) outcome).referral();
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

    private static void await(CountDownLatch latch) {
        try {
            assertThat(latch.await(20, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}
