package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import limbqueue.access.ActingAs;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/** Nothing leaves as long as the decision that it tells of can be taken back. All people and places are invented. */
@OnPostgres
class UndoWindowIT {

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

    private Staff staff;
    private PostRoom room;

    @BeforeEach
    void open() {
        staff = new Staff(actingAs);
        room = new PostRoom(staff, referrals, letters).open();
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void theLetterOfADecisionLeavesWhenTheDecisionIsFinalAndNotASecondBefore() {
        var referral = room.byEmail("Dr Jo Ulm", "jo@millbeck.example");
        sendDue();
        assertThat(room.arrived("jo@millbeck.example"))
                .as("that it has arrived")
                .hasSize(1);
        var letter = room.letter(room.returned(referral).referral());
        assertThat(store.of(letter.id()).getFirst().waitsForTheDecision(room.clock.instant()))
                .isTrue();

        sendDue();
        room.clock.forward(DecisionRecord.FINAL_AFTER.minusSeconds(30));
        sendDue();
        assertThat(room.arrived("jo@millbeck.example")).hasSize(1);

        room.clock.forward(Duration.ofSeconds(31));
        sendDue();
        assertThat(room.arrived("jo@millbeck.example")).hasSize(2);
    }

    @Test
    void theLetterOfADecisionThatWasTakenBackNeverLeaves() {
        var referral = room.byEmail("Dr Kit Vane", "kit@millbeck.example");
        var made = room.returned(referral);
        var letter = room.letter(made.referral());

        staff.as("physician", () -> referrals.takeBack(made.decision().id()));
        room.clock.forward(Duration.ofDays(1));
        sendDue();

        assertThat(room.arrived("kit@millbeck.example"))
                .as("that it has arrived")
                .hasSize(1);
        assertThat(store.of(letter.id()).getFirst().state()).isEqualTo(DispatchState.WITHDRAWN);
    }

    private void sendDue() {
        room.sending(room.server(), store, outgoing, destinations, transaction).sendDue();
    }
}
