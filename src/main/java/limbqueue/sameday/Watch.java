package limbqueue.sameday;

import java.time.Duration;
import limbqueue.sameday.jdbc.SameDayChoiceStore;
import limbqueue.sameday.jdbc.SameDayStore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.dao.DataAccessException;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionException;
import org.springframework.transaction.support.TransactionTemplate;

/** Looks again and again for same-day cases that nobody has taken in time, on every server; each is found once. */
@Component
class Watch implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(Watch.class);

    private static final String ASKED_THEN = "the lead physician and the managers";
    private static final Duration LOOKS_EVERY = Duration.ofSeconds(10);

    private final SameDayStore store;
    private final SameDayChoiceStore choices;
    private final TransactionTemplate transaction;
    private final Thread thread =
            Thread.ofPlatform().name("same-day watch").daemon().unstarted(this::run);

    Watch(SameDayStore store, SameDayChoiceStore choices, TransactionTemplate transaction) {
        this.store = store;
        this.choices = choices;
        this.transaction = transaction;
    }

    @EventListener(ApplicationReadyEvent.class)
    public void ready() {
        if (thread.getState() == Thread.State.NEW) {
            thread.start();
        }
    }

    /** Asks the lead physician and the managers about each case that nobody has taken for as long as the practice gives. */
    void look() {
        transaction.executeWithoutResult(_ -> {
            var choice = choices.newest().choice();
            var found = store.escalate(choice.minutes(), ASKED_THEN);
            if (found > 0) {
                LOG.atWarn().addKeyValue("cases", found).log("same-day cases that nobody has taken in time");
            }
        });
    }

    private void run() {
        while (!Thread.currentThread().isInterrupted()) {
            try {
                look();
            } catch (DataAccessException | TransactionException unreachable) {
                LOG.atWarn().setCause(unreachable).log("same-day cases could not be looked at; tried again soon");
            }
            try {
                Thread.sleep(LOOKS_EVERY);
            } catch (InterruptedException ended) {
                return;
            }
        }
    }

    @Override
    public void destroy() {
        thread.interrupt();
    }
}
