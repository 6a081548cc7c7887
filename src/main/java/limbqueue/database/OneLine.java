package limbqueue.database;

import org.springframework.boot.diagnostics.FailureAnalysis;
import org.springframework.boot.diagnostics.FailureAnalysisReporter;
import org.springframework.boot.logging.LogLevel;
import org.springframework.boot.logging.LoggingSystem;

/** Says at the console, in one line, why the application did not start and what to do. */
final class OneLine implements FailureAnalysisReporter {

    OneLine() {
        // Speaks in place of Spring Boot's own report. The settings can't say so: most checks come before they hold.
        LoggingSystem.get(OneLine.class.getClassLoader())
                .setLogLevel("org.springframework.boot.diagnostics.LoggingFailureAnalysisReporter", LogLevel.OFF);
    }

    @Override
    public void report(FailureAnalysis analysis) {
        var line = new StringBuilder("limbqueue: ").append(analysis.getDescription());
        if (analysis.getAction() != null && !analysis.getAction().isBlank()) {
            line.append(' ').append(analysis.getAction());
        }
        System.err.println(line.toString().strip().replaceAll("\\s*\\R\\s*", " "));
    }
}
