package limbqueue.dispatch;

import java.util.Optional;
import limbqueue.letter.Letter;

/**
 * A letter on the desk.
 *
 * @param dispatch by which channel it goes; none for a letter that was sent before letters left from here
 */
public record DeskLine(Letter letter, Optional<Dispatch> dispatch) {

    public DeskPile pile() {
        return dispatch.map(Dispatch::state)
                .map(state -> switch (state) {
                    case HELD -> DeskPile.TO_CHECK;
                    case TO_SEND, SENDING -> DeskPile.TO_SEND;
                    case FAILED -> DeskPile.FAILED;
                    case BOUNCED -> DeskPile.BOUNCED;
                    case SENT, WITHDRAWN -> DeskPile.SENT;
                })
                .orElse(letter.sentAt().isPresent() ? DeskPile.SENT : DeskPile.TO_CHECK);
    }
}
