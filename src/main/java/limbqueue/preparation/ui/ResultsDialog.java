package limbqueue.preparation.ui;

import java.util.Optional;
import limbqueue.preparation.CaseItem;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.referral.ReferralState;
import limbqueue.referral.ResultsOutcome;
import limbqueue.shell.AskingDialog;

/** Asks for results that have come, and enters them into the referral. */
record ResultsDialog(Preparation preparation, CaseSteps steps) {

    AskingDialog of(PreparationCase prepared, Optional<CaseItem> item, String about) {
        return of(
                prepared,
                item,
                about,
                ResultFields.of(item.orElseThrow().code(), preparation.today()).orElseThrow());
    }

    AskingDialog of(PreparationCase prepared, Optional<CaseItem> item, String about, ResultFields fields) {
        var id = prepared.id();
        return new AskingDialog("Type in: " + about, fields.fields(), "Save", () -> {
            try {
                return entered(
                        id,
                        about,
                        preparation.enterResults(
                                id,
                                prepared.proposed().referral().version(),
                                item.map(CaseItem::code),
                                fields.typed()));
            } catch (ResultFields.NotTyped notTyped) {
                return Optional.of(notTyped.why);
            }
        });
    }

    private Optional<String> entered(long id, String about, ResultsOutcome outcome) {
        return switch (outcome) {
            case ResultsOutcome.NotRight(var problems) ->
                Optional.of(String.join(
                        " ", problems.stream().map(problem -> problem.text()).toList()));
            case ResultsOutcome.Overtaken _ -> {
                steps.said(id, "Somebody else changed the referral meanwhile. Look again, and type it in once more.");
                yield Optional.empty();
            }
            case ResultsOutcome.Entered(var referral, var changes) -> {
                steps.said(
                        id,
                        changes.isEmpty()
                                ? about + " is typed in."
                                        + (referral.state() == ReferralState.APPROVED ? " The decision stands." : "")
                                : about + " is typed in. The referral is before the physician again: "
                                        + String.join(" ", changes));
                yield Optional.empty();
            }
        };
    }
}
