package limbqueue.dispatch;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import limbqueue.dispatch.MailServer.NotTakenException;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.OutgoingLetters;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.io.ByteArrayResource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Hands letters that are due to the mail server, one at a time, each in three steps: claimed in a transaction, handed over,
 * recorded in another transaction.
 *
 * <p>How exact that is. While all goes well a letter is handed over once: whoever claims it locks it, and nobody else does. If
 * the process dies after the claim, the record says that the letter is being sent, and after {@link #LOST} it is handed over
 * once more. Whether the server had taken it the first time, no protocol can tell: SMTP answers on a connection that is gone
 * (RFC 5321, section 4.5.5, leaves such duplicates to the sender). So a letter never gets lost, and in that one case may
 * arrive twice, as the same message: both have the same Message-ID, by which mail programs and gateways know a duplicate.
 */
@Component
class Sending {

    /** Longer than all time limits of one attempt together, which are set in application.properties. */
    static final Duration LOST = Duration.ofMinutes(15);

    private static final Logger LOG = LoggerFactory.getLogger(Sending.class);

    private final OutboxStore store;
    private final OutgoingLetters letters;
    private final Destinations destinations;
    private final FaxGateway gateway;
    private final MailServer server;
    private final TransactionTemplate transaction;
    private final Clock clock;

    Sending(
            OutboxStore store,
            OutgoingLetters letters,
            Destinations destinations,
            FaxGateway gateway,
            MailServer server,
            TransactionTemplate transaction,
            Clock clock) {
        this.store = store;
        this.letters = letters;
        this.destinations = destinations;
        this.gateway = gateway;
        this.server = server;
        this.transaction = transaction;
        this.clock = clock;
    }

    /** Sends what is due, until nothing is or the thread is interrupted; nothing at all while no mail server is set up. */
    void sendDue() {
        if (server.missing().isPresent()) {
            return;
        }
        while (!Thread.currentThread().isInterrupted() && sendNext()) {
            // Each is sent and recorded before the next is looked for.
        }
    }

    /** False if nothing was due. */
    private boolean sendNext() {
        var next = transaction.execute(_ -> store.lockNext(now(), LOST).map(this::claimed));
        if (next == null || next.isEmpty()) {
            return false;
        }
        if (next.get().state() == DispatchState.SENDING) {
            send(next.get());
        }
        return true;
    }

    /** As it stands then: being sent, or held where it cannot go where it should. */
    private Dispatch claimed(Dispatch due) {
        switch (destination(due)) {
            case Destination.NotRight wrong ->
                store.move(due, DispatchState.HELD, due.address(), wrong.why(), due.dueAt(), Outbox.ITSELF, now());
            case Destination.Known other
            when other.channel() != due.channel() ->
                store.move(
                        due,
                        DispatchState.HELD,
                        due.address(),
                        "The directory now says that letters are wanted by "
                                + other.channel().word() + ". Release it to send it that way.",
                        due.dueAt(),
                        Outbox.ITSELF,
                        now());
            case Destination.Known known -> store.claim(due, known.address(), now());
        }
        return store.find(due.id()).orElseThrow();
    }

    /**
     * Until it is tried or a person says where it goes, a correction in the directory counts. A second attempt goes where the
     * first went.
     */
    private Destination destination(Dispatch due) {
        try {
            return due.attempts() == 0 && due.author().equals(Outbox.ITSELF)
                    ? destinations.of(due.letterId())
                    : destinations.checked(due.channel(), due.address(), due.letterId());
        } catch (RuntimeException unreadable) {
            // One letter that cannot be read must not keep all others back.
            LOG.atError().addKeyValue("outbox", due.id()).setCause(unreadable).log("a letter cannot be read");
            return new Destination.NotRight(
                    due.channel(), due.address(), "This letter cannot be read. Tell whoever looks after LimbQueue.");
        }
    }

    private void send(Dispatch claimed) {
        try {
            hand(claimed);
        } catch (NotTakenException refused) {
            LOG.atWarn()
                    .addKeyValue("outbox", claimed.id())
                    .addKeyValue("attempt", claimed.attempts())
                    .setCause(refused)
                    .log("a letter was not taken by the mail server");
            notTaken(claimed, refused);
            return;
        }
        taken(claimed);
    }

    private void hand(Dispatch claimed) throws NotTakenException {
        try {
            server.take(mail(claimed));
        } catch (RuntimeException unforeseen) {
            throw new NotTakenException("It could not be handed to the mail server.", false, unforeseen);
        }
    }

    private Mail mail(Dispatch claimed) {
        var letter = letters.letter(claimed.letterId());
        var head = letters.parts(claimed.letterId()).letterhead();
        return new Mail(
                new MessageId(claimed.token(), claimed.round()).at(server.domain()),
                head.name(),
                claimed.channel() == Channel.FAX ? gateway.address(claimed.address()) : claimed.address(),
                "Letter from " + head.name() + ", our reference " + letter.reference(),
                CoveringNote.of(letter, head),
                letter.reference().replaceAll("[^A-Za-z0-9-]", "-") + "-"
                        + letter.kind().fileName() + ".pdf",
                new ByteArrayResource(letters.pdf(claimed.letterId())));
    }

    private void taken(Dispatch claimed) {
        transaction.executeWithoutResult(_ -> {
            letters.lock(claimed.letterId());
            var recorded = store.move(
                    claimed, DispatchState.SENT, claimed.address(), "", claimed.dueAt(), Outbox.ITSELF, now());
            if (recorded) {
                letters.left(claimed.letterId(), now(), Outbox.ITSELF);
            } else {
                LOG.atWarn()
                        .addKeyValue("outbox", claimed.id())
                        .log("a letter took so long to hand over that it was taken up again; it may arrive twice");
            }
        });
    }

    private void notTaken(Dispatch claimed, NotTakenException refused) {
        var wait = refused.forGood() ? Optional.<Duration>empty() : BackOff.after(claimed.attempts());
        var at = now();
        transaction.executeWithoutResult(_ -> wait.ifPresentOrElse(
                longer -> store.move(
                        claimed,
                        DispatchState.TO_SEND,
                        claimed.address(),
                        refused.why(),
                        at.plus(longer),
                        Outbox.ITSELF,
                        at),
                () -> store.move(
                        claimed,
                        DispatchState.FAILED,
                        claimed.address(),
                        refused.why() + (refused.forGood() ? "" : " It was tried " + claimed.attempts() + " times."),
                        claimed.dueAt(),
                        Outbox.ITSELF,
                        at)));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
