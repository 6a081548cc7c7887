package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;
import limbqueue.access.ActingAs;
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

/** Mail servers that are down, busy, or refuse. All people and places are invented. */
@OnPostgres
class RetryIT {

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
    void furnish() {
        room = new PostRoom(new Staff(actingAs), referrals, letters);
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void aServerThatIsDownIsTriedLaterAndLaterUntilItIsBack() {
        var letter = room.letter(room.byEmail("Dr Ola Birk", "ola@millbeck.example"));
        for (var attempt = 1; attempt <= 4; attempt++) {
            sendDue(room.server());
            var failed = store.of(letter.id()).getFirst();
            assertThat(failed.state()).isEqualTo(DispatchState.TO_SEND);
            assertThat(failed.attempts()).isEqualTo(attempt);
            assertThat(failed.why()).contains("could not be reached");
            // A minute, doubled each time: 1, 2, 4, 8.
            var minutes = 1 << (attempt - 1);
            assertThat(Duration.between(failed.at(), failed.dueAt())).isEqualTo(Duration.ofMinutes(minutes));
            room.clock.forward(Duration.ofMinutes(minutes).minusSeconds(20));
            sendDue(room.server());
            assertThat(store.of(letter.id()).getFirst().attempts()).isEqualTo(attempt);
            room.clock.forward(Duration.ofSeconds(21));
        }

        room.open();
        sendDue(room.server());

        assertThat(room.arrived("ola@millbeck.example")).hasSize(1);
        assertThat(store.of(letter.id()).getFirst().state()).isEqualTo(DispatchState.SENT);
    }

    @Test
    void afterAboutADayItIsSaidThatTheLetterDidNotLeave() {
        var letter = room.letter(room.byEmail("Dr Pia Cole", "pia@millbeck.example"));
        var began = room.clock.instant();
        var last = began;
        while (store.of(letter.id()).getFirst().state() == DispatchState.TO_SEND) {
            last = room.clock.instant();
            sendDue(room.server());
            room.clock.forward(BackOff.LONGEST.plusSeconds(1));
        }
        assertThat(store.of(letter.id()).getFirst())
                .returns(DispatchState.FAILED, Dispatch::state)
                .satisfies(failed -> assertThat(failed.why())
                        .contains("could not be reached", "tried " + BackOff.MOST_ATTEMPTS + " times"));
        assertThat(Duration.between(began, last)).isGreaterThan(Duration.ofDays(1));
        assertThat(room.letter(referrals(letter.referralId())).sentAt()).isEmpty();
    }

    /** RFC 5321, section 4.2.1: 5yz is a permanent negative reply, 4yz a transient one. */
    @Test
    void aRefusalForGoodIsNotTriedAgainAndOneForNowIs() throws Exception {
        var gone = room.letter(room.byEmail("Dr Quin Dace", "quin@millbeck.example"));
        try (var refusing = new Answering("550 5.1.1 No mailbox of this name")) {
            sendDue(refusing.server());
        }
        assertThat(store.of(gone.id()).getFirst())
                .returns(DispatchState.FAILED, Dispatch::state)
                .returns(1, Dispatch::attempts)
                .satisfies(failed -> assertThat(failed.why()).contains("refused", "No mailbox of this name"));

        var busy = room.letter(room.byEmail("Dr Rae Eames", "rae@millbeck.example"));
        try (var refusing = new Answering("450 4.2.1 Mailbox is busy")) {
            sendDue(refusing.server());
        }
        assertThat(store.of(busy.id()).getFirst())
                .returns(DispatchState.TO_SEND, Dispatch::state)
                .satisfies(later -> assertThat(later.why()).contains("Mailbox is busy"));
    }

    private limbqueue.referral.Referral referrals(long id) {
        return new Staff(actingAs).as("coordinator", () -> referrals.get(id));
    }

    private void sendDue(MailServer server) {
        room.sending(server, store, outgoing, destinations, transaction).sendDue();
    }

    /** A mail server that answers every recipient in the same way. */
    private static final class Answering implements AutoCloseable {

        private final ServerSocket socket = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
        private final String answer;

        Answering(String answer) throws IOException {
            this.answer = answer;
            Thread.ofPlatform().daemon().start(this::serve);
        }

        SmtpServer server() {
            var sender = new org.springframework.mail.javamail.JavaMailSenderImpl();
            sender.setHost("127.0.0.1");
            sender.setPort(socket.getLocalPort());
            sender.getJavaMailProperties().setProperty("mail.smtp.timeout", "5000");
            return new SmtpServer(Optional.of(sender), PostRoom.SENDER);
        }

        private void serve() {
            while (!socket.isClosed()) {
                try (var client = socket.accept();
                        var in = new BufferedReader(
                                new InputStreamReader(client.getInputStream(), StandardCharsets.US_ASCII))) {
                    say(client, "220 mail.example");
                    for (var line = in.readLine(); line != null; line = in.readLine()) {
                        say(client, line.startsWith("RCPT") ? answer : line.startsWith("QUIT") ? "221 Bye" : "250 OK");
                    }
                } catch (IOException hungUp) {
                    // The next one may call.
                }
            }
        }

        private static void say(java.net.Socket client, String line) throws IOException {
            client.getOutputStream().write((line + "\r\n").getBytes(StandardCharsets.US_ASCII));
            client.getOutputStream().flush();
        }

        @Override
        public void close() throws IOException {
            socket.close();
        }
    }
}
