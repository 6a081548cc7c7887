package limbqueue.referral.ui;

import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.document.Draft;
import limbqueue.triage.TriageResult.Reason;

/** The reasons behind a conclusion, on demand: each with the facts it rests on and its source. */
class ReasonList extends NativeDetails {

    private ReasonList(String summary, List<Reason> reasons, Draft draft) {
        super(summary + " (" + reasons.size() + ")");
        addClassName("lq-reasons");
        var list = new UnorderedList();
        for (var reason : reasons) {
            var item = new ListItem();
            item.add(Markup.text("lq-reason-text", reason.text()));
            if (!reason.because().isEmpty()) {
                item.add(Markup.text("lq-reason-because", facts(reason.because(), draft)));
            }
            item.add(Markup.text("lq-source", reason.source()));
            list.add(item);
        }
        setContent(list);
    }

    /** The reasons, if there are any. */
    static Optional<ReasonList> of(String summary, List<Reason> reasons, Draft draft) {
        return reasons.isEmpty() ? Optional.empty() : Optional.of(new ReasonList(summary, reasons, draft));
    }

    /** Fields with their values: {@code left leg, toe pressure: 30 mmHg; diabetes: not known}. */
    private static String facts(List<String> paths, Draft draft) {
        return paths.stream()
                .map(path -> FieldWords.of(path) + ": " + DocumentChanges.value(draft, path))
                .collect(Collectors.joining("; "));
    }
}
