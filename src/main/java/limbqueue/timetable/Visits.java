package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Single appointments, for whoever tells the patient of them. */
@Service
public class Visits {

    private final SessionStore sessions;
    private final AppointmentStore store;
    private final Clock clock;

    Visits(SessionStore sessions, AppointmentStore store, Clock clock) {
        this.sessions = sessions;
        this.store = store;
        this.clock = clock;
    }

    /** The appointment with this id; nothing if it has been taken out of its session, or there is none. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<Visit> find(long appointment) {
        return store.find(appointment)
                .flatMap(placed -> sessions.these(List.of(placed.session())).stream()
                        .findFirst()
                        .map(kept -> new Visit(
                                placed,
                                kept,
                                new FilledSession(kept, store.inSessions(List.of(kept.id())), clock.getZone())
                                        .startsFor(placed))));
    }
}
