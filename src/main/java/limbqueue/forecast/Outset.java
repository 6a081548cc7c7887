package limbqueue.forecast;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import limbqueue.triage.Tier;

/** What is the same in every run of a forecast, its days counted from the first, which is 0. */
final class Outset {

    /**
     * A case that waits already.
     *
     * @param tier its place among the kinds
     */
    record Known(int tier, int received, int ready, int target, RoomMinutes minutes, double planned) {}

    /**
     * New cases of one tier.
     *
     * @param urgent whether they may use held time
     */
    record Kind(Tier tier, RoomMinutes minutes, double planned, int lead, int days, boolean urgent) {}

    /**
     * Time in the room.
     *
     * @param held minutes for urgent cases
     * @param filled the share of what is still free of them at their release that finds another patient
     */
    record Place(int day, int minutes, int held, double filled) {}

    private final Situation situation;
    private final List<Kind> kinds;
    private final List<Known> queue;
    private final List<Place> places;

    Outset(Situation situation) {
        this.situation = situation;
        this.kinds = situation.coming().entrySet().stream()
                .map(entry -> kind(entry.getKey(), entry.getValue()))
                .toList();
        var tiers = kinds.stream().map(Kind::tier).toList();
        this.queue = situation.queue().stream()
                .map(one -> known(one, tiers.indexOf(one.tier())))
                .toList();
        this.places = situation.sessions().stream()
                .map(session -> new Place(
                        day(session.date()),
                        session.minutes(),
                        session.held(),
                        situation.heldFor().filled(session.releaseDays())))
                .filter(place -> place.day() >= 0 && place.day() < days())
                .sorted(Comparator.comparing(Place::day))
                .toList();
    }

    private Kind kind(Tier tier, Situation.Coming coming) {
        var minutes = RoomMinutes.of(coming.minutes());
        var days = situation.policy().targetDate(tier, situation.from()).orElseThrow();
        return new Kind(
                tier,
                minutes,
                minutes.mean(),
                coming.lead(),
                day(days),
                situation.heldFor().tiers().contains(tier));
    }

    private Known known(QueuedCase one, int tier) {
        var minutes = RoomMinutes.of(one.minutes());
        return new Known(
                tier, day(one.received()), Math.max(0, day(one.ready())), day(one.target()), minutes, minutes.mean());
    }

    private int day(LocalDate date) {
        return Math.toIntExact(date.toEpochDay() - situation.from().toEpochDay());
    }

    /** Most urgent first. */
    List<Kind> kinds() {
        return kinds;
    }

    List<Known> queue() {
        return queue;
    }

    /** One day after the other. */
    List<Place> places() {
        return places;
    }

    Arrivals arrivals() {
        return situation.arrivals();
    }

    Attendance attendance() {
        return situation.attendance();
    }

    int weeks() {
        return situation.weeks();
    }

    int days() {
        return weeks() * 7;
    }

    /** Of a day: 0 is a Monday. */
    int weekday(int day) {
        return (situation.from().getDayOfWeek().ordinal() + day) % 7;
    }
}
