package limbqueue.dispatch;

import jakarta.mail.MessagingException;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.io.UnsupportedEncodingException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import limbqueue.directory.ReachedBy;
import org.eclipse.angus.mail.smtp.SMTPAddressFailedException;
import org.eclipse.angus.mail.smtp.SMTPSendFailedException;
import org.eclipse.angus.mail.smtp.SMTPSenderFailedException;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.mail.MailAuthenticationException;
import org.springframework.mail.MailException;
import org.springframework.mail.MailSendException;
import org.springframework.mail.javamail.JavaMailSender;
import org.springframework.mail.javamail.MimeMessageHelper;
import org.springframework.stereotype.Component;

/** A mail server that is spoken to by SMTP (RFC 5321), with TLS unless an operator has said otherwise. */
@Component
class SmtpServer implements MailServer {

    private final Optional<JavaMailSender> mailer;
    private final String sender;

    @Autowired
    SmtpServer(ObjectProvider<JavaMailSender> mailer, @Value("${limbqueue.dispatch.sender}") String sender) {
        this(Optional.ofNullable(mailer.getIfAvailable()), sender);
    }

    /**
     * @param sender the e-mail address that letters come from and bounces go to
     * @throws IllegalArgumentException if it is set and cannot be one
     */
    SmtpServer(Optional<JavaMailSender> mailer, String sender) {
        this.mailer = mailer;
        this.sender = sender.strip();
        if (!this.sender.isEmpty()) {
            ReachedBy.wrongWithEmail(this.sender).ifPresent(wrong -> {
                throw new IllegalArgumentException("limbqueue.dispatch.sender: " + wrong);
            });
        }
    }

    @Override
    public Optional<String> missing() {
        if (mailer.isEmpty()) {
            return Optional.of("No mail server is set up (spring.mail.host), so nothing leaves by e-mail or fax.");
        }
        return sender.isEmpty()
                ? Optional.of("No sender is set up (limbqueue.dispatch.sender), so nothing leaves by e-mail or fax.")
                : Optional.empty();
    }

    @Override
    public String domain() {
        return sender.substring(sender.indexOf('@') + 1);
    }

    @Override
    public void take(Mail mail) throws NotTakenException {
        var server = mailer.orElseThrow();
        try {
            server.send(written(server.createMimeMessage(), mail));
        } catch (MailAuthenticationException refused) {
            throw new NotTakenException(
                    "The mail server does not accept the sign-in of this installation.", false, refused);
        } catch (MailException failed) {
            throw notTaken(failed);
        } catch (MessagingException | UnsupportedEncodingException unwritable) {
            throw new NotTakenException(
                    "The message could not be written: " + unwritable.getMessage(), true, unwritable);
        }
    }

    private MimeMessage written(MimeMessage message, Mail mail)
            throws MessagingException, UnsupportedEncodingException {
        var parts =
                new MimeMessageHelper(message, MimeMessageHelper.MULTIPART_MODE_MIXED, StandardCharsets.UTF_8.name());
        parts.setFrom(new InternetAddress(sender, mail.from(), StandardCharsets.UTF_8.name()));
        parts.setTo(mail.to());
        parts.setSubject(mail.subject());
        parts.setText(mail.text());
        parts.addAttachment(mail.fileName(), mail.pdf(), "application/pdf");
        message.setHeader("Message-ID", mail.id());
        // Asks programs that answer by themselves not to (RFC 3834, section 5).
        message.setHeader("Auto-Submitted", "auto-generated");
        return message;
    }

    private static NotTakenException notTaken(MailException failed) {
        var refusal = refusal(failed);
        return refusal.map(answer -> new NotTakenException(
                        "The mail server refused it: " + answer.words(), answer.code() >= 500, failed))
                .orElseGet(() -> new NotTakenException(
                        "The mail server could not be reached, or broke off: " + innermost(first(failed)),
                        false,
                        failed));
    }

    /** @param code of RFC 5321, section 4.2.1: from 500 on the same message is refused again */
    private record Refusal(int code, String words) {}

    private static Optional<Refusal> refusal(MailException failed) {
        var found = Optional.<Refusal>empty();
        if (failed instanceof MailSendException sending) {
            for (var one : sending.getMessageExceptions()) {
                found = found.or(() -> refusalIn(one));
            }
        }
        return found.or(() -> refusalIn(failed));
    }

    private static Optional<Refusal> refusalIn(Throwable failed) {
        for (Throwable at = failed; at != null; at = next(at)) {
            var found = switch (at) {
                case SMTPAddressFailedException address ->
                    Optional.of(new Refusal(address.getReturnCode(), words(address)));
                case SMTPSenderFailedException sender ->
                    Optional.of(new Refusal(sender.getReturnCode(), words(sender)));
                case SMTPSendFailedException data
                when data.getReturnCode() > 0 && data.getNextException() == null ->
                    Optional.of(new Refusal(data.getReturnCode(), words(data)));
                default -> Optional.<Refusal>empty();
            };
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    private static @Nullable Throwable next(Throwable at) {
        return at instanceof MessagingException mail && mail.getNextException() != null
                ? mail.getNextException()
                : at.getCause();
    }

    private static Throwable first(MailException failed) {
        return failed instanceof MailSendException sending && sending.getMessageExceptions().length > 0
                ? sending.getMessageExceptions()[0]
                : failed;
    }

    private static String innermost(Throwable failed) {
        var at = failed;
        for (var next = next(at); next != null && next != at; next = next(at)) {
            at = next;
        }
        return words(at);
    }

    /** The first line of what was answered; whatever comes after it is for machines. */
    private static String words(Throwable failed) {
        return Optional.ofNullable(failed.getMessage())
                .flatMap(message -> message.lines()
                        .map(String::strip)
                        .filter(line -> !line.isEmpty())
                        .findFirst())
                .map(line -> line.length() > 300 ? line.substring(0, 300) : line)
                .orElse(failed.getClass().getSimpleName());
    }
}
