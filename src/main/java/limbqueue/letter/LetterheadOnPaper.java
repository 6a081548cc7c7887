package limbqueue.letter;

import java.util.Optional;
import limbqueue.letter.Parts.Letterhead;
import limbqueue.practice.LetterheadCheck;
import limbqueue.practice.Practice;
import org.springframework.stereotype.Component;

/** Tells the practice what of its letterhead has no room on the page. */
@Component
class LetterheadOnPaper implements LetterheadCheck {

    @Override
    public Optional<String> wrongWith(Practice practice) {
        var head = Letterhead.of(practice);
        return Legible.wrongWith(head.name() + "\n" + String.join("\n", head.lines()) + "\n"
                        + String.join("\n", head.contact()) + "\n" + practice.signatory())
                .map(why -> why + " Write it in one of these scripts.")
                .or(() -> FirstPage.tooLong(head));
    }
}
