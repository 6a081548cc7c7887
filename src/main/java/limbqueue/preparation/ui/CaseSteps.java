package limbqueue.preparation.ui;

import com.vaadin.flow.component.html.Div;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.PreparationOutcome;

/** What every step on the page of a case leads to: it is told, and the case is shown as it is now. */
final class CaseSteps {

    private final Preparation preparation;
    private final Div message;
    private final Consumer<PreparationCase> show;

    /** @param message where it is told */
    CaseSteps(Preparation preparation, Div message, Consumer<PreparationCase> show) {
        this.preparation = preparation;
        this.message = message;
        this.show = show;
    }

    /** @return why it could not be done, for a dialog that stays open */
    Optional<String> refusal(long id, PreparationOutcome outcome, String said) {
        if (outcome instanceof PreparationOutcome.Refused(var why)) {
            return Optional.of(why);
        }
        done(id, outcome, said);
        return Optional.empty();
    }

    void done(long id, PreparationOutcome outcome, String said) {
        said(
                id,
                switch (outcome) {
                    case PreparationOutcome.Done _ -> said;
                    case PreparationOutcome.Overtaken _ ->
                        "Somebody else was faster, or the facts have changed. Nothing was done; look again.";
                    case PreparationOutcome.Refused(var why) -> why;
                });
    }

    void said(long id, String words) {
        message.setText(words);
        show.accept(preparation.get(id));
        // What was pressed is gone with the old page; the next key press starts here.
        message.getElement().executeJs("this.focus({preventScroll: true})");
    }
}
