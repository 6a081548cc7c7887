package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Optional;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * A server that dies between the mail server and the record. To the database its end is the same whether the process is killed
 * or its thread: what was committed stays, and nothing more comes. All people and places are invented.
 */
@OnPostgres
class NodeDiesIT {

    /** Ends a thread as a killed process would: nothing of ours catches it. */
    private static final class Killed extends Error {
        private static final long serialVersionUID = 1L;
    }

    /** Dies with a message, before or after the mail server has taken it. */
    private record Dying(MailServer server, boolean taken) implements MailServer {

        @Override
        public Optional<String> missing() {
            return server.missing();
        }

        @Override
        public String domain() {
            return server.domain();
        }

        @Override
        public void take(Mail mail) throws NotTakenException {
            if (taken) {
                server.take(mail);
            }
            throw new Killed();
        }
    }

    @Autowired
    private OutboxStore store;

    @Autowired
    private OutgoingLetters outgoing;

    @Autowired
    private Destinations destinations;

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private ActingAs actingAs;

    private PostRoom room;

    @BeforeEach
    void open() {
        room = new PostRoom(new Staff(actingAs), referrals, letters).open();
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void killedAfterTheServerTookItTheLetterComesTwiceAsTheSameMessage() throws Exception {
        var letter = room.letter(room.byEmail("Dr Lee Wick", "lee@millbeck.example"));
        assertThatThrownBy(() -> sending(new Dying(room.server(), true)).sendDue())
                .isInstanceOf(Killed.class);
        assertThat(store.of(letter.id()).getFirst().state()).isEqualTo(DispatchState.SENDING);
        assertThat(room.arrived("lee@millbeck.example")).hasSize(1);

        sending(room.server()).sendDue();
        assertThat(room.arrived("lee@millbeck.example"))
                .as("as long as it may still be under way")
                .hasSize(1);
        room.clock.forward(Sending.LOST.plusSeconds(1));
        sending(room.server()).sendDue();
        sending(room.server()).sendDue();

        var arrived = room.arrived("lee@millbeck.example");
        assertThat(arrived).hasSize(2);
        assertThat(arrived.get(0).getMessageID()).isEqualTo(arrived.get(1).getMessageID());
        assertThat(store.of(letter.id()).getFirst())
                .returns(DispatchState.SENT, Dispatch::state)
                .returns(2, Dispatch::attempts)
                .returns(1, Dispatch::round);
    }

    @Test
    void killedBeforeTheServerTookItTheLetterComesOnce() {
        var letter = room.letter(room.byEmail("Dr Mo Yarrow", "mo@millbeck.example"));
        assertThatThrownBy(() -> sending(new Dying(room.server(), false)).sendDue())
                .isInstanceOf(Killed.class);

        room.clock.forward(Sending.LOST.plusSeconds(1));
        sending(room.server()).sendDue();

        assertThat(room.arrived("mo@millbeck.example")).hasSize(1);
        assertThat(store.of(letter.id()).getFirst().state()).isEqualTo(DispatchState.SENT);
    }

    @Test
    void aLetterThatIsBeingSentIsNotMarkedByHandMeanwhile() {
        var letter = room.letter(room.byEmail("Dr Nan Zell", "nan@millbeck.example"));
        assertThatThrownBy(() -> sending(new Dying(room.server(), true)).sendDue())
                .isInstanceOf(Killed.class);

        assertThatThrownBy(() -> new Staff(actingAs).as("coordinator", () -> letters.markSent(letter.id())))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("is being sent at this moment");
    }

    private Sending sending(MailServer server) {
        return room.sending(server, store, outgoing, destinations, transaction);
    }
}
