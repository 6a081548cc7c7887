package limbqueue.testbed;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.test.context.TestExecutionListeners;

/**
 * Runs a test class within the whole application, on PostgreSQL, with a fresh database for the class. The database holds
 * one person of each role, named {@code coordinator}, {@code physician} and {@code manager}; {@link
 * limbqueue.access.ActingAs} runs a piece of a test as one of them.
 *
 * <p>All such classes share one application, so that it starts once a run.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT, classes = limbqueue.Application.class)
@TestExecutionListeners(
        listeners = FreshDatabase.class,
        mergeMode = TestExecutionListeners.MergeMode.MERGE_WITH_DEFAULTS)
public @interface OnPostgres {}
