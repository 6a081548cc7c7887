package limbqueue.invitation;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.booking.StepKind;
import limbqueue.letter.Parts;
import limbqueue.letter.Parts.Letterhead;
import limbqueue.letter.Parts.Passage;
import limbqueue.letter.Typed;
import limbqueue.practice.Practice;

/**
 * Writes the letter that tells a patient of an appointment. It has the patient's name and address, when and where, and how to
 * prepare: nothing of the referral, of what was found, or of anybody else.
 */
final class AppointmentLetter {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.UK);
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.UK);

    /** Nobody keeps an appointment at 08:27: patients are asked to come at the full five minutes before (common practice, no source). */
    private static final int MINUTES = 5;

    private AppointmentLetter() {}

    /**
     * To whom, when and where.
     *
     * @param name empty if the referral names nobody
     * @param address as typed; nothing if the referral has none
     * @param at on the clock of the practice
     */
    record Facts(
            String name, Optional<String> address, String reference, StepKind step, LocalDateTime at, String place) {}

    static Parts parts(Practice practice, Facts facts, LocalDate dated) {
        var name = Typed.line(facts.name());
        var body = new ArrayList<Passage>();
        body.add(Passage.list(
                "We have booked a visit for you:",
                List.of(
                        "day: " + DAY.format(facts.at()),
                        "time: please come at " + timeToCome(facts.at().toLocalTime()),
                        "place: " + Typed.line(facts.place()),
                        "what for: " + Preparing.purpose(facts.step()))));
        // On the first page, whatever follows.
        body.add(caution(practice));
        body.addAll(Preparing.of(facts.step()));
        body.add(Passage.paragraph(
                "This letter proposes what helps most people. A licensed doctor decides what is right for"
                        + " you. What the doctor tells you and the rules of this practice come first."));
        return new Parts(
                "en-GB",
                Letterhead.of(practice),
                DATE.format(dated),
                Stream.concat(Stream.of(name), facts.address().map(Typed::address).orElse(List.of()).stream())
                        .filter(line -> !line.isEmpty())
                        .toList(),
                "Your visit on " + DAY.format(facts.at()),
                List.of("Our reference: " + Typed.line(facts.reference())),
                "Dear " + (name.isEmpty() ? "patient" : name) + ",",
                List.copyOf(body),
                Stream.of("With kind regards", Typed.line(practice.signatory()), Typed.line(practice.name()))
                        .filter(line -> !line.isEmpty())
                        .toList());
    }

    static LocalTime timeToCome(LocalTime expected) {
        return LocalTime.of(expected.getHour(), expected.getMinute() / MINUTES * MINUTES);
    }

    /** The sentence that no letter is without. */
    private static Passage caution(Practice practice) {
        var call = Stream.of(practice.urgentPhone(), practice.phone())
                .map(Typed::line)
                .filter(line -> !line.isEmpty())
                .findFirst()
                .map(number -> "Call us at once on " + number + ", or go to the nearest emergency department.")
                .orElse("Go to the nearest emergency department at once.");
        return Passage.caution(
                "Do not wait for this visit if your leg gets worse: if it hurts at rest, turns pale, blue or"
                        + " black, feels cold or numb, if a wound grows, or if you have a fever. " + call);
    }
}
