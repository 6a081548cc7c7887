package limbqueue.policy.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import limbqueue.practice.PolicyVersion;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;

/** Every version of the policy, each to be read and compared with the one before it. */
class HistoryPanel extends Section {

    /** @param versions the newest first */
    HistoryPanel(List<PolicyVersion> versions, PolicyVersion inForce) {
        addClassNames("lq-card", "lq-policy-history");
        add(new H2("Versions, newest first"));
        var list = new OrderedList();
        list.getElement().setAttribute("reversed", true);
        for (var i = 0; i < versions.size(); i++) {
            var version = versions.get(i);
            var before = i + 1 < versions.size() ? PolicyWords.of(versions.get(i + 1)) : Map.<String, String>of();
            list.add(new ListItem(
                    Pieces.text(
                            "lq-strong",
                            version.policy().id() + ", from " + DayWords.date(version.validFrom())
                                    + (version.version() == inForce.version() ? " (in force)" : "")),
                    Pieces.text("lq-policy-reason", version.reason()),
                    Pieces.text("lq-quiet", version.who() + ", " + DayWords.moment(version.publishedAt())),
                    Pieces.text("lq-policy-changes", changes(version, before)),
                    whole(version, before)));
        }
        add(list);
    }

    private static String changes(PolicyVersion version, Map<String, String> before) {
        if (before.isEmpty()) {
            return "The first version.";
        }
        var changes = PolicyWords.of(version).entrySet().stream()
                .filter(entry -> !entry.getValue().equals(before.get(entry.getKey())))
                .map(entry -> entry.getKey() + " was " + before.get(entry.getKey()) + ", is " + entry.getValue())
                .collect(Collectors.joining(". "));
        return changes.isEmpty() ? "Nothing differs from the version before." : changes + ".";
    }

    private static Component whole(PolicyVersion version, Map<String, String> before) {
        var table = new NativeTable();
        table.addClassName("lq-table");
        var head = new NativeTableRow(heading("What", "col"), heading("This version", "col"));
        if (!before.isEmpty()) {
            head.add(heading("The one before", "col"));
        }
        table.getHead().add(head);
        PolicyWords.of(version).forEach((what, value) -> {
            var earlier = before.get(what);
            var differs = earlier != null && !earlier.equals(value);
            var cell = new NativeTableCell();
            cell.add(Pieces.text(differs ? "lq-strong" : "lq-policy-value", value));
            if (differs) {
                cell.add(Pieces.text("lq-policy-changed", "changed"));
            }
            var row = new NativeTableRow(heading(what, "row"), cell);
            if (earlier != null) {
                row.add(new NativeTableCell(earlier));
            }
            table.getBody().add(row);
        });
        return new NativeDetails("Read " + version.policy().id(), table);
    }

    private static NativeTableHeaderCell heading(String words, String scope) {
        var cell = new NativeTableHeaderCell(words);
        cell.getElement().setAttribute("scope", scope);
        return cell;
    }
}
