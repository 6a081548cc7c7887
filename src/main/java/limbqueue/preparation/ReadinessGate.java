package limbqueue.preparation;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.preparation.Readiness.Kind;
import limbqueue.preparation.Readiness.NotReady;
import limbqueue.preparation.Readiness.Obstacle;
import limbqueue.preparation.Readiness.Overridden;
import limbqueue.preparation.Readiness.Ready;
import limbqueue.referral.ReferralState;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.plan.StentNeed;

/** The gate to the room: a function of what is known of a case, and nothing else. */
public final class ReadinessGate {

    private ReadinessGate() {}

    /**
     * @param starts when the procedure is booked, if it is
     * @param items the work-up
     * @param needs the vessels for which a covered stent must be in the room
     * @param confirmed the stents seen there
     * @param stock every covered stent there is
     * @param override the last one that a physician gave, if any; it holds for the facts it was given for and no others
     */
    public static Readiness readiness(
            ReferralState state,
            Optional<LocalDateTime> starts,
            List<CaseItem> items,
            List<StentNeed> needs,
            List<StentConfirmation> confirmed,
            List<CoveredStent> stock,
            Optional<ReadinessOverride> override) {
        var obstacles = new ArrayList<Obstacle>();
        if (state != ReferralState.APPROVED) {
            obstacles.add(new Obstacle(
                    Kind.NOT_APPROVED,
                    "No physician's approval stands.",
                    state == ReferralState.QUEUED
                            ? "The referral is before the physician, who decides first."
                            : "Complete the referral and put it before the physician."));
        }
        if (starts.isEmpty()) {
            obstacles.add(new Obstacle(
                    Kind.NO_DATE, "No date is booked.", "Book a date and a room; validity is counted against it."));
        }
        items.stream().filter(CaseItem::red).map(ReadinessGate::open).forEach(obstacles::add);
        var day = starts.map(LocalDateTime::toLocalDate);
        needs.forEach(need -> stent(need, confirmed, stock, day).ifPresent(obstacles::add));
        if (obstacles.isEmpty()) {
            return new Ready();
        }
        return override.filter(given -> overridable(obstacles))
                .filter(given -> given.facts().equals(facts(obstacles, starts)))
                .<Readiness>map(given -> new Overridden(List.copyOf(obstacles), given))
                .orElseGet(() -> new NotReady(List.copyOf(obstacles)));
    }

    /** Whether a physician may go ahead in spite of all of these. */
    public static boolean overridable(List<Obstacle> obstacles) {
        return obstacles.stream().allMatch(obstacle -> obstacle.kind().overridable());
    }

    /** The facts that an override is given for: one line each, and the time of the procedure. */
    public static String facts(List<Obstacle> obstacles, Optional<LocalDateTime> starts) {
        return "Procedure: " + starts.map(LocalDateTime::toString).orElse("not booked") + "\n"
                + obstacles.stream()
                        .map(obstacle -> obstacle.kind() + ": " + obstacle.what())
                        .sorted()
                        .collect(Collectors.joining("\n"));
    }

    private static Obstacle open(CaseItem item) {
        if (item.cameButNotTypedIn()) {
            return new Obstacle(
                    Kind.WORK_UP,
                    item.what() + ": it came, but what is typed in counts only until "
                            + item.validUntil().orElseThrow() + ".",
                    "Type the new result in.");
        }
        return new Obstacle(
                Kind.WORK_UP,
                item.validUntil()
                        .map(until -> item.what() + ": what is held counts only until " + until + ".")
                        .orElse(item.what() + ": not in."),
                switch (item.standing()) {
                    case Standing.Asked(var of, var on, var chaseOn) ->
                        "Asked of " + of + "; chase it on " + chaseOn + ".";
                    case Standing.Booked(var on, var where) -> "Booked for " + on + ", " + where + ".";
                    case Standing.Wanted _, Standing.In _, Standing.NotNeeded _ ->
                        "Ask for it, or say why it is not needed.";
                });
    }

    private static Optional<Obstacle> stent(
            StentNeed need, List<StentConfirmation> confirmed, List<CoveredStent> stock, Optional<LocalDate> day) {
        var vessel = vessel(need);
        if (need.sideOpen()) {
            return Optional.of(new Obstacle(
                    Kind.SIDE_NOT_KNOWN,
                    "A lesion of the " + vessel + " is on a side that nobody has said.",
                    "Say which side it is on."));
        }
        if (need.vesselMm().isEmpty()) {
            return Optional.of(new Obstacle(
                    Kind.DIAMETER_NOT_KNOWN,
                    "The diameter of the " + vessel + " is not known, so no covered stent can be said to fit."
                            + maybe(need),
                    "Measure it on the CT or duplex and type it in."));
        }
        var size = size(need);
        var seen = confirmed.stream()
                .filter(one -> one.segment() == need.segment() && one.side().equals(need.side()))
                .findFirst();
        if (seen.isEmpty()) {
            var fitting = fitting(need, stock, day).stream().anyMatch(stent -> stent.count() > stent.promised());
            return Optional.of(
                    fitting
                            ? new Obstacle(
                                    Kind.STENT_NOT_CONFIRMED,
                                    "No covered stent is confirmed in the room for the " + vessel + " (" + size + ")."
                                            + maybe(need),
                                    "Put one of those in stock into the room and confirm it.")
                            : new Obstacle(
                                    Kind.NO_STENT_IN_STOCK,
                                    "No covered stent in stock fits the " + vessel + " (" + size + ")." + maybe(need),
                                    "Get one, add it to the stock, and confirm it in the room."));
        }
        var stent = seen.get().stent();
        if (!need.fits(stent.diameterMm(), stent.lengthMm())) {
            return Optional.of(new Obstacle(
                    Kind.STENT_DOES_NOT_FIT,
                    "The covered stent confirmed, " + size(stent) + ", does not fit the " + vessel + " (" + size + ").",
                    "Confirm one that fits."));
        }
        if (day.map(stent::expiredOn).orElse(false)) {
            return Optional.of(new Obstacle(
                    Kind.STENT_EXPIRED,
                    "The covered stent confirmed for the " + vessel + " may be used only until " + stent.expires()
                            + ".",
                    "Confirm one that is not expired on the day."));
        }
        if (stent.count() < 1) {
            return Optional.of(new Obstacle(
                    Kind.STENT_USED_UP,
                    "The covered stent confirmed for the " + vessel + " (lot " + stent.lot() + ") is used up.",
                    "Confirm another one."));
        }
        return Optional.empty();
    }

    /** The stents in stock that seal the vessel and may be used on {@code day}, in order of diameter, length and expiry. */
    public static List<CoveredStent> fitting(StentNeed need, List<CoveredStent> stock, Optional<LocalDate> day) {
        return stock.stream()
                .filter(stent -> stent.count() > 0
                        && need.fits(stent.diameterMm(), stent.lengthMm())
                        && !day.map(stent::expiredOn).orElse(false))
                .toList();
    }

    private static String maybe(StentNeed need) {
        return need.unknown().isEmpty()
                ? ""
                : " Nobody has said "
                        + need.unknown().stream()
                                .sorted()
                                .map(unknown -> switch (unknown) {
                                    case NARROWING -> "how narrow it is";
                                    case CALCIFICATION -> "whether it is calcified";
                                })
                                .collect(Collectors.joining(" and "))
                        + "; that counts as the worse.";
    }

    /** The size asked for: {@code 8 to 9 mm wide, at least 40 mm long}. */
    public static String size(StentNeed need) {
        return need.vesselMm()
                        .flatMap(vessel ->
                                need.widestMm().map(widest -> number(vessel) + " to " + number(widest) + " mm wide, "))
                        .orElse("")
                + "at least " + number(need.lengthMm()) + " mm long";
    }

    /** The size of a stent: {@code 8 x 38 mm}. */
    public static String size(CoveredStent stent) {
        return number(stent.diameterMm()) + " x " + number(stent.lengthMm()) + " mm";
    }

    /** The vessel in words: {@code left external iliac artery}. */
    public static String vessel(StentNeed need) {
        if (need.segment() == Segment.INFRARENAL_AORTA) {
            return "aorta below the kidneys";
        }
        return need.side().map(side -> side == Side.LEFT ? "left " : "right ").orElse("")
                + need.segment().name().toLowerCase(Locale.ROOT).replace('_', ' ')
                + " artery";
    }

    private static String number(double value) {
        return value == Math.rint(value) ? String.valueOf((long) value) : String.format(Locale.ROOT, "%.1f", value);
    }
}
