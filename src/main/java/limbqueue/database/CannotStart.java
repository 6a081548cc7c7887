package limbqueue.database;

import org.jspecify.annotations.Nullable;
import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/** Finds the line for the console in the exception that ended the start. */
final class CannotStart extends AbstractFailureAnalyzer<CannotStartException> {

    @Override
    protected @Nullable FailureAnalysis analyze(Throwable rootFailure, CannotStartException cause) {
        return new FailureAnalysis(cause.getMessage(), null, cause);
    }
}
