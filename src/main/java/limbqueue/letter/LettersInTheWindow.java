package limbqueue.letter;

import java.util.ArrayList;
import java.util.Optional;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.LettersByPost;
import limbqueue.practice.PracticeSettings;
import org.springframework.stereotype.Component;

/** Tells the directory which addresses the window of the practice's envelopes does not show. */
@Component
class LettersInTheWindow implements LettersByPost {

    private final PracticeSettings settings;

    LettersInTheWindow(PracticeSettings settings) {
        this.settings = settings;
    }

    @Override
    public Optional<String> wrongWith(DirectoryEntry entry) {
        var lines = new ArrayList<String>();
        lines.add(Typed.line(entry.name()));
        if (!entry.organisation().isEmpty()) {
            lines.add(Typed.line(entry.organisation()));
        }
        lines.addAll(Typed.address(entry.address()));
        return Legible.wrongWith(String.join("\n", lines))
                .map(why -> why + " Write it in one of these scripts.")
                .or(() -> PostalAddress.tooLong(lines, settings.practice().window())
                        .map(why -> why + " Shorten it, or choose another way than post."));
    }
}
