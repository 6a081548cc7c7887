package limbqueue.presence;

import java.time.Clock;
import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import limbqueue.access.Person;
import limbqueue.presence.jdbc.OnlookerStore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.dao.DataAccessException;
import org.springframework.stereotype.Component;

/**
 * The pages of referrals that are open on this server. While there are any, it is said again and again that they are, and what
 * a server that stopped has left behind is cleared away. It is no service: a page is closed also when nobody is signed in
 * any more.
 */
@Component
public class OpenPages implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(OpenPages.class);

    private static final Duration SAID_EVERY = Duration.ofSeconds(10);

    /** Three times without a word, and a pause of the machine on top. */
    private static final Duration SILENT_FOR = Duration.ofSeconds(40);

    private final OnlookerStore store;
    private final Clock clock;
    private final Map<UUID, OpenPage> pages = new HashMap<>();
    private boolean running;

    OpenPages(OnlookerStore store, Clock clock) {
        this.store = store;
        this.clock = clock;
    }

    /**
     * Keeps that {@code person} has a referral open.
     *
     * @return ends it; may be called on any thread, more than once
     */
    public synchronized Runnable open(long referral, Person person) {
        var page = new OpenPage(
                UUID.randomUUID(), referral, person, clock.instant().truncatedTo(ChronoUnit.MICROS));
        store.keep(page);
        pages.put(page.id(), page);
        if (!running) {
            running = true;
            Thread.ofPlatform().name("open pages").daemon().start(this::run);
        }
        return () -> close(page.id());
    }

    private synchronized void close(UUID page) {
        if (pages.remove(page) != null) {
            try {
                store.remove(page);
            } catch (DataAccessException unreachable) {
                // It is cleared away as silent.
                LOG.atInfo().setCause(unreachable).log("a page that was closed could not be taken out");
            }
        }
    }

    private void run() {
        try {
            while (sayAgain()) {
                Thread.sleep(SAID_EVERY);
            }
        } catch (InterruptedException ended) {
            Thread.currentThread().interrupt();
        }
    }

    /** @return whether there is a page to go on for */
    private synchronized boolean sayAgain() {
        if (pages.isEmpty()) {
            running = false;
            return false;
        }
        try {
            pages.values().forEach(store::keep);
            store.removeSilent(SILENT_FOR);
        } catch (DataAccessException unreachable) {
            LOG.atInfo().setCause(unreachable).log("open pages could not be said");
        }
        return true;
    }

    @Override
    public void destroy() {
        List<UUID> open;
        synchronized (this) {
            open = List.copyOf(pages.keySet());
        }
        open.forEach(this::close);
    }
}
