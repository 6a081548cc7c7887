package limbqueue.forecast;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;

/**
 * An invented practice whose true rates are known, lived through day by day with one patient after the other. It says the rules of
 * the forecast a second time, in the plainest way, and shares nothing with it. Two of three hold time for urgent cases.
 */
final class PlainPractice {

    /** The 90 % quantile of the standard normal distribution (value from memory). */
    private static final double NINETY = 1.2815515655446004;

    /** One tier of it. */
    record Kind(Tier tier, Map<DayOfWeek, Double> rates, double median, double ninety, int lead) {

        double inAWeek() {
            return rates.values().stream().mapToDouble(rate -> rate).sum();
        }

        double spread() {
            return Math.log(ninety / median) / NINETY;
        }

        double mean() {
            return median * Math.exp(spread() * spread() / 2);
        }
    }

    static final class Patient {
        final Kind kind;
        final LocalDate received;
        Optional<LocalDate> treated = Optional.empty();

        Patient(Kind kind, LocalDate received) {
            this.kind = kind;
            this.received = received;
        }

        LocalDate ready() {
            return received.plusDays(kind.lead());
        }

        LocalDate target() {
            return Policy.standard().targetDate(kind.tier(), received).orElseThrow();
        }

        boolean waitsAfter(LocalDate day) {
            return !received.isAfter(day)
                    && treated.filter(on -> !on.isAfter(day)).isEmpty();
        }
    }

    private static final DayOfWeek[] ROOM = {DayOfWeek.TUESDAY, DayOfWeek.WEDNESDAY, DayOfWeek.THURSDAY};

    final List<Kind> kinds = new ArrayList<>();
    final List<Patient> patients = new ArrayList<>();
    final double missing;
    final int sessionMinutes;
    final int held;
    final int releaseDays;
    private final Random random;
    private int missed;
    private int appointments;

    PlainPractice(long seed) {
        // Seeds next to each other begin alike.
        random = new Random(seed * 0x9e3779b97f4a7c15L);
        kinds.add(kind(Tier.WITHIN_5_DAYS, between(0.5, 1.5), 1));
        kinds.add(kind(Tier.WITHIN_14_DAYS, between(1, 3), 3));
        kinds.add(kind(Tier.WITHIN_6_WEEKS, between(2, 5), 7));
        kinds.add(kind(Tier.WITHIN_18_WEEKS, between(1, 4), 10));
        missing = between(0.02, 0.12);
        var need =
                kinds.stream().mapToDouble(kind -> kind.inAWeek() * kind.mean()).sum() / (1 - missing);
        held = 30 * Math.floorMod(seed, 3);
        releaseDays = Math.floorMod(seed, 4);
        sessionMinutes = held + (int) Math.round(Math.max(150, need / ROOM.length / between(0.8, 1)));
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    private Kind kind(Tier tier, double inAWeek, int lead) {
        var weights = new EnumMap<DayOfWeek, Double>(DayOfWeek.class);
        for (var day : DayOfWeek.values()) {
            var weekend = day == DayOfWeek.SATURDAY || day == DayOfWeek.SUNDAY;
            weights.put(day, weekend ? 0.05 : Math.exp(0.4 * random.nextGaussian()));
        }
        var sum = weights.values().stream().mapToDouble(weight -> weight).sum();
        weights.replaceAll((_, weight) -> weight / sum * inAWeek);
        var median = between(50, 90);
        return new Kind(tier, weights, median, median * between(1.2, 1.8), lead);
    }

    /** Lives from {@code from} on, for so many days. */
    void live(LocalDate from, int days) {
        for (var day = from; day.isBefore(from.plusDays(days)); day = day.plusDays(1)) {
            for (var kind : kinds) {
                for (var more = poisson(kind.rates().getOrDefault(day.getDayOfWeek(), 0.0)); more > 0; more--) {
                    patients.add(new Patient(kind, day));
                }
            }
            if (List.of(ROOM).contains(day.getDayOfWeek())) {
                session(day);
            }
        }
    }

    private void session(LocalDate day) {
        var line = patients.stream()
                .filter(patient -> patient.treated.isEmpty() && !patient.ready().isAfter(day))
                .sorted(Comparator.comparing((Patient patient) -> patient.kind.tier())
                        .thenComparing(Patient::target)
                        .thenComparing(patient -> patient.received))
                .toList();
        var gone = 0.0;
        var goneToUrgent = 0.0;
        var anybody = false;
        for (var patient : line) {
            var urgent = patient.kind.tier() == Tier.WITHIN_5_DAYS;
            var fits = gone + patient.kind.mean() <= sessionMinutes;
            if (held > 0 && !urgent
                    ? fits && gone - goneToUrgent + patient.kind.mean() <= forOthers(goneToUrgent)
                    : fits || !anybody) {
                anybody = true;
                var before = gone;
                appointments++;
                if (random.nextDouble() < missing) {
                    missed++;
                    gone += patient.kind.mean();
                } else {
                    patient.treated = Optional.of(day);
                    gone += patient.kind.median() * Math.exp(patient.kind.spread() * random.nextGaussian());
                }
                goneToUrgent += urgent ? gone - before : 0;
            }
        }
    }

    /** All that is not held, and with each day of notice three tenths of what is still empty of what is. */
    private double forOthers(double goneToUrgent) {
        var empty = Math.max(0, held - goneToUrgent);
        var found = 0.0;
        for (var day = 0; day < releaseDays; day++) {
            found += 0.3 * (empty - found);
        }
        return sessionMinutes - held + found;
    }

    /** By multiplying numbers until they fall below e to the power of minus the mean (D. E. Knuth, The Art of Computer Programming 2, 3.4.1). */
    private int poisson(double mean) {
        var product = random.nextDouble();
        var events = 0;
        while (product > Math.exp(-mean)) {
            product *= random.nextDouble();
            events++;
        }
        return events;
    }

    /**
     * What the practice knows on the morning of {@code today}.
     *
     * @param historyWeeks of arrivals that it has counted
     */
    Situation known(LocalDate today, int historyWeeks, int weeks) {
        var received = patients.stream()
                .map(patient -> new Arrivals.Received(patient.received, patient.kind.tier()))
                .toList();
        var queue = patients.stream()
                .filter(patient -> patient.waitsAfter(today.minusDays(1)))
                .map(patient -> new QueuedCase(
                        patient.kind.tier(),
                        patient.received,
                        patient.ready(),
                        patient.target(),
                        minutes(patient.kind)))
                .toList();
        var weekly = Arrays.stream(ROOM)
                .map(day -> new WeeklySession(day, sessionMinutes))
                .toList();
        return new Situation(
                today,
                weeks,
                queue,
                RoomSession.of(weekly, today, weeks).stream()
                        .map(session -> new RoomSession(session.date(), session.minutes(), held, releaseDays))
                        .toList(),
                Policy.standard(),
                Arrivals.from(received, today.minusWeeks(historyWeeks), today.minusDays(1)),
                kinds.stream()
                        .collect(
                                Collectors.toMap(Kind::tier, kind -> new Situation.Coming(minutes(kind), kind.lead()))),
                new Attendance(missed, appointments),
                new HeldFor(Set.of(Tier.WITHIN_5_DAYS), 0.3));
    }

    private static CaseMinutes.Minutes minutes(Kind kind) {
        return new CaseMinutes.Minutes(kind.median(), kind.ninety());
    }
}
