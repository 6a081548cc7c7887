package limbqueue.chasing;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.Parts;
import limbqueue.letter.Parts.Letterhead;
import limbqueue.letter.Parts.Passage;
import limbqueue.letter.Typed;
import limbqueue.practice.Practice;
import limbqueue.triage.ReferralDocument.Patient;

/**
 * Writes to the records office of another hospital. The letter holds what the office needs to find the record and nothing of
 * what the patient has or what is suspected.
 */
final class RecordsLetterWriter {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.UK);

    private final Practice practice;

    RecordsLetterWriter(Practice practice) {
        this.practice = practice;
    }

    /**
     * @param number 1 for the request, 2 and 3 for the reminders
     * @param earlier the days of the letters before it
     * @param answerBy the day by which an answer is hoped for
     */
    Parts write(
            RecordsRequest request,
            int number,
            String reference,
            Patient patient,
            LocalDate dated,
            List<LocalDate> earlier,
            LocalDate answerBy) {
        var name = name(patient).orElse("name not stated");
        var body = new ArrayList<Passage>();
        body.add(Passage.paragraph(
                number == 1
                        ? "This patient has been referred to us for treatment. To plan it, we need records that you hold."
                        : "We wrote to you about this patient on " + days(earlier)
                                + " and have not received everything that we asked for. We still need it to plan the"
                                + " treatment."));
        body.add(Passage.list(
                "Please send us, of the following, the " + request.missing() + ":",
                List.of(Typed.line(request.about()) + ", at " + Typed.line(request.hospital()))));
        if (request.reportMissing()) {
            body.add(Passage.paragraph(
                    "By the report we mean the full report of the person who did it, not a summary."));
        }
        if (request.imagesMissing()) {
            body.add(Passage.paragraph(
                    "By the images we mean all of them, in DICOM, over a secure transfer or on a disc."));
        }
        body.add(Passage.paragraph("We would be glad to have it by " + DATE.format(answerBy)
                + ". If you do not hold it, or cannot send it, please tell us so that we need not wait"
                + phone().map(digits -> ": our number is " + digits).orElse("") + "."));
        body.add(Passage.caution(
                "This letter holds personal data of a patient and is meant for the addressee alone. Please send"
                        + " no more than what is asked for here. If it has reached you in error, "
                        + phone().map(digits -> "tell us on " + digits).orElse("tell us") + " and destroy it."));
        return new Parts(
                "en-GB",
                Letterhead.of(practice),
                DATE.format(dated),
                addressee(request.hospital(), request.address()),
                switch (number) {
                    case 1 -> "Request for records";
                    case 2 -> "Request for records: second letter";
                    default -> "Request for records: third letter";
                },
                List.of(
                        "Patient: " + name
                                + patient.born()
                                        .map(born -> ", born " + DATE.format(born))
                                        .orElse(""),
                        "Our reference: " + Typed.line(reference)),
                "Dear colleagues,",
                body,
                Stream.of("With kind regards", Typed.line(practice.signatory()), Typed.line(practice.name()))
                        .filter(line -> !line.isEmpty())
                        .toList());
    }

    static List<String> addressee(String hospital, String address) {
        return Stream.concat(Stream.of("Medical records", Typed.line(hospital)), Typed.address(address).stream())
                .toList();
    }

    private Optional<String> phone() {
        return Optional.of(Typed.line(practice.phone())).filter(number -> !number.isEmpty());
    }

    private static String days(List<LocalDate> earlier) {
        return earlier.stream().map(DATE::format).collect(Collectors.joining(" and on "));
    }

    private static Optional<String> name(Patient patient) {
        return Optional.of(Stream.of(patient.given(), patient.family())
                        .map(Typed::line)
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining(" ")))
                .filter(name -> !name.isEmpty());
    }
}
