package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import limbqueue.command.TriageCommandTest.Printed;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlanCommandTest {

    private static final String DEMO = "demo-referrals";
    private static final String SESSIONS = "demo-referrals/sessions.json";

    private static final String ONE_SESSION = """
            {"zone": "Europe/Vienna", "sessions": [
              {"id": "A", "kind": "clinic", "date": "2026-03-03", "start": "08:00", "end": "12:00", "place": "Room 1", "operator": "Dr Imre"}]}
            """;

    @TempDir
    Path folder;

    private static Printed plan(String... arguments) {
        var all = new ArrayList<>(List.of("plan", "--as-of", "2026-03-02", "--steps", "2000"));
        all.addAll(List.of(arguments));
        return TriageCommandTest.run(all.toArray(String[]::new));
    }

    private String file(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text).toString();
    }

    private Printed with(String sessions) throws IOException {
        return plan(
                file("sessions.json", sessions),
                file("a.referral.json", "{\"reference\": \"A-1\", \"received\": \"2026-03-01\"}"));
    }

    @Test
    void theDemoIsPlannedWithItsNoticeItsLevelsAndALineForEachCase() {
        var printed = plan(SESSIONS, DEMO);
        assertThat(printed.err()).isEmpty();
        assertThat(printed.status()).isZero();
        var lines = printed.out().lines().toList();
        assertThat(lines.getFirst())
                .startsWith(
                        "{\"notice\":\"" + TriageResult.NOTICE + "\",\"asOf\":\"2026-03-02\",\"policy\":\"standard-1\"")
                .contains(
                        "\"level\":\"hard\",\"points\":0",
                        "\"level\":\"promisesOf5Days\"",
                        "\"level\":\"promisesOf14Days\"",
                        "\"level\":\"overrun\"",
                        "\"level\":\"lateness\"",
                        "\"level\":\"toldAppointments\"",
                        "\"level\":\"idleMinutes\"",
                        "To hospital today");
        assertThat(lines.subList(1, lines.size()))
                .allSatisfy(line ->
                        assertThat(line).startsWith("{\"reference\":\"D-").contains("\"why\":\""));
        assertThat(printed.out()).contains("\"placed\":false").contains("supervised exercise comes first");
    }

    @Test
    void theSameSeedAndStepsPrintTheSameBytesWhateverTheOrderOfThePaths() {
        var first = DEMO + "/05-rest-pain.referral.json";
        var second = DEMO + "/07-heel-ulcer.referral.json";
        var third = DEMO + "/21-stent-closed-again.referral.json";
        var sessions = SESSIONS;
        var printed = plan("--seed", "7", sessions, first, second, third);
        assertThat(plan("--seed", "7", sessions, third, first, second).out()).isEqualTo(printed.out());
        assertThat(printed.out()).contains("\"seed\":7,\"steps\":2000");
    }

    /** What is wrong with one session is told with its place and what to do, and nothing is planned. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            "end": "12:00"        | "end": "07:00"          | sessions[0].end: The session ends at 07:00, before it starts at 08:00. Change one of them; a session past midnight is entered as two.
            "end": "12:00"        | "end": "8:00"           | sessions[0].end: Time of the session "8:00" is not possible. Write it as hours and minutes of the day, such as 08:30.
            "operator"            | "operater"              | sessions[0].operater: There is no field "operater" in "Session". Did you mean operator?
            "kind": "clinic"      | "kind": "clinics"       | sessions[0].kind: Kind of session must be clinic, vascularLaboratory, ct or procedureRoom, not "clinics". Did you mean clinic?
            "date": "2026-03-03"  | "date": "2026-02-30"    | sessions[0].date: Day of the session "2026-02-30" is not a date of the calendar. Write it as year-month-day, such as 2026-03-02.
            Europe/Vienna         | Europe/Viena            | zone: The time zone "Europe/Viena" is not known. Write it as region and city, such as Europe/Vienna. Did you mean Europe/Vienna?
            "zone"                | "leadDays": {"notice": -1}, "zone" | leadDays.notice: Days until a patient can come at the soonest -1 days is not possible: it lies between 0 and 366 days. Change it.
            "zone"                | "minutes": {"cta": {"median": 30, "ninety": 20}}, "zone" | minutes.cta.ninety: Nine of ten patients cannot take less than half of them do. Make it at least the median.
            "zone"                | "cases": [{"reference": "A-1", "told": [{"step": "clinic", "session": "AB"}]}], "zone" | cases[0].told[0].session: There is no session AB. Did you mean A?
            "zone"                | "cases": [{"reference": "A-1", "told": [{"step": "cta", "session": "A"}]}], "zone" | cases[0].told[0].session: Session A is one of the clinic; CTA is done in the CT. Change one of them.
            """, quoteCharacter = '\'')
    void whatIsWrongWithTheSessionsIsToldAndNothingIsPlanned(String right, String wrong, String expected)
            throws IOException {
        assertThat(ONE_SESSION).contains(right);
        var printed = with(ONE_SESSION.replace(right, wrong));
        assertThat(printed.err()).hasLineCount(1).contains("sessions.json: ").contains(expected);
        assertThat(printed.out()).isEmpty();
        assertThat(printed.status()).isEqualTo(2);
    }

    private static String twoSessions(String second) {
        return ONE_SESSION.replace("\"Dr Imre\"}", "\"Dr Imre\"}, " + second);
    }

    @Test
    void sessionsThatOverlapAtOnePlaceOrForOneOperatorAreTold() throws IOException {
        var second =
                "{\"id\": \"B\", \"kind\": \"clinic\", \"date\": \"2026-03-03\", \"start\": \"11:00\", \"end\": \"13:00\","
                        + " \"place\": \"Room 2\", \"operator\": \"Dr Imre\"}";
        assertThat(with(twoSessions(second)).err())
                .contains("sessions[1]: It has the same operator as session A, Dr Imre")
                .contains("from 11:00 to 12:00");
        assertThat(with(twoSessions(second.replace("\"B\"", "\"A\""))).err())
                .contains("sessions[1].id: Another session is named A already.");
    }

    @Test
    void aNightInWhichClocksAreChangedIsToldInWords() throws IOException {
        var night = ONE_SESSION.replace("2026-03-03", "2026-03-29").replace("08:00", "02:30");
        assertThat(with(night).err()).contains("sessions[0].start: There is no 02:30 on 2026-03-29 in Europe/Vienna");
        assertThat(with(night.replace("02:30", "01:00")).out()).contains("pass 600 minutes, not 660");
    }

    @Test
    void aCaseThatNoSessionCanEverTakeIsToldWhichRuleKeepsItOut() throws IOException {
        var printed = plan(file("sessions.json", ONE_SESSION), DEMO + "/05-rest-pain.referral.json");
        assertThat(printed.status()).isZero();
        assertThat(printed.out().lines().toList().get(1))
                .contains("\"placed\":false", "Not placed: ", "There is no session of the ", "Add one.");
    }

    @Test
    void anAppointmentOfWhichThePatientKnowsAndThatIsNoStepAnyMoreIsRemarked() throws IOException {
        var told = "\"cases\": [{\"reference\": \"A-1\", \"done\": [\"clinic\"],"
                + " \"told\": [{\"step\": \"clinic\", \"session\": \"A\"}]}], \"zone\"";
        assertThat(with(ONE_SESSION.replace("\"zone\"", told)).out())
                .contains(
                        "A-1: the patient has been told of clinic in session A, and it is no step of the path any more."
                                + " Cancel it, or check the referral.");
    }

    @Test
    void aReferralThatCannotBeReadIsToldAndTheOthersArePlanned() throws IOException {
        var bad = file("b.referral.json", "{\"weightKg\": -1}");
        var printed = plan(SESSIONS, bad, DEMO + "/05-rest-pain.referral.json");
        assertThat(printed.err())
                .contains(bad + ": weightKg: ")
                .contains("cases: none of the referrals has the reference D-0002");
        assertThat(printed.out()).contains("\"reference\":\"D-0005\"");
        assertThat(printed.status()).isEqualTo(2);
    }

    @Test
    void argumentsThatMakeNoSenseAreToldWithWhatToDo() {
        assertThat(plan("--sed", "1", SESSIONS, DEMO).err())
                .isEqualTo(
                        "limbqueue plan: there is no option --sed. The options are --as-of DATE, --policy FILE, --seed NUMBER,"
                                + " --steps NUMBER and --help.\n");
        assertThat(plan("--steps", "-5", SESSIONS, DEMO).err())
                .contains("--steps -5 is not possible. Write a whole number from 0 to ");
        assertThat(plan("no-such.json", DEMO).err())
                .isEqualTo(
                        "limbqueue plan: the sessions cannot be read. no-such.json: there is no such file or folder. Check the path.\n");
        assertThat(plan(SESSIONS).status()).isEqualTo(2);
    }
}
