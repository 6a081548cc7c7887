package limbqueue.preparation;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;
import limbqueue.practice.DemoRequested;
import limbqueue.preparation.NextThing.Group;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.transaction.support.TransactionTemplate;

/** The demo as it is shipped: its stock and the cases that are under way. */
@OnPostgres
class DemoPreparationIT {

    @Autowired
    private ApplicationEventPublisher events;

    @Autowired
    private Preparation preparation;

    @Autowired
    private StentStock stock;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private TransactionTemplate transaction;

    @Test
    void theDemoHasAStockAndCasesOfSeveralKinds() {
        var lines = new AtomicReference<List<PreparationLine>>(List.of());
        var stents = new AtomicReference<List<CoveredStent>>(List.of());
        actingAs.person("coordinator", () -> {
            transaction.executeWithoutResult(status ->
                    events.publishEvent(new DemoRequested(Path.of("demo-referrals"), "coordinator", "physician")));
            lines.set(preparation.worklist());
            stents.set(stock.all());
        });

        assertThat(stents.get()).hasSizeGreaterThan(3);
        assertThat(lines.get().getFirst().next().group()).isEqualTo(Group.CHASE);
        assertThat(lines.get())
                .extracting(line -> line.next().group())
                .contains(Group.CHASE, Group.ASK, Group.DATE_AND_STENT);
        assertThat(lines.get()).filteredOn(line -> line.starts().isPresent()).hasSize(2);
    }
}
