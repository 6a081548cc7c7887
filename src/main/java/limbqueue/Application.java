package limbqueue;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.page.AppShellConfigurator;
import com.vaadin.flow.component.page.Push;
import com.vaadin.flow.component.page.Viewport;
import com.vaadin.flow.server.AppShellSettings;
import com.vaadin.flow.shared.ui.Transport;
import com.vaadin.flow.theme.aura.Aura;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The application with its screens, its database and its services. */
@SpringBootApplication
@StyleSheet(Aura.STYLESHEET)
@StyleSheet("context://ui/limbqueue.css")
// Requests stay requests, so that each of them is checked like any other; only what others change comes by itself.
@Push(transport = Transport.WEBSOCKET_XHR)
@Viewport("width=device-width, initial-scale=1")
public class Application implements AppShellConfigurator {

    private static final long serialVersionUID = 1L;

    /** Starts the application; where that fails, the reason has been said and the process ends with status 1. */
    public static void main(String[] args) {
        try {
            SpringApplication.run(Application.class, args);
        } catch (RuntimeException reported) {
            System.exit(1);
        }
    }

    @Override
    public void configurePage(AppShellSettings settings) {
        settings.addLink("icon", "ui/favicon.svg");
    }
}
