package limbqueue.preparation;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.preparation.Readiness.Kind;
import limbqueue.preparation.Standing.Asked;
import limbqueue.preparation.Standing.Booked;
import limbqueue.preparation.Standing.Wanted;
import limbqueue.referral.ReferralState;

/**
 * The one thing that the office does next for a case.
 *
 * @param on the day it is about, where there is one
 */
public record NextThing(Group group, String what, Optional<LocalDate> on) {

    /** Kinds of next things, in the order of a day's work. */
    public enum Group {
        /** Asked for and not come by the day to ask again. */
        CHASE,
        ASK,
        /** No date, or no stent for it. */
        DATE_AND_STENT,
        WAIT,
        BOOKED,
        PHYSICIAN,
        READY,
        IN_ROOM
    }

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    public static NextThing of(PreparationCase prepared, LocalDate today) {
        var red = prepared.red();
        return Stream.<Optional<NextThing>>of(
                        inRoom(prepared),
                        chase(red, today),
                        late(red, today),
                        typeIn(red),
                        ask(red),
                        completeIt(prepared),
                        dateAndStent(prepared),
                        waitFor(red),
                        booked(red),
                        physician(prepared))
                .flatMap(Optional::stream)
                .findFirst()
                .orElseGet(() -> ready(prepared));
    }

    private static Optional<NextThing> inRoom(PreparationCase prepared) {
        return prepared.inRoom()
                ? Optional.of(
                        new NextThing(Group.IN_ROOM, "In the room. Record the case when it is over.", Optional.empty()))
                : Optional.empty();
    }

    private static Optional<NextThing> chase(List<CaseItem> red, LocalDate today) {
        return asked(red)
                .filter(item -> !chaseOn(item).isAfter(today))
                .min(Comparator.comparing(NextThing::chaseOn))
                .map(item -> {
                    var asked = (Asked) item.standing();
                    return new NextThing(
                            Group.CHASE,
                            "Chase: " + item.what() + ", asked of " + asked.of() + " on " + DATE.format(asked.on()),
                            Optional.of(asked.chaseOn()));
                });
    }

    private static Optional<NextThing> late(List<CaseItem> red, LocalDate today) {
        return bookedItems(red)
                .filter(item -> bookedFor(item).isBefore(today))
                .min(Comparator.comparing(NextThing::bookedFor))
                .map(item ->
                        new NextThing(Group.CHASE, "Booked and not in: " + item.what(), Optional.of(bookedFor(item))));
    }

    private static Optional<NextThing> typeIn(List<CaseItem> red) {
        return red.stream()
                .filter(CaseItem::cameButNotTypedIn)
                .findFirst()
                .map(item -> new NextThing(Group.ASK, "Type in: " + item.what(), Optional.empty()));
    }

    private static Optional<NextThing> ask(List<CaseItem> red) {
        var wanted =
                red.stream().filter(item -> item.standing() instanceof Wanted).toList();
        if (wanted.isEmpty()) {
            return Optional.empty();
        }
        var more = wanted.size() - 1;
        return Optional.of(new NextThing(
                Group.ASK,
                "Ask for: " + wanted.getFirst().what() + (more == 0 ? "" : ", and " + more + " more"),
                Optional.empty()));
    }

    private static Optional<NextThing> completeIt(PreparationCase prepared) {
        return prepared.proposed().referral().state() == ReferralState.INFORMATION_NEEDED
                ? Optional.of(new NextThing(Group.ASK, "Complete what the physician asked for", Optional.empty()))
                : Optional.empty();
    }

    private static Optional<NextThing> dateAndStent(PreparationCase prepared) {
        if (prepared.proposed().referral().state() != ReferralState.APPROVED) {
            return Optional.empty();
        }
        return prepared.readiness() instanceof Readiness.NotReady(var reasons)
                ? reasons.stream()
                        .filter(reason -> reason.kind() != Kind.WORK_UP)
                        .findFirst()
                        .map(reason -> new NextThing(
                                Group.DATE_AND_STENT,
                                reason.kind() == Kind.NO_DATE ? "Book a date and a room" : reason.what(),
                                Optional.empty()))
                : Optional.empty();
    }

    private static Optional<NextThing> waitFor(List<CaseItem> red) {
        return asked(red).min(Comparator.comparing(NextThing::chaseOn)).map(item -> {
            var asked = (Asked) item.standing();
            return new NextThing(
                    Group.WAIT, "Waiting for: " + item.what() + ", from " + asked.of(), Optional.of(asked.chaseOn()));
        });
    }

    private static Optional<NextThing> booked(List<CaseItem> red) {
        return bookedItems(red)
                .min(Comparator.comparing(NextThing::bookedFor))
                .map(item -> new NextThing(
                        Group.BOOKED,
                        item.what() + ", " + ((Booked) item.standing()).where(),
                        Optional.of(bookedFor(item))));
    }

    private static Optional<NextThing> physician(PreparationCase prepared) {
        return prepared.proposed().referral().state() == ReferralState.QUEUED
                ? Optional.of(new NextThing(Group.PHYSICIAN, "The physician decides", Optional.empty()))
                : Optional.empty();
    }

    private static NextThing ready(PreparationCase prepared) {
        return new NextThing(
                Group.READY,
                prepared.readiness() instanceof Readiness.Overridden(var reasons, var by)
                        ? "Goes ahead by word of " + by.author()
                        : "Ready for the room",
                Optional.empty());
    }

    private static Stream<CaseItem> asked(List<CaseItem> red) {
        return red.stream().filter(item -> item.standing() instanceof Asked);
    }

    private static LocalDate chaseOn(CaseItem item) {
        return ((Asked) item.standing()).chaseOn();
    }

    private static Stream<CaseItem> bookedItems(List<CaseItem> red) {
        return red.stream().filter(item -> item.standing() instanceof Booked);
    }

    private static LocalDate bookedFor(CaseItem item) {
        return ((Booked) item.standing()).on();
    }
}
