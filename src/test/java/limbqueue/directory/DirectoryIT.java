package limbqueue.directory;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.access.ActingAs;
import limbqueue.document.DocumentFormat;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.testbed.TestDatabase;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** All people and places are invented. */
@OnPostgres
class DirectoryIT {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    @Autowired
    private Directory directory;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;

    @BeforeEach
    void nobodyIsKnown() {
        staff = new Staff(actingAs);
        jdbc.sql("delete from directory_entry").update();
    }

    @Test
    void whoIsNamedIsKnownAndHospitalsByAllTheirPlaces() {
        takeIn("""
                {"referrer": {"name": " Dr Maud Ferrier ", "organisation": "Millbeck Surgery", "fax": "0555 01 2201",
                              "prefers": "email"},
                 "imaging": [{"where": "Fellgate Infirmary"}], "procedures": [{"where": "fellgate infirmary"}, {}],
                 "deferredElsewhere": {"where": "Saltmarsh General"}}""", MONDAY);
        assertThat(known(DirectoryKind.REFERRER)).singleElement().satisfies(entry -> {
            assertThat(entry.name()).isEqualTo("Dr Maud Ferrier");
            assertThat(entry.organisation()).isEqualTo("Millbeck Surgery");
            assertThat(entry.fax()).isEqualTo("0555 01 2201");
            assertThat(entry.prefers()).isEqualTo("email");
            assertThat(entry.phone()).isEmpty();
            assertThat(entry.lastEntered()).isEqualTo(MONDAY);
        });
        assertThat(known(DirectoryKind.HOSPITAL))
                .extracting(DirectoryEntry::name)
                .containsExactly("Fellgate Infirmary", "Saltmarsh General");
    }

    @Test
    void aLaterReferralAddsWhatWasMissingAndChangesNothing() {
        takeIn(referrer("Dr Maud Ferrier", "\"phone\": \"0555 01 2200\""), MONDAY);
        takeIn(
                referrer("DR MAUD FERRIER", "\"phone\": \"0555 01 9999\", \"fax\": \"0555 01 2201\""),
                MONDAY.plusDays(3));
        assertThat(known(DirectoryKind.REFERRER)).singleElement().satisfies(entry -> {
            assertThat(entry.name()).isEqualTo("Dr Maud Ferrier");
            assertThat(entry.phone()).isEqualTo("0555 01 2200");
            assertThat(entry.fax()).isEqualTo("0555 01 2201");
            assertThat(entry.lastEntered()).isEqualTo(MONDAY.plusDays(3));
        });
    }

    @Test
    void whatIsNoNameIsNotKept() {
        takeIn("{\"referrer\": {\"name\": \"\\u0000\\u0007 \", \"phone\": \"1\"}}", MONDAY);
        takeIn("{\"imaging\": [{\"where\": \"" + "x".repeat(201) + "\"}]}", MONDAY);
        takeIn("{\"imaging\": [{\"where\": \"Fell\\u0000gate\"}]}", MONDAY);
        assertThat(known(DirectoryKind.REFERRER)).isEmpty();
        assertThat(known(DirectoryKind.HOSPITAL))
                .extracting(DirectoryEntry::name)
                .containsExactly("Fellgate");
    }

    @Test
    void aCorrectionIsKeptUnlessSomebodyElseWasFaster() {
        takeIn(referrer("Dr Maud Ferrier", "\"phone\": \"0555 01 2200\""), MONDAY);
        var entry = known(DirectoryKind.REFERRER).getFirst();
        assertThat(correct(entry, "Dr Maud Ferriere")).isInstanceOf(CorrectOutcome.Corrected.class);
        assertThat(correct(entry, "Dr Maud Other")).isInstanceOf(CorrectOutcome.Overtaken.class);
        assertThat(known(DirectoryKind.REFERRER))
                .extracting(DirectoryEntry::name)
                .containsExactly("Dr Maud Ferriere");
        assertThat(jdbc.sql("select count(*) from audit_entry where action = 'corrected a directory entry'"
                                + " and subject = :subject")
                        .param("subject", "directory " + entry.id())
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
    }

    @Test
    void aCorrectionThatCannotBeRightIsToldInWords() {
        takeIn(referrer("Dr Maud Ferrier", "\"phone\": \"1\""), MONDAY);
        takeIn(referrer("Dr Ivo Fernsby", "\"phone\": \"2\""), MONDAY);
        var entry = known(DirectoryKind.REFERRER).getFirst();
        assertThat(correct(entry, " ")).isInstanceOf(CorrectOutcome.NotRight.class);
        assertThat(correct(entry, "x".repeat(201))).isInstanceOf(CorrectOutcome.NotRight.class);
        assertThat(correct(entry, "dr maud ferrier"))
                .isInstanceOfSatisfying(
                        CorrectOutcome.NotRight.class,
                        refused -> assertThat(refused.why()).contains("Merge"));
    }

    @Test
    void ofTwoThatAreTheSameOneStandsForBothFromThenOn() {
        takeIn(referrer("Dr Maud Ferrier", "\"phone\": \"0555 01 2200\""), MONDAY);
        takeIn(referrer("Dr M Ferrier", "\"fax\": \"0555 01 2201\""), MONDAY.plusDays(1));
        var kept = byName("Dr Maud Ferrier");
        var other = byName("Dr M Ferrier");
        assertThat(staff.as("manager", () -> directory.merge(kept.id(), other.id())))
                .isTrue();
        assertThat(known(DirectoryKind.REFERRER)).singleElement().satisfies(entry -> {
            assertThat(entry.name()).isEqualTo("Dr Maud Ferrier");
            assertThat(entry.fax()).isEqualTo("0555 01 2201");
            assertThat(entry.lastEntered()).isEqualTo(MONDAY.plusDays(1));
        });
        assertThat(staff.as("coordinator", () -> directory.find(other.id()))
                        .orElseThrow()
                        .id())
                .isEqualTo(kept.id());
        takeIn(referrer("Dr M Ferrier", "\"email\": \"surgery@millbeck.example\""), MONDAY.plusDays(9));
        assertThat(known(DirectoryKind.REFERRER))
                .singleElement()
                .satisfies(entry -> assertThat(entry.email()).isEqualTo("surgery@millbeck.example"));
        assertThat(staff.as("manager", () -> directory.merge(kept.id(), other.id())))
                .isFalse();
        assertThat(staff.as("manager", () -> directory.merge(kept.id(), kept.id())))
                .isFalse();
    }

    @Test
    void whoWasNamedBeforeThereWasADirectoryIsInIt() {
        var source = TestDatabase.empty().dataSource();
        Flyway.configure().dataSource(source).target("6").load().migrate();
        var older = JdbcClient.create(source);
        var documents = List.of(
                "{\"referrer\": {\"name\": \"Dr Maud Ferrier\", \"organisation\": \"Millbeck Surgery\", \"phone\": \"1\"}}",
                "{\"referrer\": {\"name\": \"dr maud ferrier\", \"organisation\": \"Millbeck Surgery\", \"phone\": \"2\"},"
                        + " \"imaging\": [{\"where\": \"Fellgate Infirmary\"}, 7, {\"where\": null}], \"procedures\": {}}",
                "{\"referrer\": {\"name\": \"Dr\\u0000\", \"phone\": \"3\"}}",
                "{\"referrer\": [], \"imaging\": null, \"deferredElsewhere\": {\"where\": \"" + "x".repeat(201)
                        + "\"}}",
                "{\"referrer\": {\"name\": 12}, \"deferredElsewhere\": {\"where\": \"Saltmarsh General\"}}");
        for (var number = 0; number < documents.size(); number++) {
            older.sql("""
                            insert into referral (reference, state, received, document, saved_by, saved_at, submitted_at)
                            values (:reference, 'QUEUED', :received, :document::json, 'Wren Halloway', now(), now())""")
                    .param("reference", "LQ-2026-000" + number)
                    .param("received", MONDAY.plusDays(number))
                    .param("document", documents.get(number))
                    .update();
        }
        Flyway.configure().dataSource(source).load().migrate();
        assertThat(older.sql("select kind, name, organisation, phone from directory_entry order by kind, name")
                        .query((row, at) -> row.getString(1) + "|" + row.getString(2) + "|" + row.getString(3) + "|"
                                + row.getString(4))
                        .list())
                .containsExactly(
                        "HOSPITAL|Fellgate Infirmary||",
                        "HOSPITAL|Saltmarsh General||",
                        "REFERRER|dr maud ferrier|Millbeck Surgery|2");
    }

    private void takeIn(String document, LocalDate on) {
        staff.as("coordinator", () -> {
            directory.takeIn(DocumentFormat.parse(document, MONDAY).document(), on);
            return on;
        });
    }

    @Test
    void whoIsMuchLikeSomebodyOnFileIsHintedAtAndStandsInTheListOfWhatMayStandTwice() {
        takeIn(referrer("Dr Maud Ferrier", "\"phone\": \"0555 01 2200\""), MONDAY);
        takeIn(referrer("Dr Oswin Tallow", "\"phone\": \"0555 01 2300\""), MONDAY);

        assertThat(like("Dr Maud Ferier", "Millbeck Surgery"))
                .extracting(DirectoryEntry::name)
                .containsExactly("Dr Maud Ferrier");
        assertThat(like("dr maud FERRIER", "Millbeck Surgery"))
                .as("the very one")
                .isEmpty();
        assertThat(like("Dr Maud Ferrier", "Saltmarsh Clinic")).as("elsewhere").hasSize(1);
        assertThat(like("Dr Pia Quenby", "Millbeck Surgery")).isEmpty();
        assertThat(like("\u0000", "")).isEmpty();
        assertThat(staff.as("coordinator", () -> directory.alike(DirectoryKind.REFERRER)))
                .isEmpty();

        takeIn(referrer("Dr Maude Ferrier", "\"fax\": \"0555 01 2201\""), MONDAY);
        assertThat(staff.as("coordinator", () -> directory.alike(DirectoryKind.REFERRER)))
                .singleElement()
                .satisfies(pair -> {
                    assertThat(pair.one().name()).isEqualTo("Dr Maud Ferrier");
                    assertThat(pair.other().name()).isEqualTo("Dr Maude Ferrier");
                });
        assertThat(staff.as(
                        "coordinator",
                        () -> directory.merge(
                                byName("Dr Maud Ferrier").id(),
                                byName("Dr Maude Ferrier").id())))
                .isTrue();
        assertThat(staff.as("coordinator", () -> directory.alike(DirectoryKind.REFERRER)))
                .isEmpty();
    }

    private List<DirectoryEntry> like(String name, String organisation) {
        return staff.as("coordinator", () -> directory.like(Optional.of(name), Optional.of(organisation)));
    }

    private static String referrer(String name, String more) {
        return "{\"referrer\": {\"name\": \"" + name + "\", \"organisation\": \"Millbeck Surgery\", " + more + "}}";
    }

    private List<DirectoryEntry> known(DirectoryKind kind) {
        return staff.as("coordinator", () -> directory.known(kind));
    }

    private DirectoryEntry byName(String name) {
        return known(DirectoryKind.REFERRER).stream()
                .filter(entry -> entry.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void whatCannotReachAnybodyIsNotKeptAndSaysWhy() {
        takeIn("""
                {"referrer": {"name": "Dr Ivo Fernsby"}}""", MONDAY);
        var entry = known(DirectoryKind.REFERRER).getFirst();
        assertThat(reached(entry, "", "ivo@", "")).contains("“ivo@” is no e-mail address", "leave it empty");
        assertThat(reached(entry, "", "", "email"))
                .contains("The e-mail address is missing", "another way than e-mail");
        assertThat(reached(entry, "ask reception", "", "")).contains("is no fax number");
        assertThat(reached(entry, "", "", "fax")).contains("The fax number is missing");
        assertThat(reached(entry, "", "", "post")).contains("The address is missing");
        assertThat(reached(entry, "0555 01 3300", "ivo@millbeck.example", "email"))
                .isEmpty();
    }

    @Test
    void anAddressThatTheWindowOfTheEnvelopeDoesNotShowIsNotKeptWhereLettersGoByPost() {
        takeIn("""
                {"referrer": {"name": "Dr Ivo Fernsby", "fax": "0555 01 3300"}}""", MONDAY);
        var entry = known(DirectoryKind.REFERRER).getFirst();
        var wide = "The house at the end of the very long lane behind the mill\nMillbeck";
        assertThat(posted(entry, wide, "post")).contains("mm wide", "shows 75 mm", "another way than post");
        assertThat(posted(entry, "1 A Street\n2 B\n3 C\n4 D\n5 E\n6 F", "")).contains("7 lines", "shows 6");
        assertThat(posted(entry, "磨坊路1号\nMillbeck", "post")).contains("“磨坊路1号”", "one of these scripts");
        assertThat(posted(entry, wide, "fax")).as("no envelope").isEmpty();
    }

    private String posted(DirectoryEntry entry, String address, String prefers) {
        var outcome = staff.as(
                "coordinator",
                () -> directory.correct(new DirectoryEntry(
                        entry.id(),
                        entry.version(),
                        entry.kind(),
                        entry.name(),
                        entry.organisation(),
                        address,
                        entry.phone(),
                        entry.fax(),
                        entry.email(),
                        prefers,
                        entry.language(),
                        entry.lastEntered())));
        return outcome instanceof CorrectOutcome.NotRight(var why) ? why : "";
    }

    /** Why it is not kept; empty if it is. */
    private String reached(DirectoryEntry entry, String fax, String email, String prefers) {
        var outcome = staff.as(
                "coordinator",
                () -> directory.correct(new DirectoryEntry(
                        entry.id(),
                        entry.version(),
                        entry.kind(),
                        entry.name(),
                        entry.organisation(),
                        "",
                        entry.phone(),
                        fax,
                        email,
                        prefers,
                        entry.language(),
                        entry.lastEntered())));
        return outcome instanceof CorrectOutcome.NotRight(var why) ? why : "";
    }

    private CorrectOutcome correct(DirectoryEntry entry, String name) {
        return staff.as(
                "coordinator",
                () -> directory.correct(new DirectoryEntry(
                        entry.id(),
                        entry.version(),
                        entry.kind(),
                        name,
                        entry.organisation(),
                        entry.address(),
                        entry.phone(),
                        entry.fax(),
                        entry.email(),
                        entry.prefers(),
                        entry.language(),
                        entry.lastEntered())));
    }
}
