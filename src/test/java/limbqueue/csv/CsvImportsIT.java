package limbqueue.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** Tables on their way into the database. All people are invented. */
@OnPostgres
class CsvImportsIT {

    @Autowired
    private CsvImports imports;

    @Autowired
    private CsvBatch batch;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private <T> T office(Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person("coordinator", () -> {
            try {
                result.set(work.call());
            } catch (Exception failed) {
                throw new IllegalStateException(failed);
            }
        });
        return result.get();
    }

    private CsvImport load(String text, Charset alphabet) {
        return office(() -> imports.load("waiting list.csv", text.getBytes(alphabet)));
    }

    private CsvImport run(CsvImport loaded) throws InterruptedException {
        assertThat(office(() -> imports.start(loaded.id(), imports.mapping(loaded.id())))).isTrue();
        return finished(loaded.id());
    }

    private CsvImport finished(long id) throws InterruptedException {
        var until = Instant.now().plus(Duration.ofMinutes(4));
        while (office(() -> imports.isRunning(id)) && Instant.now().isBefore(until)) {
            Thread.sleep(20);
        }
        return office(() -> imports.find(id)).orElseThrow();
    }

    private int referralsOf(String family) {
        return jdbc.sql("select count(*) from referral where document #>> '{patient,family}' = :family")
                .param("family", family)
                .query(Integer.class)
                .single();
    }

    @Test
    void aTableInLatin1WithSemicolonsBecomesReferrals() throws InterruptedException {
        var text = "Surname;First name;DOB;ABI left;Diabetes;Reason\n"
                + "Ångström;Zoë;31.05.1951;0,62;ja;\"Cold; numb\"\n"
                + "Pell;Odile;01.02.1949;high;perhaps;\n"
                + "Ragged;Row;01.02.1949\n";
        var loaded = load(text, StandardCharsets.ISO_8859_1);
        var dry = office(() -> imports.dryRun(loaded.id(), imports.mapping(loaded.id())));
        assertThat(dry.fresh()).isEqualTo(2);
        assertThat(dry.refused()).isEqualTo(1);
        assertThat(dry.problems())
                .extracting(problem -> problem.line() + " " + problem.column())
                .containsExactly("3 ABI left", "3 Diabetes", "4 ");
        assertThat(referralsOf("Ångström")).isZero();

        var done = run(loaded);
        assertThat(done.state()).isEqualTo(CsvImport.State.DONE);
        assertThat(done.entered()).isEqualTo(2);
        assertThat(done.refused()).isEqualTo(1);
        assertThat(jdbc.sql("""
                select document #>> '{legs,left,abi}' || ' ' || (document #>> '{history,diabetes}') || ' '
                       || (document #>> '{patient,born}') || ' ' || state
                from referral where document #>> '{patient,family}' = 'Ångström'
                """).query(String.class).single()).isEqualTo("0.62 true 1951-05-31 DRAFT");
        assertThat(jdbc.sql("select document #>> '{legs,left,abi}' from referral where document #>> '{patient,family}' = 'Pell'")
                        .query(String.class)
                        .single())
                .isEqualTo("high");
    }

    @Test
    void theSameFileAgainBringsNothingAndALongerOneTheRest() throws InterruptedException {
        var text = "Surname,First name\nTwicebrook,One\nTwicebrook,Two\nTwicebrook,Two\n";
        run(load(text, StandardCharsets.UTF_8));
        assertThat(referralsOf("Twicebrook")).isEqualTo(2);
        var again = run(load(text, StandardCharsets.UTF_8));
        assertThat(again.known()).isEqualTo(3);
        assertThat(again.entered()).isZero();
        var longer = run(load(text + "Twicebrook,Three\n", StandardCharsets.UTF_8));
        assertThat(longer.entered()).isEqualTo(1);
        assertThat(referralsOf("Twicebrook")).isEqualTo(3);
    }

    @Test
    void whatBreaksOffGoesOnWhereItWas() throws Exception {
        var text = "Surname,First name\n"
                + IntStream.range(0, 120).mapToObj(i -> "Brokenoff,N" + i).collect(Collectors.joining("\n"));
        var loaded = load(text, StandardCharsets.UTF_8);
        var mapping = office(() -> imports.mapping(loaded.id()));
        var file = office(() -> imports.file(loaded.id()));
        // As if the machine had stopped after the first batch.
        office(() -> {
            batch.begin(loaded.id(), mapping, "0".repeat(64));
            return batch.take(
                    loaded.id(),
                    file.rows().subList(0, CsvBatch.ROWS),
                    new RowReader(file, mapping, java.time.LocalDate.of(2026, 3, 2)));
        });
        var broken = office(() -> imports.find(loaded.id())).orElseThrow();
        assertThat(broken.state()).isEqualTo(CsvImport.State.RUNNING);
        assertThat(broken.seen()).isEqualTo(CsvBatch.ROWS);
        assertThat(office(() -> imports.isRunning(loaded.id()))).isFalse();

        var done = run(loaded);
        assertThat(done.state()).isEqualTo(CsvImport.State.DONE);
        assertThat(done.known()).isEqualTo(CsvBatch.ROWS);
        assertThat(done.entered()).isEqualTo(70);
        assertThat(referralsOf("Brokenoff")).isEqualTo(120);
    }

    @Test
    void whoStopsAnImportKeepsWhatIsIn() throws InterruptedException {
        var text = "Surname,First name\n"
                + IntStream.range(0, 3000).mapToObj(i -> "Stopwell,N" + i).collect(Collectors.joining("\n"));
        var loaded = load(text, StandardCharsets.UTF_8);
        office(() -> imports.start(loaded.id(), imports.mapping(loaded.id())));
        assertThat(office(() -> imports.start(loaded.id(), imports.mapping(loaded.id())))).isFalse();
        office(() -> {
            imports.cancel(loaded.id());
            return true;
        });
        var stopped = finished(loaded.id());
        assertThat(stopped.state()).isEqualTo(CsvImport.State.CANCELLED);
        assertThat(stopped.entered()).isLessThan(3000).isEqualTo(referralsOf("Stopwell"));
    }

    @Test
    void theColumnsOfAHeaderAreRememberedAsSomebodySaidThem() throws InterruptedException {
        var text = "Kennzahl,Name\nAV-1,Rememberton\n";
        var loaded = load(text, StandardCharsets.UTF_8);
        assertThat(office(() -> imports.mapping(loaded.id())).fields()).doesNotContainKey("Kennzahl");
        var said = new Mapping(
                java.util.Map.of("Kennzahl", "patient.identifiers[0].value", "Name", "patient.family"), DateOrder.MONTH_FIRST);
        office(() -> imports.start(loaded.id(), said));
        finished(loaded.id());
        var next = load("Kennzahl,Name\nAV-2,Rememberton\n", StandardCharsets.UTF_8);
        assertThat(office(() -> imports.mapping(next.id()))).isEqualTo(said);
    }

    @Test
    void whoDoesNotEnterReferralsImportsNone() {
        assertThatThrownBy(() -> actingAs.person("physician", imports::latest)).isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> actingAs.person("manager", imports::latest)).isInstanceOf(AccessDeniedException.class);
    }
}
