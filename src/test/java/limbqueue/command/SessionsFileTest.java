package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.stream.Collectors;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sessions that repeat, closures and bank holidays, as a file has them. */
class SessionsFileTest {

    private static final String CLINIC = """
            {"id": "clinic", "kind": "clinic", "date": "2026-03-23", "start": "08:00", "end": "12:00", "place": "Room 1",
             "operator": "Dr Imre", "repeats": "FREQ=WEEKLY;UNTIL=20260413"}""";

    private static SessionsFile.Result read(String more, String... sessions) throws IOException {
        var json = "{\"zone\": \"Europe/Vienna\"%s, \"sessions\": [%s]}".formatted(more, String.join(", ", sessions));
        return SessionsFile.read(new ByteArrayInputStream(json.getBytes(StandardCharsets.UTF_8)));
    }

    private static String shown(SessionsFile.Result result) {
        assertThat(result.problems()).isEmpty();
        return result.file().orElseThrow().sessions().stream()
                .map(SessionsFileTest::shown)
                .collect(Collectors.joining(", "));
    }

    private static String shown(Session session) {
        return session.id()
                + (session.closed()
                        ? session.closedFor().map(" (%s)"::formatted).orElse(" (closed)")
                        : "");
    }

    private static String problems(SessionsFile.Result result) {
        assertThat(result.file()).isEmpty();
        return Options.problems(result.problems());
    }

    @Test
    void aSessionThatRepeatsIsThereOnEachOfItsDaysUnderANameOfItsOwn() throws IOException {
        assertThat(shown(read("", CLINIC)))
                .isEqualTo("clinic-2026-03-23, clinic-2026-03-30, clinic-2026-04-06, clinic-2026-04-13");
    }

    @Test
    void aSessionOnABankHolidayIsClosedUnlessItSaysOtherwiseAndThatIsRemarked() throws IOException {
        var result = read(", \"holidays\": \"AT\"", CLINIC);
        assertThat(shown(result))
                .isEqualTo(
                        "clinic-2026-03-23, clinic-2026-03-30, clinic-2026-04-06 (Easter Monday), clinic-2026-04-13");
        assertThat(result.file().orElseThrow().remarks())
                .containsExactly("2026-04-06 is a bank holiday (Easter Monday), so these are closed: clinic-2026-04-06."
                        + " Write \"onHolidays\": true where one takes place all the same.");
        var open = read(", \"holidays\": \"AT\"", CLINIC.replace("\"repeats\"", "\"onHolidays\": true, \"repeats\""));
        assertThat(shown(open)).doesNotContain("Easter");
        assertThat(open.file().orElseThrow().remarks()).isEmpty();
    }

    @Test
    void aClosureClosesItsDaysEverywhereOrAtAPlaceOrWithAnOperator() throws IOException {
        var other = CLINIC.replace("\"clinic\", \"kind\"", "\"other\", \"kind\"")
                .replace("Room 1", "Room 2")
                .replace("Dr Imre", "Dr Halvern");
        assertThat(shown(read(
                        ", \"closed\": [{\"from\": \"2026-03-30\", \"reason\": \"moving house\"}]", CLINIC, other)))
                .isEqualTo("clinic-2026-03-23, clinic-2026-03-30 (moving house), clinic-2026-04-06, clinic-2026-04-13,"
                        + " other-2026-03-23, other-2026-03-30 (moving house), other-2026-04-06, other-2026-04-13");
        assertThat(shown(read(
                        ", \"closed\": [{\"from\": \"2026-03-24\", \"to\": \"2026-04-06\", \"reason\": \"a course\","
                                + " \"operator\": \"Dr Imre\"}, {\"from\": \"2026-04-13\", \"reason\": \"painting\","
                                + " \"place\": \"Room 2\"}]",
                        CLINIC,
                        other)))
                .isEqualTo(
                        "clinic-2026-03-23, clinic-2026-03-30 (a course), clinic-2026-04-06 (a course), clinic-2026-04-13,"
                                + " other-2026-03-23, other-2026-03-30, other-2026-04-06, other-2026-04-13 (painting)");
    }

    @Test
    void sessionsThatMeetWeekAfterWeekAreToldOnceAndNotWhereOneIsClosed() throws IOException {
        var other = CLINIC.replace("\"clinic\", \"kind\"", "\"other\", \"kind\"")
                .replace("08:00", "11:00")
                .replace("12:00", "13:00");
        assertThat(problems(read("", CLINIC, other.replace("Room 1", "Room 2"))))
                .isEqualTo(
                        "sessions[1]: It has the same operator as session clinic-2026-03-23, Dr Imre, and both are there on"
                                + " 2026-03-23 from 11:00 to 12:00. Change the time of one, or close it.");
        assertThat(shown(read(
                        ", \"closed\": [{\"from\": \"2026-03-23\", \"to\": \"2026-04-13\", \"reason\": \"a course\"}]",
                        CLINIC,
                        other)))
                .contains("other-2026-03-23 (a course)");
    }

    @Test
    void aSessionHoldsMinutesForUrgentCasesUntilTwoDaysBeforeUnlessItSaysOtherwise() throws IOException {
        var held = CLINIC.replace("\"repeats\"", "\"held\": 60, \"repeats\"");
        assertThat(read("", held).file().orElseThrow().sessions())
                .hasSize(4)
                .extracting(Session::held)
                .containsOnly(new HeldTime(60, 2));
        assertThat(read("", held.replace("\"held\": 60", "\"held\": 240, \"releaseDays\": 0"))
                        .file()
                        .orElseThrow()
                        .sessions())
                .extracting(Session::held)
                .containsOnly(new HeldTime(240, 0));
        assertThat(read("", CLINIC).file().orElseThrow().sessions())
                .extracting(Session::held)
                .containsOnly(HeldTime.NONE);
        assertThat(problems(read("", held.replace("\"held\": 60", "\"held\": 241"))))
                .isEqualTo(
                        "sessions[0].held: 241 minutes are to be held, and the session has 240. Hold at most those.");
        assertThat(problems(read("", held.replace("\"held\": 60", "\"held\": -1"))))
                .startsWith("sessions[0].held: ");
        assertThat(problems(read("", held.replace("\"held\": 60", "\"held\": 60, \"releaseDays\": 29"))))
                .startsWith("sessions[0].releaseDays: ");
    }

    @Test
    void aRuleThatCrossesANightInWhichClocksAreChangedIsToldForThatNight() throws IOException {
        var nights = CLINIC.replace("2026-03-23", "2026-03-22")
                .replace("08:00", "02:30")
                .replace("20260413", "20260412");
        assertThat(problems(read("", nights)))
                .startsWith("sessions[0].start: There is no 02:30 on 2026-03-29 in Europe/Vienna");
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            20260413"  | 20260413;BYDAY=TU" | sessions[0].repeats: The session is on 2026-03-23, and the first day of its rule from then on is 2026-03-24. Change one of them.
            "08:00"    | "13:00"            | sessions[0].end: The session ends at 12:00, before it starts at 13:00. Change one of them; a session past midnight is entered as two.
            """)
    void whatIsWrongWithASessionThatRepeatsIsToldOnce(String right, String wrong, String expected) throws IOException {
        assertThat(CLINIC).contains(right);
        assertThat(problems(read("", CLINIC.replace(right, wrong)))).isEqualTo(expected);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "holidays": "Austria" | holidays: Country or region of the bank holidays "Austria" is not possible. Write the two letters of a country, such as AT, and after a hyphen a region, such as DE-BY.
            "holidays": "XX" | holidays: No bank holidays are known of "XX". Write the two letters of a country, such as AT, and after a hyphen a region, such as DE-BY.
            "closed": [{"from": "2026-04-02", "to": "2026-04-01", "reason": "a course"}] | closed[0].to: The closure ends on 2026-04-01, before it begins on 2026-04-02. Change one of them.
            "closed": [{"from": "2026-04-02", "reason": "a course", "operator": "Dr Irme"}] | closed[0].operator: No session has the operator "Dr Irme". Did you mean Dr Imre?
            "closed": [{"from": "2026-04-02"}] | closed[0].reason: The field "reason" is missing. Add it.
            """)
    void whatIsWrongWithClosedDaysIsTold(String more, String expected) throws IOException {
        assertThat(problems(read(", " + more, CLINIC))).isEqualTo(expected);
    }
}
