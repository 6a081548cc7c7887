package limbqueue.worklist;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/** Works the lists out when the application has started and when a day begins, so that no person waits for it. */
@Component
class EarlyRiser implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(EarlyRiser.class);

    /** A little after midnight, when the day has begun for everybody. */
    private static final LocalTime RISES = LocalTime.of(0, 1);

    private final WorkInMemory memory;
    private final Clock clock;
    private final Thread thread =
            Thread.ofPlatform().name("early riser").daemon().unstarted(this::run);

    EarlyRiser(WorkInMemory memory, Clock clock) {
        this.memory = memory;
        this.clock = clock;
    }

    @EventListener(ApplicationReadyEvent.class)
    public void ready() {
        if (thread.getState() == Thread.State.NEW) {
            thread.setPriority(Thread.MIN_PRIORITY);
            thread.start();
        }
    }

    private void run() {
        while (!Thread.currentThread().isInterrupted()) {
            try {
                memory.now();
            } catch (RuntimeException failed) {
                // The first page that asks tries again and says what is wrong.
                LOG.atInfo().setCause(failed).log("the lists could not be worked out ahead");
            }
            try {
                Thread.sleep(untilItRises());
            } catch (InterruptedException ended) {
                return;
            }
        }
    }

    private Duration untilItRises() {
        var next = LocalDate.now(clock).plusDays(1).atTime(RISES).atZone(clock.getZone());
        return Duration.between(ZonedDateTime.now(clock), next);
    }

    @Override
    public void destroy() {
        thread.interrupt();
    }
}
