package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.practice.DemoRequested;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.transaction.support.TransactionTemplate;

@OnPostgres
class DemoReferralsIT {

    @Autowired
    private ApplicationEventPublisher events;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private TransactionTemplate transaction;

    @TempDir
    private Path folder;

    @Test
    void theLastOfTheDemoReferralsCameTodayAndEveryListHasSomething() throws IOException {
        Files.writeString(folder.resolve("notes.txt"), "not a referral");
        Files.writeString(folder.resolve("sudden.referral.json"), dated(Arriving.SUDDEN, "2026-03-02"));
        Files.writeString(folder.resolve("impossible.referral.json"), dated(Arriving.IMPOSSIBLE, "2026-02-27"));
        Files.writeString(
                folder.resolve("several.referral.json"),
                IntStream.rangeClosed(1, 10)
                        .mapToObj(day -> Arriving.REST_PAIN.replace("2026-01-12", "2026-02-%02d".formatted(day)))
                        .collect(Collectors.joining(",", "[", "]")));

        var lines = new AtomicReference<List<ReferralLine>>(List.of());
        var today = new AtomicReference<LocalDate>();
        var born = new AtomicReference<String>();
        actingAs.person("coordinator", () -> {
            transaction.executeWithoutResult(
                    status -> events.publishEvent(new DemoRequested(folder, "coordinator", "physician")));
            lines.set(referrals.worklist());
            today.set(referrals.today());
            born.set(Draft.of(referrals.get(lines.get().getFirst().id()).document())
                    .get("patient.born")
                    .orElseThrow()
                    .stringValue());
        });

        assertThat(lines.get()).hasSize(12);
        assertThat(lines.get())
                .extracting(ReferralLine::received)
                .contains(today.get(), today.get().minusDays(20));
        assertThat(born.get()).isEqualTo("1944-11-20");
        assertThat(lines.get().stream().collect(Collectors.groupingBy(ReferralLine::state, Collectors.counting())))
                .containsEntry(ReferralState.DRAFT, 4L)
                .containsEntry(ReferralState.QUEUED, 5L)
                .containsEntry(ReferralState.APPROVED, 2L)
                .containsEntry(ReferralState.INFORMATION_NEEDED, 1L);
        assertThat(lines.get())
                .filteredOn(line -> line.problems() > 0)
                .extracting(ReferralLine::state)
                .containsExactly(ReferralState.DRAFT);
    }

    private static String dated(String document, String received) {
        return document.replaceFirst("\\{", "{\"received\": \"" + received + "\",");
    }
}
