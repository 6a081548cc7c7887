package limbqueue.calendar;

import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import limbqueue.access.GuessThrottle;
import limbqueue.calendar.jdbc.CalendarLinkStore;
import limbqueue.timetable.CalendarSession;
import limbqueue.timetable.SessionCalendar;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/**
 * Answers calendar programs, which cannot sign in: the secret in the address is all that they show. A wrong address counts
 * against the network address that it came from; a revoked one does not, since programs go on asking for it.
 */
@RestController
class CalendarFeed {

    /** Where it is, and nothing else. */
    static final String PATH = "/calendar/{secret}.ics";

    private static final MediaType CALENDAR = new MediaType("text", "calendar", StandardCharsets.UTF_8);
    private static final MediaType TEXT = new MediaType("text", "plain", StandardCharsets.UTF_8);

    private final CalendarLinkStore store;
    private final SessionCalendar sessions;
    private final GuessThrottle throttle;
    private final Clock clock;

    CalendarFeed(CalendarLinkStore store, SessionCalendar sessions, Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.throttle = new GuessThrottle(clock);
        this.clock = clock;
    }

    @GetMapping(PATH)
    ResponseEntity<byte[]> calendar(@PathVariable String secret, HttpServletRequest request) {
        var network = NetworkAddress.of(request.getRemoteAddr());
        var left = throttle.wait(network);
        if (left.isPresent()) {
            return tooMany(left.get());
        }
        var link = Optional.of(LinkSecret.sent(secret))
                .filter(LinkSecret::wellFormed)
                .flatMap(sent -> store.find(sent.digest()));
        if (link.isEmpty()) {
            throttle.failed(network);
            return said(HttpStatus.NOT_FOUND, "There is no calendar at this address. Copy the whole address again.");
        }
        if (link.get().revoked().isPresent()) {
            return said(
                    HttpStatus.GONE, "This link to a calendar was revoked. Ask the practice's office for a new one.");
        }
        store.fetched(link.get().id(), clock.instant());
        return answer(
                HttpStatus.OK,
                CALENDAR,
                CalendarText.of(link.get().of(), sessions(link.get().of())));
    }

    private List<CalendarSession> sessions(CalendarOf of) {
        return switch (of.kind()) {
            case PLACE -> sessions.inPlace(of.name());
            case OPERATOR -> sessions.ofOperator(of.name());
        };
    }

    private static ResponseEntity<byte[]> tooMany(Duration left) {
        return ResponseEntity.status(HttpStatus.TOO_MANY_REQUESTS)
                .header(HttpHeaders.RETRY_AFTER, String.valueOf(left.toSeconds() + 1))
                .contentType(TEXT)
                .body(octets("Too many wrong addresses came from here. Wait %d seconds, then try again."
                        .formatted(left.toSeconds() + 1)));
    }

    private static ResponseEntity<byte[]> said(HttpStatus status, String words) {
        return answer(status, TEXT, words);
    }

    private static ResponseEntity<byte[]> answer(HttpStatus status, MediaType type, String body) {
        return ResponseEntity.status(status).contentType(type).body(octets(body));
    }

    private static byte[] octets(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
