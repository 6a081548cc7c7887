package limbqueue.dispatch;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the office sees of letters on their way out, and does about them. */
@Service
public class Dispatches {

    private static final int LONGEST_REASON = 500;

    private final OutboxStore store;
    private final Letters letters;
    private final OutgoingLetters outgoing;
    private final Destinations destinations;
    private final MailServer server;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    Dispatches(
            OutboxStore store,
            Letters letters,
            OutgoingLetters outgoing,
            Destinations destinations,
            MailServer server,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.letters = letters;
        this.outgoing = outgoing;
        this.destinations = destinations;
        this.server = server;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** Unsent letters first, oldest first; then the sent ones, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<DeskLine> lines() {
        var ways = store.all().stream().collect(Collectors.groupingBy(Dispatch::letterId));
        var lines = new ArrayList<DeskLine>();
        for (var letter : letters.all()) {
            var own = ways.getOrDefault(letter.id(), List.of());
            if (own.isEmpty()) {
                lines.add(new DeskLine(letter, Optional.empty()));
            }
            own.forEach(way -> lines.add(new DeskLine(letter, Optional.of(way))));
        }
        return List.copyOf(lines);
    }

    /** Why nothing leaves by itself, in words; nothing if it does. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public Optional<String> notSetUp() {
        return server.missing();
    }

    /** What is known of how the letter could go by this channel, to begin with when an address is typed. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public String known(long letterId, Channel channel) {
        return destinations.known(channel, letterId);
    }

    /**
     * Keeps a letter back.
     *
     * @throws NotPossibleException if it is not waiting any more, or no reason is given
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public void hold(Dispatch seen, String reason) {
        if (reason.isBlank() || reason.length() > LONGEST_REASON) {
            throw new NotPossibleException(
                    "Say why it is held, in at most " + LONGEST_REASON + " characters, for whoever finds it here.");
        }
        require(seen, DispatchState.TO_SEND, DispatchState.FAILED);
        moved(store.move(seen, DispatchState.HELD, seen.address(), reason.strip(), seen.dueAt(), name(), now()));
        record("held a letter about", seen);
    }

    /**
     * Lets a letter that was held leave, by what the directory says of the referring doctor now.
     *
     * @throws NotPossibleException if it cannot reach anybody, or was released already
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public void release(Dispatch seen) {
        require(seen, DispatchState.HELD, DispatchState.FAILED);
        switch (destinations.of(seen.letterId())) {
            case Destination.NotRight wrong -> throw new NotPossibleException(wrong.why());
            case Destination.Known(var channel, var address) -> by(seen, channel, address);
        }
        record("released a letter about", seen);
    }

    /**
     * Sends a letter to an address that a person gives, once more if it has left already.
     *
     * @throws NotPossibleException if the address cannot be right, or the letter is on its way
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public void send(Dispatch seen, Channel channel, String typed) {
        require(
                seen,
                DispatchState.TO_SEND,
                DispatchState.HELD,
                DispatchState.FAILED,
                DispatchState.BOUNCED,
                DispatchState.SENT);
        switch (destinations.checked(channel, typed, seen.letterId())) {
            case Destination.NotRight wrong -> throw new NotPossibleException(wrong.why());
            case Destination.Known(var way, var address) -> by(seen, way, address);
        }
        record("sent a letter on its way about", seen);
    }

    /**
     * Records that a person has seen to it that the letter arrived: posted, faxed or handed over by hand.
     *
     * @throws NotPossibleException if its decision can still be taken back, or it is on its way
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public Letter markSent(long letterId) {
        var letter = letters.markSent(letterId);
        for (var way : store.of(letterId)) {
            if (way.state() == DispatchState.BOUNCED || way.state() == DispatchState.FAILED || isRepeated(way)) {
                store.move(way, DispatchState.SENT, way.address(), "", way.dueAt(), name(), now());
                record("sent a letter by hand about", way);
            }
        }
        return letter;
    }

    /**
     * Takes in a message that came back.
     *
     * @param message the file as the mail program saved it
     * @return what became of it, in words
     * @throws NotPossibleException if nothing follows from it
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public String cameBack(byte[] message) {
        return switch (BounceReader.read(message)) {
            case BounceReading.NoBounce(var why) -> throw new NotPossibleException(why);
            case BounceReading.Undelivered bounce -> cameBack(bounce);
        };
    }

    private String cameBack(BounceReading.Undelivered bounce) {
        var about = bounce.message();
        var way = about.flatMap(id -> store.find(id.token()));
        if (about.isEmpty() || way.isEmpty()) {
            throw new NotPossibleException("The message that came back to " + bounce.recipient()
                    + " was not sent from here, or the report does not say which it was.");
        }
        var letter = letter(way.get().letterId());
        if (way.get().round() != about.get().round() || way.get().state() != DispatchState.SENT) {
            throw new NotPossibleException("The letter about " + letter.reference()
                    + " has been seen to since that message came back. Nothing is changed.");
        }
        moved(store.move(
                way.get(),
                DispatchState.BOUNCED,
                way.get().address(),
                BounceWords.of(bounce),
                way.get().dueAt(),
                name(),
                now()));
        record("took back in a letter about", way.get());
        return "The letter about " + letter.reference() + " lies under “" + DeskPile.BOUNCED.words() + "” now.";
    }

    /** Sent once more by a person, which only the outbox knows: the letter itself has left before. */
    private static boolean isRepeated(Dispatch way) {
        return way.round() > 1 && (way.state() == DispatchState.TO_SEND || way.state() == DispatchState.HELD);
    }

    private void by(Dispatch seen, Channel channel, String address) {
        if (channel == seen.channel()) {
            moved(
                    wasTried(seen)
                            ? store.again(seen, address, name(), now())
                            : store.move(seen, DispatchState.TO_SEND, address, "", now(), name(), now()));
            return;
        }
        moved(store.move(
                seen,
                DispatchState.WITHDRAWN,
                seen.address(),
                "sent by " + channel.word() + " instead",
                seen.dueAt(),
                name(),
                now()));
        var other = store.of(seen.letterId()).stream()
                .filter(way -> way.channel() == channel)
                .findFirst();
        if (other.isPresent()) {
            moved(store.again(other.get(), address, name(), now()));
        } else {
            store.add(seen.letterId(), channel, address, "", seen.leavesFrom(), name(), now());
        }
    }

    private static boolean wasTried(Dispatch seen) {
        // What was held between two attempts may have arrived, and may have been corrected since: it is another
        // message.
        return seen.state() == DispatchState.SENT
                || seen.state() == DispatchState.BOUNCED
                || seen.state() == DispatchState.FAILED
                || (seen.state() == DispatchState.HELD && seen.attempts() > 0);
    }

    private void require(Dispatch seen, DispatchState... states) {
        var now = store.find(seen.id()).orElse(seen);
        if (now.version() != seen.version() || !List.of(states).contains(now.state())) {
            throw overtaken();
        }
    }

    private static void moved(boolean moved) {
        if (!moved) {
            throw overtaken();
        }
    }

    private static NotPossibleException overtaken() {
        return new NotPossibleException("The letter has moved on meanwhile. See how it stands now.");
    }

    private void record(String action, Dispatch way) {
        auditTrail.record(action, letter(way.letterId()).reference());
    }

    private Letter letter(long id) {
        return outgoing.letter(id);
    }

    private String name() {
        return currentPerson.get().displayName();
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
