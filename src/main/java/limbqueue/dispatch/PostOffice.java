package limbqueue.dispatch;

import java.time.Duration;
import java.util.Optional;
import limbqueue.dispatch.jdbc.Turns;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/** Opens with the application and sends what is due every few seconds, on one server of a cluster at a time. */
@Component
class PostOffice implements DisposableBean {

    private static final String TURN = "send-letters";
    private static final Duration LOOKS_EVERY = Duration.ofSeconds(10);

    private final Sending sending;
    private final MailServer server;
    private final Turns turns;
    private Optional<Turns.Turn> open = Optional.empty();

    PostOffice(Sending sending, MailServer server, Turns turns) {
        this.sending = sending;
        this.server = server;
        this.turns = turns;
    }

    /** Without a mail server nothing would ever be due. */
    @EventListener(ApplicationReadyEvent.class)
    public synchronized void ready() {
        if (open.isEmpty() && server.missing().isEmpty()) {
            open = Optional.of(turns.take(TURN, LOOKS_EVERY, sending::sendDue));
        }
    }

    @Override
    public synchronized void destroy() {
        open.ifPresent(Turns.Turn::close);
        open = Optional.empty();
    }
}
