package limbqueue.dispatch;

import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.Letter;
import limbqueue.letter.Parts.Letterhead;

/** The words of the message that carries a letter. They say nothing of the patient: the letter is in the attachment. */
final class CoveringNote {

    private CoveringNote() {}

    static String of(Letter letter, Letterhead head) {
        return Stream.concat(
                        Stream.of(
                                letter.kind().toPatient()
                                        ? "Our letter to you is attached as a PDF file."
                                        : "Our letter about a patient whom you referred to us is attached as a PDF file.",
                                "Our reference: " + letter.reference(),
                                "",
                                "It is meant for " + letter.recipient()
                                        + " alone. If it has reached you by mistake, please tell us"
                                        + " and delete it.",
                                "",
                                head.name()),
                        Stream.concat(head.lines().stream(), head.contact().stream()))
                .collect(Collectors.joining("\n", "", "\n"));
    }
}
