package limbqueue.referral.ui;

import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import java.util.Optional;
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
                item.add(Markup.text("lq-reason-because", EvidenceWords.sentence(reason.because(), draft)));
            }
            item.add(Markup.text("lq-cited", reason.source()));
            list.add(item);
        }
        setContent(list);
    }

    /** The reasons, if there are any. */
    static Optional<ReasonList> of(String summary, List<Reason> reasons, Draft draft) {
        return reasons.isEmpty() ? Optional.empty() : Optional.of(new ReasonList(summary, reasons, draft));
    }
}
