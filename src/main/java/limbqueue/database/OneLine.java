package limbqueue.database;

import org.springframework.boot.diagnostics.FailureAnalysis;
import org.springframework.boot.diagnostics.FailureAnalysisReporter;

/** Says at the console, in one line, why the application did not start and what to do. */
final class OneLine implements FailureAnalysisReporter {

    @Override
    public void report(FailureAnalysis analysis) {
        var line = new StringBuilder("limbqueue: ").append(analysis.getDescription());
        if (analysis.getAction() != null && !analysis.getAction().isBlank()) {
            line.append(' ').append(analysis.getAction());
        }
        System.err.println(line.toString().strip().replaceAll("\\s*\\R\\s*", " "));
    }
}
