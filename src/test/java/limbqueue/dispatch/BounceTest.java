package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.UUID;
import limbqueue.dispatch.BounceReading.NoBounce;
import limbqueue.dispatch.BounceReading.Undelivered;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Delivery status notifications (RFC 3464). */
class BounceTest {

    /**
     * The first example of RFC 3464, appendix E, a simple report (read in copies of the text); the original message is left
     * out there, too.
     */
    private static final String SIMPLE_DSN = """
            Date: Thu, 7 Jul 1994 17:16:05 -0400
            From: Mail Delivery Subsystem <MAILER-DAEMON@CS.UTK.EDU>
            Message-Id: <199407072116.RAA14128@CS.UTK.EDU>
            Subject: Returned mail: Cannot send message for 5 days
            To: <owner-info-mime@cs.utk.edu>
            MIME-Version: 1.0
            Content-Type: multipart/report; report-type=delivery-status;
                  boundary="RAA14128.773615765/CS.UTK.EDU"

            --RAA14128.773615765/CS.UTK.EDU

            The original message was received at Sat, 2 Jul 1994 17:10:28 -0400
            from root@localhost

               ----- The following addresses had delivery problems -----
            <louisl@larry.slip.umd.edu>  (unrecoverable error)

            ----- Transcript of session follows -----
            <louisl@larry.slip.umd.edu>... Deferred: Connection timed out
                  with larry.slip.umd.edu.
            Message could not be delivered for 5 days
            Message will be deleted from queue

            --RAA14128.773615765/CS.UTK.EDU
            content-type: message/delivery-status

            Reporting-MTA: dns; cs.utk.edu

            Original-Recipient: rfc822;louisl@larry.slip.umd.edu
            Final-Recipient: rfc822;louisl@larry.slip.umd.edu
            Action: failed
            Status: 4.0.0
            Diagnostic-Code: smtp; 426 connection timed out
            Last-Attempt-Date: Thu, 7 Jul 1994 17:15:49 -0400

            --RAA14128.773615765/CS.UTK.EDU
            content-type: message/rfc822

            [original message goes here]

            --RAA14128.773615765/CS.UTK.EDU--
            """;

    private static final MessageId OURS = new MessageId(UUID.fromString("0b1d7c1e-4d5f-4c1b-9a57-2f6f0e8d3c44"), 2);

    @Test
    void theExampleOfTheStandardIsRead() {
        assertThat(read(SIMPLE_DSN))
                .isEqualTo(new Undelivered(
                        Optional.empty(), "louisl@larry.slip.umd.edu", "4.0.0", "426 connection timed out"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"message/rfc822", "text/rfc822-headers"})
    void ourMessageIsKnownByWhatComesBack(String type) {
        var report = SIMPLE_DSN
                .replace("content-type: message/rfc822", "content-type: " + type)
                .replace(
                        "[original message goes here]",
                        "From: letters@hollinbridge.example\nMessage-ID: " + OURS.at("hollinbridge.example")
                                + "\nSubject: Letter");
        assertThat(read(report))
                .isInstanceOfSatisfying(
                        Undelivered.class,
                        bounce -> assertThat(bounce.message()).contains(OURS));
    }

    @Test
    void ourMessageIsKnownByWhatIsAnswered() {
        var report = SIMPLE_DSN.replace(
                "MIME-Version: 1.0",
                "References: <other@example> " + OURS.at("hollinbridge.example") + "\nMIME-Version: 1.0");
        assertThat(read(report))
                .isInstanceOfSatisfying(
                        Undelivered.class,
                        bounce -> assertThat(bounce.message()).contains(OURS));
    }

    @Test
    void aMessageOfSomebodyElseIsNotTakenForOurs() {
        var report = SIMPLE_DSN.replace("[original message goes here]", "Message-ID: <0b1d7c1e.2@other.example>");
        assertThat(read(report))
                .isInstanceOfSatisfying(
                        Undelivered.class,
                        bounce -> assertThat(bounce.message()).isEmpty());
    }

    /** The actions of RFC 3464, section 2.3.3; only the first means that it did not arrive. */
    @ParameterizedTest
    @CsvSource({"failed, true", "delayed, false", "delivered, false", "relayed, false", "expanded, false"})
    void onlyAFailureIsABounce(String action, boolean bounced) {
        assertThat(read(SIMPLE_DSN.replace("Action: failed", "Action: " + action)) instanceof Undelivered)
                .isEqualTo(bounced);
    }

    @Test
    void aDiagnosisOverSeveralLinesIsOneSentence() {
        var report = SIMPLE_DSN
                .replace("Status: 4.0.0", "Status: 5.1.1 (no such user)")
                .replace("smtp; 426 connection timed out", "smtp; 550 5.1.1 No\n    such user here");
        assertThat(read(report)).isInstanceOfSatisfying(Undelivered.class, bounce -> {
            assertThat(bounce.status()).isEqualTo("5.1.1");
            assertThat(bounce.said()).isEqualTo("550 5.1.1 No such user here");
            assertThat(BounceWords.of(bounce))
                    .isEqualTo("It came back: there is no such mailbox (5.1.1)."
                            + " The other mail server said: 550 5.1.1 No such user here");
        });
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "no message at all",
                "Subject: Hello\n\nHow are you?",
                "Content-Type: multipart/report\n\n--x\n\n--x--",
                "Content-Type: multipart/report; report-type=disposition-notification; boundary=x\n\n--x\n\nread\n--x--",
                "Content-Type: ;;;\n\n\u0000\u0001"
            })
    void whatIsNoReportIsSaidToBeNone(String message) {
        assertThat(read(message))
                .isInstanceOfSatisfying(
                        NoBounce.class, none -> assertThat(none.why()).contains(".eml"));
    }

    private static BounceReading read(String message) {
        return BounceReader.read(message.replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8));
    }
}
