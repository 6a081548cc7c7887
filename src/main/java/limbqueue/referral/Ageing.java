package limbqueue.referral;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.PolicyPublished;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.LatestProposalStore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.transaction.event.TransactionalEventListener;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Triages every referral that waits for a decision anew: when the application has started, when a day has begun in the
 * practice, and when a policy comes to count. Of several servers on one database one works at a time; the next finds
 * nothing left to do.
 */
@Component
class Ageing implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(Ageing.class);

    /** Just after midnight, when the day has begun by every clock that is not quite right. */
    private static final LocalTime BEGINS = LocalTime.of(0, 0, 10);

    private static final Duration TRIED_AGAIN_AFTER = Duration.ofMinutes(1);

    private final LatestProposals latest;
    private final LatestProposalStore store;
    private final PolicyInForce policies;
    private final RuleBooks books;
    private final TransactionTemplate transaction;
    private final Clock clock;
    private final Semaphore woken = new Semaphore(0);
    private final Thread thread = Thread.ofPlatform().name("ageing").daemon().unstarted(this::goOn);

    Ageing(
            LatestProposals latest,
            LatestProposalStore store,
            PolicyInForce policies,
            RuleBooks books,
            TransactionTemplate transaction,
            Clock clock) {
        this.latest = latest;
        this.store = store;
        this.policies = policies;
        this.books = books;
        this.transaction = transaction;
        this.clock = clock;
    }

    @EventListener(ApplicationReadyEvent.class)
    public void ready() {
        if (thread.getState() == Thread.State.NEW) {
            thread.start();
        }
    }

    @TransactionalEventListener
    public void policyPublished(PolicyPublished published) {
        if (!published.version().validFrom().isAfter(LocalDate.now(clock))) {
            woken.release();
        }
    }

    /** Brings every referral that waits to today, after whoever else is at it. */
    void run() {
        // The turn is held by a transaction that does nothing else; each referral has one of its own.
        transaction.executeWithoutResult(turn -> {
            store.takeTurn();
            var today = LocalDate.now(clock);
            store.behind(
                            today,
                            policies.on(today).policy().id(),
                            books.inForce().id())
                    .forEach(latest::bringToToday);
        });
    }

    private void goOn() {
        while (!Thread.currentThread().isInterrupted()) {
            var next = untilTomorrow();
            try {
                run();
            } catch (RuntimeException failed) {
                next = TRIED_AGAIN_AFTER;
                LOG.atWarn().setCause(failed).log("referrals that wait could not be triaged anew; tried again soon");
            }
            try {
                if (woken.tryAcquire(next.toMillis(), TimeUnit.MILLISECONDS)) {
                    woken.drainPermits();
                }
            } catch (InterruptedException ended) {
                return;
            }
        }
    }

    private Duration untilTomorrow() {
        var next = LocalDate.now(clock).plusDays(1).atTime(BEGINS).atZone(clock.getZone());
        return Duration.between(ZonedDateTime.now(clock), next);
    }

    @Override
    public void destroy() {
        thread.interrupt();
    }
}
