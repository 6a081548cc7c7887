package limbqueue.dispatch;

import java.time.Instant;
import java.util.UUID;

/**
 * A letter on its way by one channel.
 *
 * @param version counts its steps, for optimistic locking
 * @param token names the message beyond this installation
 * @param address an e-mail address, a fax number, or the lines of an address; empty where none is known
 * @param why it is held, was not taken, or came back, in words for the office; else empty
 * @param leavesFrom when it may leave: a decision cannot be taken back any more
 * @param dueAt when it is tried next
 * @param round counts the times that a person has had it sent, from 1 on
 * @param attempts how often it was tried in this round
 * @param author who took the last step, a person's name or LimbQueue
 */
public record Dispatch(
        long id,
        int version,
        long letterId,
        Channel channel,
        UUID token,
        String address,
        DispatchState state,
        String why,
        Instant leavesFrom,
        Instant dueAt,
        int round,
        int attempts,
        String author,
        Instant at) {

    /** Whether it waits only because the decision can still be taken back. */
    public boolean waitsForTheDecision(Instant now) {
        return state == DispatchState.TO_SEND && now.isBefore(leavesFrom);
    }
}
