package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import limbqueue.referral.Referrals;
import limbqueue.referral.TimelineEntry;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.PrintedPage;
import limbqueue.testbed.Staff;
import limbqueue.testbed.WindowEnvelope;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/** What the office does about letters on their way. All people and places are invented. */
@OnPostgres
class DeskIT {

    @Autowired
    private Dispatches dispatches;

    @Autowired
    private DaysPost post;

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
    void aLetterIsHeldWithAReasonAndReleased() {
        var letter = room.letter(room.byEmail("Dr Sid Flint", "sid@millbeck.example"));
        assertThatThrownBy(() -> office(() -> dispatches.hold(way(letter), " ")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("Say why");
        var seen = way(letter);
        office(() -> dispatches.hold(seen, "Wait for the call."));
        assertThat(way(letter))
                .returns(DispatchState.HELD, Dispatch::state)
                .returns("Wait for the call.", Dispatch::why)
                .returns("Wren Halloway", Dispatch::author);
        sendDue();
        assertThat(room.arrived("sid@millbeck.example")).isEmpty();
        assertThatThrownBy(() -> office(() -> dispatches.release(seen)))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("moved on meanwhile");

        office(() -> dispatches.release(way(letter)));
        sendDue();

        assertThat(room.arrived("sid@millbeck.example")).hasSize(1);
    }

    @Test
    void aLetterGoesAnotherWayAndItsFirstWayIsClosed() {
        var letter = room.letter(room.byEmail("Dr Tess Gorse", "tess at millbeck"));
        assertThatThrownBy(() -> office(() -> dispatches.send(way(letter), Channel.EMAIL, "tess@")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("needs a name, an @ and a domain");
        assertThatThrownBy(() -> office(() -> dispatches.send(way(letter), Channel.FAX, "0555 01 1")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("No fax gateway");

        office(() -> dispatches.send(way(letter), Channel.EMAIL, "tess@millbeck.example"));
        sendDue();

        assertThat(room.arrived("tess@millbeck.example")).hasSize(1);
    }

    @Test
    void aLetterThatCameBackIsATaskUntilItIsSentAgainAsANewMessage() throws Exception {
        var referral = room.byEmail("Dr Una Hurst", "una@millbeck.example");
        var letter = room.letter(referral);
        sendDue();
        var first = room.arrived("una@millbeck.example").getFirst().getMessageID();

        assertThat(office(() -> dispatches.cameBack(report(first)))).contains(letter.reference(), "Bounced");
        assertThat(line(letter).pile()).isEqualTo(DeskPile.BOUNCED);
        assertThat(way(letter).why())
                .isEqualTo("It came back: there is no such mailbox (5.1.1)."
                        + " The other mail server said: 550 5.1.1 No such user");
        assertThatThrownBy(() -> office(() -> dispatches.cameBack(report(first))))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("has been seen to");

        office(() -> dispatches.send(way(letter), Channel.EMAIL, "una.hurst@millbeck.example"));
        sendDue();

        var second = room.arrived("una.hurst@millbeck.example").getFirst().getMessageID();
        assertThat(second).isNotEqualTo(first).isEqualTo(first.replace(".1@", ".2@"));
        assertThat(line(letter).pile()).isEqualTo(DeskPile.SENT);
        assertThat(staff.as("coordinator", () -> referrals.timeline(referral.id())))
                .extracting(TimelineEntry::what)
                .anyMatch(what -> what.contains("una@millbeck.example") && what.contains("came back"))
                .anyMatch(what -> what.startsWith("sent") && what.contains("una.hurst@millbeck.example"));
    }

    @Test
    void whatCameBackThatWasNotSentFromHereChangesNothing() {
        assertThatThrownBy(() -> office(() -> dispatches.cameBack(report("<someone@else.example>"))))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("was not sent from here");
        assertThatThrownBy(() -> office(() -> dispatches.cameBack(new byte[] {1, 2, 3})))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("no delivery report");
    }

    @Test
    void theDaysPostIsOneFileAndIsRecordedWhenItIsPosted() throws Exception {
        var one = room.letter(
                room.referred("Dr Val Inch", "\"address\": \"1 High Street\\nMillbeck\", \"prefers\": \"post\""));
        var referral = room.referred("Dr Wim Jory", "\"address\": \"2 High Street\\nMillbeck\", \"prefers\": \"post\"");
        var two = room.letter(referral);
        var tooEarly = room.letter(room.returned(referral).referral());

        var batch = office(post::waiting);

        assertThat(batch)
                .extracting(Dispatch::letterId)
                .contains(one.id(), two.id())
                .doesNotContain(tooEarly.id());
        try (var document = Loader.loadPDF(office(() -> post.batch(batch)))) {
            assertThat(document.getNumberOfPages())
                    .as("each on a sheet of its own")
                    .isEqualTo(2 * batch.size());
            assertThat(new PDFTextStripper().getText(document))
                    .containsSubsequence("Dr Val Inch", "1 High Street", "Dr Wim Jory", "2 High Street");
            var first = 1;
            for (var way : batch) {
                WindowEnvelope.DL.assertShows(
                        PrintedPage.lines(document, first),
                        outgoing.parts(way.letterId()).addressee(),
                        sender(way));
                first += 2;
            }
        }
        office(() -> dispatches.hold(way(two), "He has moved."));
        assertThat(office(() -> post.posted(batch))).isEqualTo(batch.size() - 1);
        assertThat(office(() -> post.posted(batch))).as("once").isZero();
        assertThat(way(one)).returns(DispatchState.SENT, Dispatch::state).returns("Wren Halloway", Dispatch::author);
        assertThat(outgoing.letter(one.id()).sentBy()).contains("Wren Halloway");
        assertThat(way(two).state()).isEqualTo(DispatchState.HELD);
    }

    @Test
    void aLetterThatCameBackIsDoneWithByHand() throws Exception {
        var letter = room.letter(room.byEmail("Dr Xia Kell", "xia@millbeck.example"));
        sendDue();
        var id = room.arrived("xia@millbeck.example").getFirst().getMessageID();
        office(() -> dispatches.cameBack(report(id)));

        office(() -> dispatches.markSent(letter.id()));

        assertThat(line(letter).pile()).isEqualTo(DeskPile.SENT);
        assertThat(way(letter).author()).isEqualTo("Wren Halloway");
    }

    @Test
    void aPhysicianLooksOnAndAManagerSeesNothing() {
        var letter = room.letter(room.byEmail("Dr Yan Lorn", "yan@millbeck.example"));
        assertThat(staff.as("physician", dispatches::lines)).contains(line(letter));
        for (var act : List.<Runnable>of(
                () -> dispatches.hold(way(letter), "Wait."),
                () -> dispatches.release(way(letter)),
                () -> dispatches.send(way(letter), Channel.EMAIL, "a@b.example"),
                () -> dispatches.markSent(letter.id()),
                () -> dispatches.cameBack(new byte[0]),
                post::waiting,
                () -> post.batch(List.of()),
                () -> post.posted(List.of()))) {
            assertThatThrownBy(() -> staff.as("physician", () -> done(act))).isInstanceOf(AccessDeniedException.class);
        }
        assertThatThrownBy(() -> staff.as("manager", dispatches::lines)).isInstanceOf(AccessDeniedException.class);
    }

    private String sender(Dispatch way) {
        var head = outgoing.parts(way.letterId()).letterhead();
        return String.join(
                " · ",
                Stream.concat(Stream.of(head.name()), head.lines().stream()).toList());
    }

    private void sendDue() {
        room.clock.forward(Duration.ofSeconds(1));
        room.sending(room.server(), store, outgoing, destinations, transaction).sendDue();
    }

    private Dispatch way(Letter letter) {
        return store.of(letter.id()).getFirst();
    }

    private DeskLine line(Letter letter) {
        return staff.as("coordinator", dispatches::lines).stream()
                .filter(line -> line.letter().id() == letter.id())
                .findFirst()
                .orElseThrow();
    }

    private void office(Runnable act) {
        staff.as("coordinator", () -> done(act));
    }

    private <T> T office(java.util.function.Supplier<T> act) {
        return staff.as("coordinator", act::get);
    }

    private static boolean done(Runnable act) {
        act.run();
        return true;
    }

    /** A report in the form of RFC 3464, with the headers of the message only. */
    private static byte[] report(String messageId) {
        return """
                From: Mail Delivery Subsystem <mailer-daemon@millbeck.example>
                To: letters@hollinbridge.example
                Subject: Undelivered
                MIME-Version: 1.0
                Content-Type: multipart/report; report-type=delivery-status; boundary="part"

                --part
                Content-Type: text/plain

                Your message could not be delivered.
                --part
                Content-Type: message/delivery-status

                Reporting-MTA: dns; mail.millbeck.example

                Final-Recipient: rfc822; una@millbeck.example
                Action: failed
                Status: 5.1.1
                Diagnostic-Code: smtp; 550 5.1.1 No such user

                --part
                Content-Type: text/rfc822-headers

                Message-ID: %s
                Subject: Letter

                --part--
                """.formatted(messageId).replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8);
    }
}
