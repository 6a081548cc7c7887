package limbqueue.calendar;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import limbqueue.booking.SessionKind;
import limbqueue.calendar.CalendarOf.Kind;
import limbqueue.timetable.CalendarSession;
import limbqueue.triage.TriageResult;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.data.ParserException;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.Component;
import net.fortuna.ical4j.model.Property;
import net.fortuna.ical4j.model.component.CalendarComponent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Sections are those of RFC 5545, Internet Calendaring and Scheduling Core Object Specification. */
class CalendarTextTest {

    private static final CalendarOf ROOM = new CalendarOf(Kind.PLACE, "Angiography room");
    private static final UUID UID = UUID.fromString("5f0f47c1-2b0c-4d5a-9c11-3c4d7e0b9a21");
    private static final CalendarSession SESSION = new CalendarSession(
            UID,
            SessionKind.PROCEDURE_ROOM,
            Instant.parse("2026-03-05T08:00:00Z"),
            Instant.parse("2026-03-05T12:00:00Z"),
            "Angiography room",
            "Dr Halvern",
            false,
            3,
            4,
            Instant.parse("2026-03-02T09:30:15.123456Z"));

    @Test
    void anotherReaderFindsInItWhatWasWritten() throws Exception {
        var calendar = read(CalendarText.of(ROOM, List.of(SESSION)));

        assertThat(calendar.validate().hasErrors()).isFalse();
        // Sections 3.7.3 and 3.7.4: both are required.
        assertThat(calendar.getProperty(Property.PRODID)).isPresent();
        assertThat(calendar.getProperty(Property.VERSION))
                .get()
                .extracting(Property::getValue)
                .isEqualTo("2.0");
        var event = event(calendar);
        assertThat(value(event, Property.UID)).isEqualTo(UID.toString());
        assertThat(value(event, Property.SUMMARY)).isEqualTo("Procedure room, 3 cases");
        assertThat(value(event, Property.LOCATION)).isEqualTo("Angiography room");
        assertThat(value(event, Property.DESCRIPTION)).isEqualTo("Operator: Dr Halvern\n" + TriageResult.NOTICE);
        assertThat(value(event, Property.STATUS)).isEqualTo("CONFIRMED");
        assertThat(value(event, Property.SEQUENCE)).isEqualTo("4");
    }

    /** Section 3.3.5, form 2: date with UTC time; sections 3.8.7.2 and 3.8.7.3 ask for it of DTSTAMP and LAST-MODIFIED. */
    @Test
    void timesAreInUtcToTheSecond() {
        assertThat(CalendarText.of(ROOM, List.of(SESSION)))
                .contains("\r\nDTSTART:20260305T080000Z\r\n")
                .contains("\r\nDTEND:20260305T120000Z\r\n")
                .contains("\r\nDTSTAMP:20260302T093015Z\r\n")
                .contains("\r\nLAST-MODIFIED:20260302T093015Z\r\n");
    }

    /** Section 3.3.11: backslash, semicolon, comma and the end of a line are escaped, other control characters are not allowed. */
    @Test
    void textIsEscapedAndHasNoControlCharacters() throws Exception {
        var typed = "Room 1; left, or \\ right: \"old\" wing";
        var text = CalendarText.of(ROOM, List.of(in(typed)));

        assertThat(unfolded(text)).contains("\r\nLOCATION:Room 1\\; left\\, or \\\\ right: \"old\" wing\r\n");
        assertThat(value(event(read(text)), Property.LOCATION)).isEqualTo(typed);

        var forged = CalendarText.of(ROOM, List.of(in("Room\r\nSTATUS:CANCELLED\u0007")));
        assertThat(value(event(read(forged)), Property.STATUS)).isEqualTo("CONFIRMED");
        assertThat(forged.replace("\r\n", "")).doesNotContainPattern("\\p{Cc}");
    }

    /** The two spellings of one line that section 3.1 prints. */
    @Test
    void aLineIsFoldedAsTheStandardShows() {
        var line = "DESCRIPTION:This is a long description that exists on a long line.";
        assertThat(unfolded("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line."))
                .isEqualTo(line);
        assertThat(FoldedLines.of(line + "\r\n")).isEqualTo(line + "\r\n");
    }

    /** Section 3.1: lines of at most 75 octets, ended by CRLF. No character is cut in two. */
    @ParameterizedTest
    @ValueSource(strings = {"a", "ß", "\u2014", "\uD83E\uDDB5", "aß\u2014\uD83E\uDDB5"})
    void noLineIsLongerThan75OctetsAndNothingIsLost(String piece) throws Exception {
        for (var length = 1; length <= 80; length++) {
            var place = piece.repeat(length);
            var text = CalendarText.of(ROOM, List.of(in(place)));

            assertThat(text).endsWith("\r\n");
            assertThat(text.replace("\r\n", "")).doesNotContain("\r").doesNotContain("\n");
            assertThat(text.split("\r\n")).allSatisfy(line -> {
                assertThat(line.getBytes(StandardCharsets.UTF_8)).hasSizeLessThanOrEqualTo(75);
                assertThat(StandardCharsets.UTF_8.newEncoder().canEncode(line)).isTrue();
            });
            assertThat(value(event(read(text)), Property.LOCATION)).isEqualTo(place);
        }
    }

    /** Sections 3.8.1.11 and 3.8.2.7: cancelled, and nobody is busy with it. */
    @Test
    void aClosedSessionIsCancelledUnderTheSameName() throws Exception {
        var closed = new CalendarSession(
                UID,
                SESSION.kind(),
                SESSION.start(),
                SESSION.end(),
                SESSION.place(),
                SESSION.operator(),
                true,
                3,
                5,
                SESSION.changed().plusSeconds(60));
        var event = event(read(CalendarText.of(ROOM, List.of(closed))));

        assertThat(value(event, Property.UID)).isEqualTo(UID.toString());
        assertThat(value(event, Property.STATUS)).isEqualTo("CANCELLED");
        assertThat(value(event, Property.TRANSP)).isEqualTo("TRANSPARENT");
        assertThat(value(event, Property.SUMMARY)).isEqualTo("Procedure room, closed");
    }

    /** Section 3.6: {@code icalbody = calprops component}, and {@code component} is one or more. */
    @Test
    void aCalendarWithoutSessionsIsACalendarAllTheSame() throws Exception {
        var calendar = read(CalendarText.of(ROOM, List.of()));

        assertThat(calendar.getComponents(Component.VEVENT)).isEmpty();
        assertThat(calendar.getComponents()).hasSize(1);
        assertThat(calendar.validate().hasErrors()).isFalse();
    }

    @Test
    void theSameSessionsGiveTheSameText() {
        assertThat(CalendarText.of(ROOM, List.of(SESSION))).isEqualTo(CalendarText.of(ROOM, List.of(SESSION)));
    }

    private static CalendarSession in(String place) {
        return new CalendarSession(
                UID,
                SESSION.kind(),
                SESSION.start(),
                SESSION.end(),
                place,
                SESSION.operator(),
                false,
                1,
                0,
                SESSION.changed());
    }

    /** As section 3.1 says: a line break with one blank or tab behind it is taken out. */
    private static String unfolded(String text) {
        return text.replaceAll("\r\n[ \t]", "");
    }

    private static Calendar read(String text) throws IOException, ParserException {
        return new CalendarBuilder().build(new StringReader(text));
    }

    private static CalendarComponent event(Calendar calendar) {
        var events = calendar.<CalendarComponent>getComponents(Component.VEVENT);
        assertThat(events).hasSize(1);
        return events.getFirst();
    }

    private static String value(CalendarComponent event, String name) {
        var properties = event.<Property>getProperties(name);
        assertThat(properties).as(name).hasSize(1);
        return properties.getFirst().getValue();
    }
}
