package limbqueue.shell;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.confirmdialog.ConfirmDialog;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.server.ServiceInitEvent;
import com.vaadin.flow.server.VaadinServiceInitListener;
import java.util.Locale;
import org.springframework.stereotype.Component;

/** What holds for every page: its language, and what happens when something goes wrong that nobody foresaw. */
@Component
class PageSetup implements VaadinServiceInitListener {

    private static final long serialVersionUID = 1L;

    @Override
    public void serviceInit(ServiceInitEvent service) {
        service.addIndexHtmlRequestListener(
                page -> page.getDocument().getElementsByTag("html").attr("lang", "en-GB"));
        service.getSource().addUIInitListener(init -> {
            init.getUI().setLocale(Locale.UK);
            // Our style sheet has its own line for a request that takes long.
            init.getUI().getLoadingIndicatorConfiguration().setApplyDefaultTheme(false);
        });
        service.getSource().addSessionInitListener(init -> {
            init.getSession().setLocale(Locale.UK);
            init.getSession().setErrorHandler(error -> {
                var incident = Incident.log(error.getThrowable());
                if (UI.getCurrent() != null) {
                    tell(incident);
                }
            });
        });
    }

    private static void tell(Incident incident) {
        var dialog = new ConfirmDialog();
        dialog.setHeader("That did not work");
        dialog.setText(new Paragraph(incident.sentence()));
        dialog.setConfirmText("Go on");
        dialog.open();
    }
}
