package limbqueue.live;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import limbqueue.live.jdbc.Listening;
import limbqueue.live.jdbc.NotListeningException;
import limbqueue.live.jdbc.Notifications;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.stereotype.Component;

/**
 * Tells whoever listens what has been committed, on this server or on another one. While nobody listens there is neither a
 * thread nor a connection.
 */
@Component
public class Changes implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(Changes.class);

    /** What follows a first change so soon is told with it. */
    private static final Duration GATHERED = Duration.ofMillis(100);

    private static final Duration ASKED_WHETHER_IT_ANSWERS = Duration.ofSeconds(10);
    private static final Duration FIRST_PAUSE = Duration.ofMillis(100);
    private static final Duration LONGEST_PAUSE = Duration.ofSeconds(2);

    private final Notifications notifications;
    private final Set<Listener> listeners = ConcurrentHashMap.newKeySet();

    private boolean running;
    private boolean stopped;
    private Optional<Listening> connection = Optional.empty();

    Changes(Notifications notifications) {
        this.notifications = notifications;
    }

    /** Compared by identity: one consumer may listen twice. */
    private static final class Listener {

        private final Consumer<Changed> told;

        Listener(Consumer<Changed> told) {
            this.told = told;
        }
    }

    /**
     * Calls {@code told} after every change, each time on a thread of its own, until it is told to stop. When the first
     * listener has made the database be listened to, and whenever a broken connection is back, all are told that anything may
     * have changed: who reads after this call, and again when told, misses nothing.
     *
     * @return stops it
     */
    public Runnable listen(Consumer<Changed> told) {
        var listener = new Listener(told);
        synchronized (this) {
            listeners.add(listener);
            if (!running && !stopped) {
                running = true;
                Thread.ofPlatform().name("changes").daemon().start(this::run);
            }
        }
        return () -> listeners.remove(listener);
    }

    private void run() {
        var pause = FIRST_PAUSE;
        while (true) {
            try (var listening = notifications.listen()) {
                if (!hold(listening)) {
                    return;
                }
                pause = FIRST_PAUSE;
                tell(Changed.anything());
                while (wanted()) {
                    passOn(listening);
                }
                return;
            } catch (NotListeningException broken) {
                if (letGo()) {
                    LOG.atWarn()
                            .setCause(broken)
                            .log("the database tells nothing; open pages wait until it does again");
                }
            }
            if (!wanted() || !rest(pause)) {
                return;
            }
            pause = pause.multipliedBy(2).compareTo(LONGEST_PAUSE) > 0 ? LONGEST_PAUSE : pause.multipliedBy(2);
        }
    }

    private void passOn(Listening listening) {
        var told = listening.await(ASKED_WHETHER_IT_ANSWERS);
        if (!told.isEmpty() && rest(GATHERED)) {
            var all = new ArrayList<>(told);
            all.addAll(listening.meanwhile());
            tell(Changed.of(all));
        }
    }

    private synchronized boolean hold(Listening listening) {
        if (stopped) {
            return false;
        }
        connection = Optional.of(listening);
        return true;
    }

    /** @return whether the connection was there and somebody misses it */
    private synchronized boolean letGo() {
        var missed = connection.isPresent() && !stopped;
        connection = Optional.empty();
        return missed;
    }

    /** Whether to go on; with the last listener the thread and its connection go. */
    private synchronized boolean wanted() {
        if (stopped || listeners.isEmpty()) {
            running = false;
            connection = Optional.empty();
        }
        return running;
    }

    private void tell(Changed changed) {
        List.copyOf(listeners).forEach(listener -> tell(listener, changed));
    }

    /** On a thread of its own: a page that is slow to draw keeps nobody else waiting. */
    private static void tell(Listener listener, Changed changed) {
        Thread.ofVirtual().name("told of a change").start(() -> listener.told.accept(changed));
    }

    private static boolean rest(Duration pause) {
        try {
            Thread.sleep(pause);
            return true;
        } catch (InterruptedException ended) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    @Override
    public void destroy() {
        Optional<Listening> open;
        synchronized (this) {
            stopped = true;
            open = connection;
            connection = Optional.empty();
        }
        open.ifPresent(Listening::close);
    }
}
