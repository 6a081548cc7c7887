package limbqueue.access.ui;

import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import limbqueue.access.Activity;
import limbqueue.access.AuditEntry;
import limbqueue.access.Role;

/** Who did what and when, newest first, for the manager. */
@Route("activity")
@PageTitle("Activity · LimbQueue")
@Menu(title = "Activity", order = 80)
@RolesAllowed(Role.IS_MANAGER)
class ActivityView extends Section {

    private static final DateTimeFormatter WHEN =
            DateTimeFormatter.ofPattern("d MMM uuuu, HH:mm:ss", Locale.UK).withZone(ZoneId.systemDefault());

    ActivityView(Activity activity) {
        addClassNames("lq-page", "lq-fills");
        var grid = new Grid<AuditEntry>();
        grid.addColumn(entry -> WHEN.format(entry.at()))
                .setHeader("When")
                .setFlexGrow(0)
                .setWidth("190px");
        grid.addColumn(AuditEntry::who).setHeader("Who").setFlexGrow(1);
        grid.addColumn(AuditEntry::action).setHeader("Did").setFlexGrow(1);
        grid.addColumn(AuditEntry::subject).setHeader("To").setFlexGrow(1);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        grid.setItems(query -> activity.newestFirst(query.getOffset(), query.getLimit()).stream());
        grid.setSizeFull();
        var head = new Div(new H1("Activity"));
        head.addClassName("lq-page-head");
        add(head, grid);
    }
}
