package limbqueue.timetable.ui;

import com.vaadin.flow.component.html.Paragraph;
import java.util.List;
import java.util.Optional;
import limbqueue.shell.AskingDialog;

/** Asks a person before something is done that moves somebody, or that a plan would never do. */
final class AskFirst {

    private AskFirst() {}

    /**
     * @param concerns one sentence each
     * @param deed the words on the button
     * @param yes does it
     */
    static void open(String title, List<String> concerns, String deed, Runnable yes) {
        new AskingDialog(title, concerns.stream().map(Paragraph::new).toList(), deed, () -> {
                    yes.run();
                    return Optional.empty();
                })
                .open();
    }
}
