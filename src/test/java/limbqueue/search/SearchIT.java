package limbqueue.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import limbqueue.testbed.OnPostgres;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/** What is found, and how the database finds it. All people are invented. */
@OnPostgres
class SearchIT {

    @Autowired
    private Search search;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JdbcTemplate template;

    @Autowired
    private TransactionTemplate transaction;

    private <T> T office(Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person("coordinator", () -> result.set(work.get()));
        return result.get();
    }

    private Referral entered(String... pathsAndValues) {
        var draft = Draft.of(Arriving.REST_PAIN);
        for (var i = 0; i < pathsAndValues.length; i += 2) {
            draft.set(pathsAndValues[i], pathsAndValues[i + 1]);
        }
        return office(() -> referrals.enter(draft.toJson()));
    }

    private List<Long> ids(String typed) {
        return office(() -> search.find(typed)).found().stream().map(Found::id).toList();
    }

    @Test
    void aReferralIsFoundByWhateverIsRememberedOfIt() {
        var referral = entered(
                "patient.given", "Hésper",
                "patient.family", "Thornbury-Łęcka",
                "patient.phone", "+44 1632 960777",
                "patient.identifiers[0].value", "AV-77 4141",
                "referrer.name", "Dr Benedikta Quarrington",
                "imaging[0].where", "Lower Arven Infirmary",
                "letterText", "She sits up at night with her foot hanging out of bed; a purple hallux.");
        for (var typed : List.of(
                "thornbury",
                "THORN",
                "lecka",
                "Łęcka hes",
                "Thornbury-Lecka",
                referral.reference(),
                "01632 960 777",
                "01632960777",
                "+441632960777",
                "AV-774141",
                "av774141",
                "quarring",
                "infirmary arven",
                "\"hanging out of bed\"",
                "hallux thorn purp")) {
            assertThat(ids(typed)).as(typed).contains(referral.id());
        }
        for (var typed : List.of("hallux Marchbank", "\"out hanging\"", "\"hanging out of be\"", "960778")) {
            assertThat(ids(typed)).as(typed).doesNotContain(referral.id());
        }
    }

    @Test
    void whatIsSoughtIsMarkedWhereItStands() {
        entered("patient.family", "Oakhanger", "letterText", "Seen with Mr Oakhanger’s daughter.");
        var found = office(() -> search.find("oakhang")).found().getFirst();
        assertThat(found.patient()).isEqualTo("Zoë Oakhanger");
        assertThat(found.extracts()).extracting(Extract::where).containsExactly("Patient", "Referring letter");
        assertThat(found.extracts().getLast().pieces()).contains(new Extract.Piece("Oakhanger", true));
    }

    @Test
    void whoHasTheNameStandsBeforeWhoseLetterMentionsIt() {
        var mentioned =
                entered("patient.family", "Brock", "letterText", "Her neighbour Mr Wendlebury Wendlebury Wendlebury.");
        var begins = entered("patient.family", "Wendleburyson");
        var named = entered("patient.family", "Wendlebury");
        assertThat(ids("wendlebury")).containsExactly(named.id(), begins.id(), mentioned.id());
    }

    @Test
    void aSavedChangeIsFoundAtOnceAndTheOldWordsNoMore() {
        var referral = entered("patient.family", "Oldershaw");
        var draft = Draft.of(referral.document());
        draft.set("patient.family", "Newbolt");
        var saved = office(() -> referrals.save(referral.id(), referral.version(), draft.toJson()));
        assertThat(saved).isInstanceOf(SaveOutcome.Saved.class);
        assertThat(ids("newbolt")).containsExactly(referral.id());
        assertThat(office(() -> search.find("oldershaw")).kind()).isEqualTo(Answer.Kind.SIMILAR_NAMES);
    }

    @Test
    void whatIsRolledBackIsNotFound() {
        transaction.executeWithoutResult(change -> {
            var referral = entered("patient.family", "Fleetingham");
            assertThat(ids("fleetingham")).containsExactly(referral.id());
            change.setRollbackOnly();
        });
        assertThat(ids("fleetingham")).isEmpty();
    }

    @Test
    void theWordsOfOurOwnLettersAreFound() {
        var referral = entered("patient.family", "Larkrise", "referrer.name", "Dr Ottoline Vexley");
        office(() -> referrals.submit(referral.id(), referral.version()));
        var words = jdbc.sql("select text from letter where referral = :id")
                .param("id", referral.id())
                .query(String.class)
                .single();
        assertThat(words).contains("reached");
        assertThat(ids("larkrise \"reached us\"")).containsExactly(referral.id());
    }

    @Test
    void aNameThatIsMistypedIsGuessed() {
        var referral = entered("patient.family", "Winterbourne");
        var answer = office(() -> search.find("winterborne"));
        assertThat(answer.kind()).isEqualTo(Answer.Kind.SIMILAR_NAMES);
        assertThat(answer.found()).extracting(Found::id).contains(referral.id());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "'); drop table searchable; --",
                "& | ! <-> :*",
                "\\",
                "a'b\\'c",
                "%_",
                "😀",
                "\"",
                "'' ''",
                "<script>x"
            })
    void signsAreNoCommands(String typed) {
        assertThat(office(() -> search.find(typed)).found()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "Ёлка, елка",
        "Σίσυφος, σισυφος",
        "שָׁלוֹם, שלום",
        "مُحَمَّد, محمد",
        "李明, 李明",
        "Nguyễn, nguyen",
        "Straße, STRASSE",
        "Þórr, thorr",
        "O’Malley, o'mal",
        "Zoë😀 Quince, zoe quin"
    })
    void namesInAnyScriptAreFound(String name, String typed) {
        var referral = entered("patient.family", name);
        assertThat(ids(typed)).contains(referral.id());
    }

    @Test
    void aCharacterThatTheDatabaseHasNoRoomForDoesNotKeepTheReferralFromBeingSaved() {
        var referral = office(() -> referrals.enter("{\"patient\": {\"family\": \"Nul\\u0000ton\"}}"));
        assertThat(ids(referral.reference())).containsExactly(referral.id());
        var endless = entered("patient.family", "Endless", "letterText", "q ".repeat(600_000));
        assertThat(ids("endless")).contains(endless.id());
        var numbered = IntStream.range(0, 120_000).mapToObj(Integer::toString).collect(Collectors.joining(" "));
        var many = entered("patient.family", "Manyfold", "letterText", numbered);
        assertThat(ids(many.reference())).contains(many.id());
    }

    @Test
    void whoSeesNoPatientSearchesNone() {
        assertThatThrownBy(() -> actingAs.person("manager", () -> search.find("zoe")))
                .isInstanceOf(AccessDeniedException.class);
    }

    /** The database folds what it searches, the program what it marks. Where they differed, a word found would not be marked. */
    @Test
    void theDatabaseAndTheProgramFoldLettersAlike() {
        // Letters of the languages of Europe that are written in Latin letters, and of Vietnamese.
        var letters = IntStream.concat(
                        IntStream.concat(IntStream.rangeClosed(0xC0, 0x17F), IntStream.rangeClosed(0x218, 0x21B)),
                        IntStream.rangeClosed(0x1EA0, 0x1EF9))
                .filter(Character::isLetter)
                .mapToObj(c -> "a" + Character.toString(c) + "b")
                .toList();
        var folded = jdbc.sql("""
                select folded(word) from unnest(cast(:words as text[])) with ordinality as typed (word, place) order by place
                """)
                .param("words", letters.toArray(String[]::new))
                .query(String.class)
                .list();
        var different = IntStream.range(0, letters.size())
                .filter(i -> !Folded.text(letters.get(i)).equals(folded.get(i)))
                .mapToObj(letters::get)
                .toList();
        assertThat(letters).hasSizeGreaterThan(270);
        // The l with a point in its middle, and the n after an apostrophe: each in one language, and spelt otherwise
        // today.
        assertThat(different).containsExactly("aĿb", "aŀb", "aŉb");
        for (var usual :
                List.of("Ångström", "Łuczak", "Straße", "Þórr", "Œuvre", "Đorđe", "Şafak", "Nguyễn", "Ăn", "Ħal")) {
            assertThat(jdbc.sql("select folded(:word)")
                            .param("word", usual)
                            .query(String.class)
                            .single())
                    .isEqualTo(Folded.text(usual));
        }
    }

    @Test
    void referralsThatCameBeforeAreCaughtUpWith() {
        var source = limbqueue.testbed.TestDatabase.empty().dataSource();
        Flyway.configure().dataSource(source).target("6").load().migrate();
        var older = JdbcClient.create(source);
        older.sql("""
                insert into referral (reference, state, received, document, saved_by, saved_at)
                values ('LQ-2025-0001', 'DRAFT', date '2025-01-12', '{"patient": {"family": "Ångström"}}', 'Wren Halloway',
                        now())""").update();
        Flyway.configure().dataSource(source).load().migrate();
        assertThat(older.sql("select name from searchable where who @@ 'angstrom'::tsquery")
                        .query(String.class)
                        .list())
                .containsExactly("angstrom");
    }

    /** Without the indexes every question would read the table from end to end. */
    @Test
    void theDatabaseFindsByIndexAmong20000() {
        new ManyReferrals(template).add(20_000);
        assertThat(jdbc.sql("show enable_seqscan").query(String.class).single()).isEqualTo("on");
        var many = new ManyReferrals(template);
        var family = Folded.text(many.family(77));
        assertThat(plan("select referral from searchable where who @@ cast('''" + family
                        + "'':*' as tsquery) limit 500"))
                .contains("searchable_who")
                .doesNotContain("Seq Scan");
        assertThat(plan("select referral from searchable where words @@ cast('''" + many.wordOfLetters(9_000)
                        + "'':*' as tsquery) limit 500"))
                .contains("searchable_words")
                .doesNotContain("Seq Scan");
        assertThat(plan("select referral from searchable where '" + family + "' <% name"))
                .contains("searchable_name")
                .doesNotContain("Seq Scan");
        assertThat(ids(many.given(77) + " " + many.family(77))).isNotEmpty();
        assertThat(office(() -> search.find("dear colleague")).kind()).isEqualTo(Answer.Kind.THE_BEST);
    }

    private String plan(String query) {
        return String.join(
                "\n", jdbc.sql("explain " + query).query(String.class).list());
    }
}
