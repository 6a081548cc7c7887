package limbqueue.samepatient;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.file.KeptFile;
import limbqueue.file.Received;
import limbqueue.file.ReferralFiles;
import limbqueue.letter.Letters;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationLine;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.MergeOutcome;
import limbqueue.referral.MergedDocument;
import limbqueue.referral.MergedDocument.Choice;
import limbqueue.referral.Merging;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import limbqueue.referral.SubmitOutcome;
import limbqueue.search.Search;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** Pairs found, judged, merged and taken apart again. All people are invented. */
@OnPostgres
class SamePatientIT {

    @Autowired
    private SamePatient samePatient;

    @Autowired
    private Merging merging;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Letters letters;

    @Autowired
    private ReferralFiles files;

    @Autowired
    private Preparation preparation;

    @Autowired
    private Search search;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private <T> T as(String person, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> result.set(work.get()));
        return result.get();
    }

    private <T> T office(Supplier<T> work) {
        return as("coordinator", work);
    }

    private static Draft document(String given, String family, String born, String phone) {
        var draft = Draft.of(Arriving.REST_PAIN);
        draft.set("patient.given", given);
        draft.set("patient.family", family);
        draft.set("patient.born", born);
        draft.set("patient.phone", phone);
        return draft;
    }

    private Referral enter(Draft draft) {
        return office(() -> referrals.enter(draft.toJson()));
    }

    private Referral queued(Draft draft) {
        var entered = enter(draft);
        return ((SubmitOutcome.Submitted) office(() -> referrals.submit(entered.id(), entered.version()))).referral();
    }

    private Referral now(Referral referral) {
        return office(() -> referrals.get(referral.id()));
    }

    private MergeOutcome merge(Referral whole, Referral part, Map<String, Choice> choices) {
        var document = MergedDocument.of(Draft.of(whole.document()), Draft.of(part.document()), choices);
        return office(() -> merging.merge(whole.id(), whole.version(), part.id(), part.version(), document.toJson()));
    }

    private KeptFile keep(Referral referral, String name, String words) {
        var bytes = words.getBytes(StandardCharsets.UTF_8);
        try {
            var received = files.receive(new ByteArrayInputStream(bytes), name, bytes.length);
            return files.keep(referral.id(), ((Received.Sound) received).file());
        } catch (IOException neverOfMemory) {
            throw new UncheckedIOException(neverOfMemory);
        }
    }

    private List<Long> alike(Referral referral) {
        return office(() -> samePatient.alike(referral.id(), referral.document())).stream()
                .map(Alike::id)
                .toList();
    }

    @Test
    void whoIsEnteredAgainIsFoundThoughTheNameIsMistypedAndTheDateIsSwapped() {
        var first = enter(document("Hesper", "Thornbury", "1951-05-03", "01632 960311"));
        assertThat(alike(enter(document("Hesper", "Thronbury", "1951-05-03", ""))))
                .contains(first.id());
        assertThat(alike(enter(document("Thornbury", "Hesper", "1951-03-05", ""))))
                .contains(first.id());
        assertThat(alike(enter(document("H", "Thornbury", "", "+44 1632 960311"))))
                .contains(first.id());
        assertThat(alike(enter(document("Hesper", "Thornbury", "1951-05-30", ""))))
                .contains(first.id());
        assertThat(alike(enter(document("Odile", "Quarrington", "1951-05-03", ""))))
                .doesNotContain(first.id());
        assertThat(alike(enter(document("Hesper", "Thornbury", "", "")))).isEmpty();
    }

    @Test
    void aPairIsAskedAboutUntilSomebodySaysTwoPeople() {
        var one = enter(document("Lark", "Wendover", "1948-07-11", ""));
        var other = enter(document("Lark", "Wendover", "1948-11-07", ""));
        assertThat(office(samePatient::pairs)).anySatisfy(pair -> {
            assertThat(pair.one().id()).isEqualTo(one.id());
            assertThat(pair.other().id()).isEqualTo(other.id());
            assertThat(pair.likeness().reasons()).containsExactly("same name", "birth date with day and month swapped");
        });
        office(() -> {
            samePatient.say(other.id(), one.id(), Verdict.TWO_PEOPLE);
            return true;
        });
        assertThat(office(samePatient::pairs)).noneMatch(pair -> pair.other().id() == other.id());
        assertThat(alike(other)).doesNotContain(one.id());
        office(() -> {
            samePatient.say(one.id(), other.id(), Verdict.TAKEN_BACK);
            return true;
        });
        assertThat(office(samePatient::pairs)).anyMatch(pair -> pair.other().id() == other.id());
    }

    @Test
    void aMergedReferralIsInNoListAndLosesNothingAndComesBackAsItWas() {
        var whole = document("Ansel", "Birchall", "1944-02-29", "01632 960401");
        whole.clear("patient.phone");
        whole.set("labs[0].test", "creatinine");
        whole.set("letterText", "First letter.");
        var part = document("Ansel", "Birchal", "1944-02-29", "01632 960402");
        part.set("labs[0].test", "haemoglobin");
        part.set("letterText", "Second letter, of a cold foot.");
        var into = queued(whole);
        var from = queued(part);
        var told = office(() -> keep(from, "told.txt", "A cold foot."));
        var writtenAboutPart = office(() -> letters.about(from.id())).size();
        assertThat(writtenAboutPart).isEqualTo(1);

        var done = (MergeOutcome.Done) merge(into, from, Map.of());
        var merged = Draft.of(now(into).document());
        assertThat(merged.get("patient.family").orElseThrow().stringValue()).isEqualTo("Birchall");
        assertThat(merged.get("patient.phone").orElseThrow().stringValue()).isEqualTo("01632 960402");
        assertThat(merged.sizeOf("labs")).contains(2);
        assertThat(merged.get("letterText").orElseThrow().stringValue()).contains("First letter.", "of a cold foot.");
        assertThat(merged.get("reference").orElseThrow().stringValue()).isEqualTo(into.reference());

        assertThat(office(referrals::worklist))
                .extracting(ReferralLine::id)
                .contains(into.id())
                .doesNotContain(from.id());
        assertThat(office(referrals::queue))
                .extracting(ReferralLine::id)
                .contains(into.id())
                .doesNotContain(from.id());
        assertThat(office(preparation::worklist))
                .extracting(PreparationLine::id)
                .contains(into.id())
                .doesNotContain(from.id());
        assertThat(now(from).document()).isEqualTo(from.document());
        assertThat(office(() -> merging.filesOf(into.id()))).containsExactly(told);
        assertThat(office(() -> letters.about(from.id()))).hasSize(writtenAboutPart);
        assertThat(office(() -> search.find(from.reference())).found()).hasSize(1);
        assertThat(office(() -> referrals.timeline(into.id())).getFirst().what())
                .contains("made " + from.reference() + " part");
        assertThat(office(() -> referrals.timeline(from.id())).getFirst().what())
                .contains("made this referral part of " + into.reference());
        assertThat(done.part().version()).isEqualTo(from.version() + 1);

        // It rests: nothing is saved over it, submitted or decided.
        assertThat(office(() -> referrals.save(from.id(), done.part().version(), "{\"letterText\": \"late\"}")))
                .isInstanceOf(SaveOutcome.Conflict.class);
        assertThat(as("physician", () -> referrals.decide(from.id(), done.part().version(), new Decision.Approve())))
                .isInstanceOf(DecideOutcome.Changed.class);

        var apart = (MergeOutcome.Done) office(() -> merging.separate(from.id()));
        assertThat(apart.part().document()).isEqualTo(from.document());
        assertThat(office(() -> merging.filesOf(into.id()))).isEmpty();
        assertThat(apart.part().state()).isEqualTo(ReferralState.QUEUED);
        assertThat(Draft.of(now(into).document()).differencesFrom(Draft.of(into.document())))
                .isEmpty();
        assertThat(office(referrals::queue)).extracting(ReferralLine::id).contains(into.id(), from.id());
        assertThat(office(() -> referrals.timeline(into.id())))
                .anyMatch(entry -> entry.what().contains("took " + from.reference() + " out"));
        assertThat(office(() -> merging.separate(from.id()))).isInstanceOf(MergeOutcome.NotPossible.class);
    }

    @Test
    void whatWasChangedSinceTheMergeStaysWhenItIsUndone() {
        var one = document("Maud", "Fairlight", "1950-01-02", "");
        one.clear("patient.phone");
        var whole = enter(one);
        var part = enter(document("Maud", "Fairlight", "1950-01-02", "01632 960511"));
        merge(whole, part, Map.of());
        var corrected = Draft.of(now(whole).document());
        corrected.set("patient.phone", "01632 960512");
        office(() -> referrals.save(whole.id(), now(whole).version(), corrected.toJson()));
        office(() -> merging.separate(part.id()));
        assertThat(Draft.of(now(whole).document())
                        .get("patient.phone")
                        .orElseThrow()
                        .stringValue())
                .isEqualTo("01632 960512");
    }

    @Test
    void theChosenValueIsKept() {
        var whole = enter(document("Orla", "Stanmore", "1950-01-02", "01632 960601"));
        var part = enter(document("Orla", "Stanmoor", "1950-01-02", "01632 960602"));
        merge(whole, part, Map.of("patient.family", Choice.PART));
        var merged = Draft.of(now(whole).document());
        assertThat(merged.get("patient.family").orElseThrow().stringValue()).isEqualTo("Stanmoor");
        assertThat(merged.get("patient.phone").orElseThrow().stringValue()).isEqualTo("01632 960601");
    }

    @Test
    void whatWasDecidedOnBecomesNoPartOfAnything() {
        var decided = queued(document("Piers", "Holloway", "1950-01-02", ""));
        as("physician", () -> referrals.decide(decided.id(), decided.version(), new Decision.Approve()));
        var draft = enter(document("Piers", "Holloway", "1950-01-02", ""));
        assertThat(merge(draft, now(decided), Map.of())).isInstanceOf(MergeOutcome.NotPossible.class);
        assertThat(office(() -> merging.whyNot(draft.id(), decided.id())).orElseThrow())
                .contains("A physician has decided on " + decided.reference());
        assertThatThrownBy(() -> jdbc.sql("update referral set part_of = :whole, version = version + 1 where id = :id")
                        .param("whole", draft.id())
                        .param("id", decided.id())
                        .update())
                .isInstanceOf(DataIntegrityViolationException.class);
    }

    @Test
    void newFactsInAnApprovedReferralPutItBeforeThePhysicianAgain() {
        var approved = queued(document("Wilf", "Garsington", "1950-01-02", ""));
        as("physician", () -> referrals.decide(approved.id(), approved.version(), new Decision.Approve()));
        var other = document("Wilf", "Garsington", "1950-01-02", "");
        other.set("legs.left.wound.gangrene", "extensive");
        var draft = enter(other);
        var done = (MergeOutcome.Done) merge(now(approved), draft, Map.of());
        assertThat(done.changes()).isNotEmpty();
        assertThat(now(approved).state()).isEqualTo(ReferralState.QUEUED);
    }

    @Test
    void whatIsBeforeThePhysicianDoesNotVanishIntoADraft() {
        var queued = queued(document("Edda", "Kingsley", "1950-01-02", ""));
        var draft = enter(document("Edda", "Kingsley", "1950-01-02", ""));
        assertThat(((MergeOutcome.NotPossible) merge(draft, queued, Map.of())).why())
                .contains("would leave the queue");
        assertThat(merge(queued, draft, Map.of())).isInstanceOf(MergeOutcome.Done.class);
    }

    @Test
    void nothingIsMergedOverWhatSomebodyElseJustSaved() {
        var whole = enter(document("Tansy", "Ashdown", "1950-01-02", ""));
        var part = enter(document("Tansy", "Ashdown", "1950-01-02", "01632 960701"));
        var saved = Draft.of(part.document());
        saved.set("patient.phone", "01632 960702");
        office(() -> referrals.save(part.id(), part.version(), saved.toJson()));
        assertThat(merge(whole, part, Map.of())).isInstanceOf(MergeOutcome.Changed.class);
        assertThat(office(referrals::worklist)).extracting(ReferralLine::id).contains(whole.id(), part.id());
    }

    @Test
    void twoReferralsOfOnePersonShowEachOther() {
        var one = queued(document("Ivo", "Larkspur", "1950-01-02", ""));
        var other = queued(document("Ivo", "Larkspur", "1950-01-02", ""));
        office(() -> {
            samePatient.say(one.id(), other.id(), Verdict.SAME_PERSON);
            return true;
        });
        assertThat(office(() -> samePatient.samePerson(one.id())))
                .extracting(Alike::id)
                .containsExactly(other.id());
        assertThat(office(() -> samePatient.samePerson(other.id())))
                .extracting(Alike::id)
                .containsExactly(one.id());
        assertThat(office(samePatient::pairs)).noneMatch(pair -> pair.other().id() == other.id());
    }

    @Test
    void whoSeesNoPatientComparesNone() {
        assertThatThrownBy(() -> actingAs.person("manager", samePatient::pairs))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> actingAs.person("manager", () -> merging.separate(1)))
                .isInstanceOf(AccessDeniedException.class);
    }
}
