package limbqueue.dispatch;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.MessagingException;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.testbed.Staff;
import org.springframework.mail.javamail.JavaMailSenderImpl;
import org.springframework.transaction.support.TransactionTemplate;

/** What tests of dispatch stand on: referrals whose letters go somewhere, a mail server, a clock that is put forward. */
final class PostRoom implements AutoCloseable {

    static final String SENDER = "letters@hollinbridge.example";
    static final String GATEWAY = "{number}@fax.example";

    /** Shows the time of now, moved. */
    static final class Hands extends Clock {

        private Duration ahead = Duration.ZERO;

        void forward(Duration by) {
            ahead = ahead.plus(by);
        }

        @Override
        public Instant instant() {
            return Instant.now().plus(ahead);
        }

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }
    }

    private final Staff staff;
    private final Referrals referrals;
    private final Letters letters;
    private final int port = freePort();
    private final GreenMail mail = new GreenMail(new ServerSetup(port, "127.0.0.1", "smtp"));

    final Hands clock = new Hands();

    PostRoom(Staff staff, Referrals referrals, Letters letters) {
        this.staff = staff;
        this.referrals = referrals;
        this.letters = letters;
    }

    PostRoom open() {
        mail.start();
        return this;
    }

    @Override
    public void close() {
        mail.stop();
    }

    /** A mail server that is spoken to without TLS, since the one of the tests knows none that begins in the middle. */
    SmtpServer server() {
        var sender = sender();
        sender.getJavaMailProperties().setProperty("mail.smtp.starttls.required", "false");
        return new SmtpServer(Optional.of(sender), SENDER);
    }

    /** As the application is set up, but for the name of the server. */
    JavaMailSenderImpl sender() {
        var sender = new JavaMailSenderImpl();
        sender.setHost("127.0.0.1");
        sender.setPort(port);
        var settings = sender.getJavaMailProperties();
        settings.setProperty("mail.smtp.starttls.enable", "true");
        settings.setProperty("mail.smtp.starttls.required", "true");
        settings.setProperty("mail.smtp.connectiontimeout", "5000");
        settings.setProperty("mail.smtp.timeout", "5000");
        return sender;
    }

    Sending sending(
            MailServer server,
            OutboxStore store,
            OutgoingLetters outgoing,
            Destinations destinations,
            TransactionTemplate transaction) {
        return new Sending(store, outgoing, destinations, new FaxGateway(GATEWAY), server, transaction, clock);
    }

    /** What has arrived for {@code recipient}, the oldest first. */
    List<MimeMessage> arrived(String recipient) {
        return Stream.of(mail.getReceivedMessages())
                .filter(message -> {
                    try {
                        return message.getAllRecipients()[0].toString().equals(recipient);
                    } catch (MessagingException unreadable) {
                        throw new IllegalStateException(unreadable);
                    }
                })
                .toList();
    }

    /** A referral before the physician, of a referring doctor of this name who is reached as {@code referrer} says. */
    Referral referred(String name, String referrer) {
        var document = Arriving.REST_PAIN.replace(
                "{\"name\": \"Dr Ines Farrow\", \"organisation\": \"Millbeck Surgery\", \"address\": \"12 Tannery Row, Millbeck\"}",
                "{\"name\": \"" + name + "\", " + referrer + "}");
        return staff.as("coordinator", () -> {
            var entered = referrals.enter(document);
            return ((Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    Referral byEmail(String name, String address) {
        return referred(name, "\"email\": \"" + address + "\", \"prefers\": \"email\"");
    }

    Decided returned(Referral referral) {
        return staff.as("physician", () -> (Decided) referrals.decide(
                referral.id(), referral.version(), new Decision.ReturnToReferrer("Known to another practice.")));
    }

    /** The newest letter about a referral. */
    Letter letter(Referral referral) {
        return staff.as("coordinator", () -> letters.about(referral.id()).getFirst());
    }

    private static int freePort() {
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (IOException none) {
            throw new UncheckedIOException(none);
        }
    }
}
