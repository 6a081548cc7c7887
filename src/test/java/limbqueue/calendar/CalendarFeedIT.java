package limbqueue.calendar;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.StringReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Base64;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.calendar.CalendarOf.Kind;
import limbqueue.calendar.jdbc.CalendarLinkStore;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.KeptSession;
import limbqueue.timetable.SessionCalendar;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Component;
import net.fortuna.ical4j.model.Property;
import net.fortuna.ical4j.model.component.CalendarComponent;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.security.access.AccessDeniedException;

/** What a calendar program is answered. All people and rooms in it are invented. */
@OnPostgres
class CalendarFeedIT {

    private static final AtomicInteger NUMBER = new AtomicInteger();

    @Autowired
    private CalendarLinks links;

    @Autowired
    private CalendarLinkStore store;

    @Autowired
    private SessionCalendar calendar;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @LocalServerPort
    private int port;

    private Staff staff;
    private LocalDate day;
    private String room;

    @BeforeEach
    void aRoom() {
        staff = new Staff(actingAs);
        day = office(referrals::today).plusDays(9);
        room = "Angiography room " + NUMBER.incrementAndGet();
    }

    @Test
    void aProgramReadsTheSessionsOfARoomAndNothingOfAnyPatient() throws Exception {
        var referral = approved("Quillfeather", "Ottoline");
        var kept = session(room, "Dr Halvern");
        session("Another room " + NUMBER.incrementAndGet(), "Dr Orla Finch");
        place(referral, kept);

        var answer = get(link(Kind.PLACE, room));

        assertThat(answer.statusCode()).isEqualTo(200);
        var event = event(answer.body());
        var start = day.atTime(8, 0).atZone(ZoneId.systemDefault()).withZoneSameInstant(ZoneOffset.UTC);
        assertThat(value(event, Property.DTSTART)).isEqualTo("%tY%<tm%<tdT%<tH%<tM00Z".formatted(start));
        assertThat(value(event, Property.SUMMARY)).isEqualTo("Clinic, 1 case");
        assertThat(value(event, Property.LOCATION)).isEqualTo(room);
        assertThat(answer.body())
                .doesNotContainIgnoringCase("Quillfeather")
                .doesNotContainIgnoringCase("Ottoline")
                .doesNotContain(referral.reference())
                .doesNotContain("referral")
                .doesNotContain("Finch");
        assertThat(event(get(link(Kind.OPERATOR, "Dr Halvern")).body()))
                .satisfies(same -> assertThat(value(same, Property.UID)).isEqualTo(value(event, Property.UID)));
    }

    @Test
    void theAnswerIsACalendarThatNoCacheKeepsAndThatSetsNoCookie() throws Exception {
        session(room, room + " operator");
        var headers = get(link(Kind.PLACE, room)).headers();

        assertThat(headers.firstValue(HttpHeaders.CONTENT_TYPE))
                .get()
                .asString()
                .isEqualToIgnoringCase("text/calendar;charset=utf-8");
        assertThat(headers.firstValue(HttpHeaders.CACHE_CONTROL))
                .get()
                .asString()
                .contains("no-store");
        assertThat(headers.firstValue("X-Content-Type-Options")).contains("nosniff");
        assertThat(headers.firstValue("Referrer-Policy")).contains("no-referrer");
        assertThat(headers.allValues(HttpHeaders.SET_COOKIE)).isEmpty();
    }

    @Test
    void whateverChangesMovesTheSequenceOnAndNeverTheName() throws Exception {
        var kept = session(room, room + " operator");
        var path = link(Kind.PLACE, room);
        var first = event(get(path).body());
        assertThat(value(first, Property.SEQUENCE)).isEqualTo("0");

        var referral = approved("Harrowgate", "Ivo");
        place(referral, kept);
        var filled = event(get(path).body());
        var placed = filled(kept).patients().getFirst();
        assertThat(office(() -> appointments.takeOut(placed.id(), placed.version(), true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        var emptied = event(get(path).body());
        assertThat(office(() -> sessions.close(kept.id(), kept.version(), "Dr Halvern is ill.", true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        var closed = event(get(path).body());

        assertThat(new CalendarComponent[] {first, filled, emptied, closed})
                .extracting(event -> Integer.valueOf(value(event, Property.SEQUENCE)))
                .containsExactly(0, 1, 2, 3);
        assertThat(new CalendarComponent[] {first, filled, emptied, closed})
                .extracting(event -> value(event, Property.UID))
                .containsOnly(value(first, Property.UID));
        assertThat(new CalendarComponent[] {first, filled, emptied, closed})
                .extracting(event -> value(event, Property.DTSTAMP))
                .isSorted();
        assertThat(value(emptied, Property.SUMMARY)).isEqualTo("Clinic, 0 cases");
        assertThat(value(closed, Property.STATUS)).isEqualTo("CANCELLED");
        assertThat(get(path).body()).as("why it is closed may be private").doesNotContain("ill");
        assertThatThrownBy(() -> jdbc.sql("""
                        update practice_session set version = version + 1, uid = gen_random_uuid() where id = :id
                        """).param("id", kept.id()).update()).hasMessageContaining("only ever added");
    }

    @Test
    void aRevokedLinkIsToldSoAndAWrongOneFindsNothing() throws Exception {
        session(room, room + " operator");
        var path = link(Kind.PLACE, room);
        assertThat(get(path).statusCode()).isEqualTo(200);
        var made = office(links::all).stream()
                .filter(link -> link.of().name().equals(room))
                .findFirst()
                .orElseThrow();
        assertThat(made.author()).isEqualTo("Wren Halloway");
        assertThat(made.fetched()).isPresent();

        office(() -> {
            links.revoke(made.id());
            return true;
        });

        var answer = get(path);
        assertThat(answer.statusCode()).isEqualTo(410);
        assertThat(answer.body()).contains("was revoked").doesNotContain("BEGIN:VCALENDAR");
        assertThatThrownBy(() -> office(() -> {
                    links.revoke(made.id());
                    return true;
                }))
                .isInstanceOf(NotPossibleException.class);
        assertThatThrownBy(() -> jdbc.sql("""
                        update calendar_link set revoked_at = null, revoked_account = null, revoked_author = null
                        where id = :id
                        """).param("id", made.id()).update())
                .isInstanceOf(DataIntegrityViolationException.class);
        var wrong = get(path.replaceFirst("/.{6}", "/AAAAAA"));
        assertThat(wrong.statusCode()).isEqualTo(404);
        assertThat(wrong.body()).doesNotContain("BEGIN:VCALENDAR");
    }

    /** What is kept of the secret is what PostgreSQL's own SHA-256 makes of it. */
    @Test
    void theSecretHas256BitsAndOnlyItsDigestIsKept() {
        session(room, room + " operator");
        var secret = link(Kind.PLACE, room).replace("calendar/", "").replace(".ics", "");

        assertThat(Base64.getUrlDecoder().decode(secret)).hasSize(32);
        assertThat(jdbc.sql("select count(*) from calendar_link where secret = sha256(convert_to(:secret, 'UTF8'))")
                        .param("secret", secret)
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
        assertThat(jdbc.sql("select count(*) from calendar_link l where cast(l as text) like '%' || :secret || '%'")
                        .param("secret", secret)
                        .query(Integer.class)
                        .single())
                .isZero();
        assertThat(jdbc.sql("select count(*) from audit_entry e where cast(e as text) like '%' || :secret || '%'")
                        .param("secret", secret)
                        .query(Integer.class)
                        .single())
                .isZero();
        assertThat(link(Kind.PLACE, room)).doesNotContain(secret);
    }

    @Test
    void fiveWrongAddressesFromOneNetworkMakeItWaitAndNoOther() {
        session(room, room + " operator");
        var secret = link(Kind.PLACE, room).replace("calendar/", "").replace(".ics", "");
        var clock = new StandingClock();
        var feed = new CalendarFeed(store, calendar, clock);
        var other = from("198.51.100.7");
        var guesser = from("2001:db8:0:1::1");

        for (var guess = 0; guess < 5; guess++) {
            assertThat(feed.calendar("A".repeat(42) + guess, guesser).getStatusCode())
                    .isEqualTo(HttpStatus.NOT_FOUND);
        }
        var neighbour = from("2001:db8:0:1:ffff::2");
        var refused = feed.calendar(secret, neighbour);
        assertThat(refused.getStatusCode()).isEqualTo(HttpStatus.TOO_MANY_REQUESTS);
        assertThat(refused.getHeaders().getFirst(HttpHeaders.RETRY_AFTER)).isEqualTo("31");
        assertThat(feed.calendar(secret, other).getStatusCode()).isEqualTo(HttpStatus.OK);
        clock.now = clock.now.plus(Duration.ofSeconds(31));
        assertThat(feed.calendar(secret, neighbour).getStatusCode()).isEqualTo(HttpStatus.OK);
    }

    @ParameterizedTest
    @CsvSource({
        "GET, calendar",
        "GET, calendar/",
        "GET, calendar/sessions",
        "GET, calendar/.ics/more",
        "GET, calendar/a/b.ics",
        "POST, calendar/a.ics",
        "PUT, calendar/a.ics",
        "DELETE, calendar/a.ics",
        "OPTIONS, calendar/a.ics"
    })
    void nothingElseIsOpenUnderThePath(String method, String path) throws Exception {
        var answer = send(method, path);
        assertThat(answer.statusCode()).isIn(401, 403);
        assertThat(answer.body()).doesNotContain("VCALENDAR");
    }

    @Test
    void linksAreMadeByTheOfficeAndTheManagerForWhatThereIs() {
        session(room, room + " operator");
        assertThat(office(links::choices))
                .contains(new CalendarOf(Kind.PLACE, room), new CalendarOf(Kind.OPERATOR, room + " operator"));
        assertThat(staff.as("manager", () -> links.make(new CalendarOf(Kind.PLACE, room))))
                .startsWith("calendar/");
        assertThatThrownBy(() -> staff.as("physician", () -> links.make(new CalendarOf(Kind.PLACE, room))))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> office(() -> links.make(new CalendarOf(Kind.PLACE, "Nowhere"))))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("No session has the room Nowhere");
    }

    private static MockHttpServletRequest from(String address) {
        var request = new MockHttpServletRequest();
        request.setRemoteAddr(address);
        return request;
    }

    private String link(Kind kind, String name) {
        return office(() -> links.make(new CalendarOf(kind, name)));
    }

    private HttpResponse<String> get(String path) throws Exception {
        return send("GET", path);
    }

    private HttpResponse<String> send(String method, String path) throws Exception {
        try (var client = HttpClient.newHttpClient()) {
            return client.send(
                    HttpRequest.newBuilder(URI.create("http://localhost:" + port + "/" + path))
                            .method(method, HttpRequest.BodyPublishers.noBody())
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
        }
    }

    private static CalendarComponent event(String text) throws Exception {
        var events =
                new CalendarBuilder().build(new StringReader(text)).<CalendarComponent>getComponents(Component.VEVENT);
        assertThat(events).hasSize(1);
        return events.getFirst();
    }

    private static String value(CalendarComponent event, String name) {
        return event.<Property>getProperties(name).getFirst().getValue();
    }

    private void place(Referral referral, KeptSession kept) {
        assertThat(office(() -> appointments.place(referral.id(), StepKind.CLINIC, 0, kept.id(), true)))
                .isInstanceOf(TimetableOutcome.Done.class);
    }

    private KeptSession session(String place, String operator) {
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                SessionKind.CLINIC, day, LocalTime.of(8, 0), LocalTime.NOON, place, operator, Set.of()),
                        Optional.empty())))
                .isInstanceOf(TimetableOutcome.Done.class);
        return office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals(place))
                .findFirst()
                .orElseThrow();
    }

    private FilledSession filled(KeptSession kept) {
        return office(() -> sessions.week(day)).on(day).stream()
                .filter(one -> one.kept().id() == kept.id())
                .findFirst()
                .orElseThrow();
    }

    private Referral approved(String family, String given) {
        var draft = Draft.of(Arriving.REST_PAIN.replace(
                "2026-01-12", office(referrals::today).toString()));
        draft.set("patient.given", given);
        draft.set("patient.family", family);
        var queued = office(() -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
        staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), new Decision.Approve()));
        return queued;
    }

    private <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }

    /** Stands still until it is moved. */
    private static final class StandingClock extends Clock {

        private Instant now = Instant.now();

        @Override
        public Instant instant() {
            return now;
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
}
