package limbqueue;

import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.page.AppShellConfigurator;
import com.vaadin.flow.theme.aura.Aura;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The application with its screens, its database and its services. */
@SpringBootApplication
@StyleSheet(Aura.STYLESHEET)
@StyleSheet("context://ui/limbqueue.css")
public class Application implements AppShellConfigurator {}
