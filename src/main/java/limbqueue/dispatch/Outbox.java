package limbqueue.dispatch;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.LetterUnderway;
import limbqueue.letter.LetterWritten;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Takes every letter in, in the transaction in which it is written: none is forgotten, and none leaves that was undone. */
@Component
class Outbox implements LetterUnderway {

    /** Who acts where no person does. */
    static final String ITSELF = "LimbQueue";

    private final OutboxStore store;
    private final Destinations destinations;
    private final Clock clock;

    Outbox(OutboxStore store, Destinations destinations, Clock clock) {
        this.store = store;
        this.destinations = destinations;
        this.clock = clock;
    }

    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void on(LetterWritten written) {
        var destination = destinations.of(written.letterId());
        store.add(
                written.letterId(),
                destination.channel(),
                destination.address(),
                destination instanceof Destination.NotRight wrong ? wrong.why() : "",
                written.leavesFrom(),
                ITSELF,
                clock.instant().truncatedTo(ChronoUnit.MICROS));
    }

    @Override
    public boolean isUnderway(long letterId) {
        return store.locked(letterId).stream().anyMatch(dispatch -> dispatch.state() == DispatchState.SENDING);
    }

    @Override
    public boolean mayLeave(long letterId) {
        return store.locked(letterId).stream()
                .anyMatch(dispatch ->
                        dispatch.state() == DispatchState.SENDING || dispatch.state() == DispatchState.TO_SEND);
    }
}
