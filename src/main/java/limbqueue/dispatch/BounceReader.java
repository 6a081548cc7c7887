package limbqueue.dispatch;

import jakarta.mail.BodyPart;
import jakarta.mail.MessagingException;
import jakarta.mail.Multipart;
import jakarta.mail.Part;
import jakarta.mail.Session;
import jakarta.mail.internet.ContentType;
import jakarta.mail.internet.InternetHeaders;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.ParseException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Properties;

/**
 * Reads a delivery status notification: a {@code multipart/report} (RFC 6522) whose second part says, group by group, what
 * became of each recipient (RFC 3464, section 2), and whose last part brings back the message or its headers.
 */
final class BounceReader {

    private static final String REPORTS = "delivery-status";

    private BounceReader() {}

    /** @param message as it was received, headers and all */
    static BounceReading read(byte[] message) {
        try {
            return read(new MimeMessage(Session.getInstance(new Properties()), new ByteArrayInputStream(message)));
        } catch (MessagingException | IOException unreadable) {
            return noReport();
        }
    }

    private static BounceReading read(MimeMessage message) throws MessagingException, IOException {
        if (!isReport(message) || !(message.getContent() instanceof Multipart parts)) {
            return noReport();
        }
        var groups = new ArrayList<InternetHeaders>();
        var about = Optional.<MessageId>empty();
        for (var at = 0; at < parts.getCount(); at++) {
            var part = parts.getBodyPart(at);
            if (part.isMimeType("message/delivery-status") || part.isMimeType("message/global-delivery-status")) {
                groups.addAll(groups(part));
            } else if (part.isMimeType("message/rfc822") || part.isMimeType("text/rfc822-headers")) {
                about = about.or(() -> returned(part));
            }
        }
        var named = about.or(() -> answered(message));
        var recipients = groups.stream()
                .filter(group -> !value(group, "Action").isEmpty())
                .toList();
        if (recipients.isEmpty()) {
            return noReport();
        }
        return recipients.stream()
                .filter(group -> value(group, "Action").toLowerCase(Locale.ROOT).startsWith("failed"))
                .findFirst()
                .<BounceReading>map(group -> new BounceReading.Undelivered(
                        named,
                        untyped(value(group, "Final-Recipient")),
                        value(group, "Status").split("[\\s(]", 2)[0],
                        untyped(value(group, "Diagnostic-Code"))))
                .orElseGet(() -> new BounceReading.NoBounce(
                        recipients.stream()
                                        .anyMatch(
                                                group -> value(group, "Action").equalsIgnoreCase("delayed"))
                                ? "This report says that the message is delayed and will be tried again. Nothing is to be done yet."
                                : "This report says that the message was delivered."));
    }

    private static BounceReading noReport() {
        return new BounceReading.NoBounce(
                "This is no delivery report that can be read here. Save the message that came back"
                        + " as a file (.eml), with all its parts, and bring that.");
    }

    private static boolean isReport(Part message) throws MessagingException {
        try {
            var type = new ContentType(message.getContentType());
            return type.match("multipart/report")
                    && REPORTS.equalsIgnoreCase(String.valueOf(type.getParameter("report-type")));
        } catch (ParseException none) {
            return false;
        }
    }

    /** The groups of fields, which empty lines divide: first of the message, then of each recipient. */
    private static List<InternetHeaders> groups(BodyPart part) throws MessagingException, IOException {
        var groups = new ArrayList<InternetHeaders>();
        var text = new String(part.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        for (var group : text.split("\\r?\\n[ \\t]*\\r?\\n", -1)) {
            if (!group.isBlank()) {
                groups.add(new InternetHeaders(
                        new ByteArrayInputStream((group.strip() + "\r\n\r\n").getBytes(StandardCharsets.UTF_8)), true));
            }
        }
        return groups;
    }

    private static Optional<MessageId> returned(BodyPart part) {
        try {
            return id(new InternetHeaders(part.getInputStream(), true));
        } catch (MessagingException | IOException unreadable) {
            return Optional.empty();
        }
    }

    private static Optional<MessageId> id(InternetHeaders headers) {
        return MessageId.read(value(headers, "Message-ID"));
    }

    /** Some servers bring nothing back, but say what they answer. */
    private static Optional<MessageId> answered(MimeMessage report) {
        try {
            for (var name : List.of("In-Reply-To", "References", "X-Original-Message-ID")) {
                for (var id : Optional.ofNullable(report.getHeader(name, " "))
                        .orElse("")
                        .split("\\s+", -1)) {
                    var ours = MessageId.read(id);
                    if (ours.isPresent()) {
                        return ours;
                    }
                }
            }
        } catch (MessagingException unreadable) {
            return Optional.empty();
        }
        return Optional.empty();
    }

    /** A field unfolded; empty if it is not there. */
    private static String value(InternetHeaders headers, String name) {
        return Optional.ofNullable(headers.getHeader(name, " "))
                .map(value -> value.replaceAll("\\s*\\r?\\n\\s*", " ").strip())
                .orElse("");
    }

    /** What stands behind the type, as in {@code rfc822;somebody@example} (RFC 3464, section 2.1.2). */
    private static String untyped(String value) {
        return value.substring(value.indexOf(';') + 1).strip();
    }
}
