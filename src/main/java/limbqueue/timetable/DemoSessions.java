package limbqueue.timetable;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.practice.DemoRequested;
import limbqueue.referral.Decision;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/**
 * Enters the demo's sessions, as {@code sessions.json} tells, as if its first week were this one; and has those of its
 * cases approved and told that are named there. Who comes in the week after, {@code week.json} tells.
 */
@Component
class DemoSessions {

    private static final String FILE = "sessions.json";
    private static final String WEEK = "week.json";
    private static final String CLOSED = "The room is being repaired.";

    /** The part of the public format that is entered. */
    record DemoFile(List<DemoSession> sessions, List<DemoCase> cases) {}

    record DemoSession(
            String id,
            String kind,
            LocalDate date,
            LocalTime start,
            LocalTime end,
            String place,
            String operator,
            Optional<List<String>> capabilities,
            Optional<Boolean> closed,
            Optional<Integer> held,
            Optional<Integer> releaseDays) {}

    record DemoCase(String reference, Optional<List<DemoTold>> told) {}

    record DemoTold(String step, String session) {}

    record DemoWeek(List<DemoComing> cases) {}

    /** A referral that is approved, with the places that it is given where its steps are open. */
    record DemoComing(String reference, List<DemoPlace> places) {}

    record DemoPlace(String step, String session, Optional<Boolean> told) {}

    private final Sessions sessions;
    private final Appointments appointments;
    private final Referrals referrals;
    private final ActingAs actingAs;
    private final JsonMapper json;

    DemoSessions(
            Sessions sessions, Appointments appointments, Referrals referrals, ActingAs actingAs, JsonMapper json) {
        this.sessions = sessions;
        this.appointments = appointments;
        this.referrals = referrals;
        this.actingAs = actingAs;
        this.json = json;
    }

    /** After everything that is known of the referrals. */
    @EventListener
    @Order(5)
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(DemoRequested demo) {
        demo.read(FILE, DemoFile.class, json).ifPresent(given -> {
            var ids = enter(given.sessions());
            var lines = referrals.worklist();
            given.cases().forEach(one -> begin(coming(one), FILE, lines, ids, demo.physician()));
            demo.read(WEEK, DemoWeek.class, json)
                    .ifPresent(week -> week.cases().forEach(one -> begin(one, WEEK, lines, ids, demo.physician())));
        });
    }

    /** @return the id of each session that is not over, by its name in the file */
    private Map<String, Long> enter(List<DemoSession> given) {
        var today = sessions.today();
        var first =
                given.stream().map(DemoSession::date).min(LocalDate::compareTo).orElse(today);
        // By whole weeks, so that days of the week stay what they are.
        var weeks = ChronoUnit.WEEKS.between(monday(first), monday(today));
        var ids = new HashMap<String, Long>();
        for (var one : given) {
            var day = one.date().plusWeeks(weeks);
            if (day.isBefore(today)) {
                continue;
            }
            done(
                    sessions.enter(
                            new EnteredSession(
                                    constant(SessionKind.class, one.kind()),
                                    day,
                                    one.start(),
                                    one.end(),
                                    one.place(),
                                    one.operator(),
                                    one.capabilities()
                                            .map(names -> {
                                                var set = EnumSet.noneOf(Capability.class);
                                                names.forEach(name -> set.add(constant(Capability.class, name)));
                                                return set;
                                            })
                                            .orElse(EnumSet.noneOf(Capability.class)),
                                    Optional.of(new HeldTime(
                                            one.held().orElse(0),
                                            one.releaseDays().orElse(HeldTime.USUAL_RELEASE_DAYS)))),
                            Optional.empty()),
                    one.id());
            var kept = sessions.week(day).on(day).stream()
                    .map(FilledSession::kept)
                    .filter(session -> session.session().start().equals(day.atTime(one.start()))
                            && session.session().place().equals(one.place()))
                    .findFirst()
                    .orElseThrow();
            ids.put(one.id(), kept.id());
            if (one.closed().orElse(false)) {
                done(sessions.close(kept.id(), kept.version(), CLOSED, false), one.id());
            }
        }
        return ids;
    }

    private static DemoComing coming(DemoCase one) {
        return new DemoComing(
                one.reference(),
                one.told().orElse(List.of()).stream()
                        .map(told -> new DemoPlace(told.step(), told.session(), Optional.of(true)))
                        .toList());
    }

    private void begin(DemoComing one, String file, List<ReferralLine> lines, Map<String, Long> ids, String physician) {
        var line = lines.stream()
                .filter(other -> other.reference().equals(one.reference()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(file + " names no referral: " + one.reference()));
        if (line.state() == ReferralState.QUEUED) {
            actingAs.person(
                    physician,
                    () -> referrals.decide(line.id(), referrals.get(line.id()).version(), new Decision.Approve()));
        }
        for (var place : one.places()) {
            var step = constant(StepKind.class, place.step());
            var session = Optional.ofNullable(ids.get(place.session()));
            var open = appointments.toPlace().stream()
                    .filter(wanted -> wanted.referralId() == line.id() && wanted.step() == step)
                    .findFirst();
            if (session.isPresent() && open.isPresent()) {
                done(
                        appointments.place(line.id(), step, open.get().version(), session.get(), true),
                        one.reference() + ", " + place.session());
                if (place.told().orElse(false)) {
                    tell(session.get(), line.id());
                }
            }
        }
    }

    private void tell(long session, long referral) {
        sessions.toCome().stream()
                .filter(filled -> filled.kept().id() == session)
                .flatMap(filled -> filled.patients().stream())
                .filter(placed -> placed.referralId() == referral)
                .forEach(placed -> done(appointments.told(placed.id(), placed.version()), placed.reference()));
    }

    private static LocalDate monday(LocalDate day) {
        return day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    }

    /** The constant that the public format calls {@code name}. */
    private static <E extends Enum<E>> E constant(Class<E> type, String name) {
        return Arrays.stream(type.getEnumConstants())
                .filter(one ->
                        one.name().replace("_", "").toLowerCase(Locale.ROOT).equals(name.toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(
                        () -> new IllegalArgumentException(FILE + " names no " + type.getSimpleName() + ": " + name));
    }

    private static void done(TimetableOutcome outcome, String what) {
        if (!(outcome instanceof TimetableOutcome.Done)) {
            throw new IllegalArgumentException(FILE + ": " + what + ": " + outcome);
        }
    }
}
