package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import jakarta.mail.internet.MimeMultipart;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.directory.ReferrersOnFile;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.dispatch.jdbc.Turns;
import limbqueue.letter.Letter;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

/** Letters that leave by e-mail and fax, through a real SMTP server. All people and places are invented. */
@OnPostgres
class DispatchIT {

    @Autowired
    private OutboxStore store;

    @Autowired
    private OutgoingLetters outgoing;

    @Autowired
    private ReferrersOnFile referrers;

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private Turns turns;

    @Autowired
    private JdbcClient jdbc;

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
    void aLetterArrivesOnceAndItsWordsAreThoseOfThePdfThatCameWithIt() throws Exception {
        var referral = room.byEmail("Dr Maud Ferrier", "maud.ferrier@millbeck.example");
        var sending = sending(room.server());

        sending.sendDue();
        sending.sendDue();
        sending(room.server()).sendDue();

        var arrived = room.arrived("maud.ferrier@millbeck.example");
        assertThat(arrived).hasSize(1);
        var message = arrived.getFirst();
        assertThat(message.getSubject()).contains(referral.reference()).doesNotContain("Ångström");
        assertThat(message.getFrom()[0].toString()).contains(PostRoom.SENDER);
        var parts = (MimeMultipart) message.getContent();
        assertThat(parts.getBodyPart(0).getContent().toString())
                .contains(referral.reference())
                .doesNotContain("Ångström", "Zoë");
        var pdf = parts.getBodyPart(1).getInputStream().readAllBytes();
        assertThat(parts.getBodyPart(1).getContentType()).contains("application/pdf");
        try (var document = Loader.loadPDF(pdf)) {
            assertThat(new PDFTextStripper().getText(document))
                    .contains("Zoë Ångström-Łuczak", "Your referral has reached us");
        }
        var letter = room.letter(referral);
        assertThat(letter.sentBy()).contains("LimbQueue");
        assertThat(dispatch(letter).state()).isEqualTo(DispatchState.SENT);
        assertThat(message.getMessageID()).isEqualTo("<" + dispatch(letter).token() + ".1@hollinbridge.example>");
    }

    /** Two servers that take turns as they do in the application. */
    @Test
    void ofTwoServersThatSendAtOnceEachLetterComesFromOne() throws Exception {
        var addresses = IntStream.range(0, 8)
                .mapToObj(number -> "two.servers" + number + "@millbeck.example")
                .toList();
        addresses.forEach(address -> room.byEmail("Dr " + address.substring(0, 12), address));
        try (var here = turns.take("send-letters", Duration.ofMillis(200), sending(room.server())::sendDue);
                var there = turns.take("send-letters", Duration.ofMillis(200), sending(room.server())::sendDue)) {
            assertThat(List.of(here, there)).doesNotHaveDuplicates();
            var until = System.nanoTime() + Duration.ofSeconds(20).toNanos();
            while (System.nanoTime() < until
                    && addresses.stream()
                            .anyMatch(address -> room.arrived(address).isEmpty())) {
                Thread.sleep(100);
            }
            // Time for a second one, were there any.
            Thread.sleep(1000);
        }
        assertThat(addresses)
                .allSatisfy(address -> assertThat(room.arrived(address)).hasSize(1));
    }

    /** Even without taking turns. */
    @Test
    void whoeverLooksAtOnceFindsDifferentLetters() throws Exception {
        var addresses = IntStream.range(0, 8)
                .mapToObj(number -> "at.once" + number + "@millbeck.example")
                .toList();
        addresses.forEach(address -> room.byEmail("Dr " + address.substring(0, 8), address));
        var threads = IntStream.range(0, 4)
                .mapToObj(_ -> Thread.ofPlatform().start(sending(room.server())::sendDue))
                .toList();
        for (var thread : threads) {
            thread.join();
        }
        assertThat(addresses)
                .allSatisfy(address -> assertThat(room.arrived(address)).hasSize(1));
    }

    @Test
    void aFaxGoesToTheGatewayByItsNumber() throws Exception {
        room.referred("Dr Ivo Fernsby", "\"fax\": \"+44 (555) 01-3300\", \"prefers\": \"fax\"");
        // The application of the tests has no gateway, so the letter is held as that is said; here there is one.
        var held = dispatch(newest());
        assertThat(held.state()).isEqualTo(DispatchState.HELD);
        assertThat(held.why()).contains("No fax gateway is set up here");
        store.move(held, DispatchState.TO_SEND, held.address(), "", held.dueAt(), "Wren Halloway", held.at());

        sending(room.server()).sendDue();

        assertThat(room.arrived("+44555013300@fax.example")).hasSize(1);
    }

    @Test
    void aLetterThatCannotReachAnybodyIsHeldAndSaysWhyAndWhatToDo() {
        room.byEmail("Dr Ada Crake", "ada crake@millbeck.example");
        assertThat(dispatch(newest()))
                .returns(DispatchState.HELD, Dispatch::state)
                .satisfies(held -> assertThat(held.why())
                        .contains("ada crake@millbeck.example", "before the @", "Correct it in the directory"));

        room.referred("Dr Bo Hale", "\"phone\": \"0555 01 4400\"");
        assertThat(dispatch(newest()).why()).contains("Nothing is known of how Dr Bo Hale is reached");

        room.referred("Dr Cy Lund", "\"prefers\": \"post\"");
        assertThat(dispatch(newest()).why()).contains("names no street or town", "Dr Cy Lund");

        room.referred("Dr Di Moss", "\"address\": \"1 A Street\\n2 B\\n3 C\\n4 D\\n5 E\\n6 F\"");
        assertThat(dispatch(newest()).why()).contains("7 lines", "shows 6");

        room.referred(
                "Dr Ed Pell", "\"address\": \"The house at the end of the very long lane behind the mill\\nMillbeck\"");
        assertThat(dispatch(newest()).why())
                .contains("mm wide", "shows 75 mm", "behind the mill", "write the envelope by hand");

        room.byEmail("Dr 山田", "yamada@millbeck.example");
        assertThat(dispatch(newest()))
                .returns(DispatchState.HELD, Dispatch::state)
                .satisfies(held -> assertThat(held.why())
                        .contains("“山田”", "in the referral", "written by hand and marked as sent"));

        sending(room.server()).sendDue();
        assertThat(room.arrived("ada crake@millbeck.example")).isEmpty();
        assertThat(room.arrived("yamada@millbeck.example")).isEmpty();
    }

    @Test
    void whatIsCorrectedInTheDirectoryCountsUntilTheLetterIsTried() throws Exception {
        room.byEmail("Dr Eve Orrin", "eve@old.example");
        jdbc.sql("update directory_entry set email = 'eve@new.example' where name = 'Dr Eve Orrin'")
                .update();

        sending(room.server()).sendDue();

        assertThat(room.arrived("eve@old.example")).isEmpty();
        assertThat(room.arrived("eve@new.example")).hasSize(1);
        assertThat(dispatch(newest()).address()).isEqualTo("eve@new.example");
    }

    @Test
    void aServerThatKnowsNoTlsIsGivenNothing() {
        room.byEmail("Dr Fay Pike", "fay@millbeck.example");

        sending(new SmtpServer(Optional.of(room.sender()), PostRoom.SENDER)).sendDue();

        assertThat(room.arrived("fay@millbeck.example")).isEmpty();
        var waiting = dispatch(newest());
        assertThat(waiting.state()).isEqualTo(DispatchState.TO_SEND);
        assertThat(waiting.why()).contains("STARTTLS");
        assertThat(waiting.attempts()).isEqualTo(1);
        sending(room.server()).sendDue();
        assertThat(room.arrived("fay@millbeck.example"))
                .as("not before its time")
                .isEmpty();
        room.clock.forward(BackOff.FIRST.plusSeconds(1));
        sending(room.server()).sendDue();
        assertThat(room.arrived("fay@millbeck.example")).hasSize(1);
    }

    @Test
    void withoutAMailServerLettersStay() {
        room.byEmail("Dr Gil Rusk", "gil@millbeck.example");

        sending(new SmtpServer(Optional.empty(), PostRoom.SENDER)).sendDue();
        sending(new SmtpServer(Optional.of(room.sender()), " ")).sendDue();

        assertThat(dispatch(newest()))
                .returns(DispatchState.TO_SEND, Dispatch::state)
                .returns(0, Dispatch::attempts);
    }

    @Test
    void aLetterMarkedByHandDoesNotLeaveAgain() {
        var referral = room.byEmail("Dr Hal Sorn", "hal@millbeck.example");
        staff.as("coordinator", () -> letters.markSent(room.letter(referral).id()));

        sending(room.server()).sendDue();

        assertThat(room.arrived("hal@millbeck.example")).isEmpty();
        assertThat(dispatch(room.letter(referral)))
                .returns(DispatchState.SENT, Dispatch::state)
                .returns("Wren Halloway", Dispatch::author);
    }

    @Test
    void theDatabaseKeepsEveryStepAndLetsNothingLeaveTwiceOrEarly() {
        var referral = room.byEmail("Dr Ina Thorpe", "ina@millbeck.example");
        sending(room.server()).sendDue();
        var sent = dispatch(room.letter(referral));
        assertThat(jdbc.sql("select state from outbox_step where outbox = :id order by version")
                        .param("id", sent.id())
                        .query(String.class)
                        .list())
                .containsExactly("TO_SEND", "SENDING", "SENT");
        var decided = room.returned(referral);
        var early = dispatch(room.letter(decided.referral()));
        for (var sql : List.of(
                "update outbox set state = 'TO_SEND', version = version + 1 where id = " + sent.id(),
                "update outbox set state = 'SENDING', claimed_at = now(), version = version + 1 where id = "
                        + early.id(),
                "update outbox set due_at = now(), version = version + 1 where id = " + early.id(),
                "update outbox set leaves_from = now(), version = version + 1 where id = " + early.id(),
                "update outbox set token = gen_random_uuid(), version = version + 1 where id = " + early.id(),
                "update outbox set why = 'x' where id = " + early.id(),
                "delete from outbox where id = " + early.id(),
                "delete from outbox_step where outbox = " + sent.id())) {
            assertThatThrownBy(() -> jdbc.sql(sql).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    private Sending sending(MailServer server) {
        return room.sending(
                server,
                store,
                outgoing,
                new Destinations(referrers, outgoing, new FaxGateway(PostRoom.GATEWAY)),
                transaction);
    }

    private Letter newest() {
        return outgoing.letter(
                jdbc.sql("select max(id) from letter").query(Long.class).single());
    }

    private Dispatch dispatch(Letter letter) {
        return store.of(letter.id()).getFirst();
    }
}
