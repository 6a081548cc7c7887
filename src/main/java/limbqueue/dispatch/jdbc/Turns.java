package limbqueue.dispatch.jdbc;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Duration;
import java.util.UUID;
import javax.sql.DataSource;
import org.springframework.stereotype.Component;

/**
 * Has one server of a cluster at a time do a piece of work, again and again; which one is settled in the database, by
 * db-scheduler. When it dies in the middle, another one takes over after about {@link #DEAD_AFTER}.
 */
@Component
public class Turns {

    static final Duration HEARTBEAT = Duration.ofSeconds(15);
    private static final int MISSED = 4;
    static final Duration DEAD_AFTER = HEARTBEAT.multipliedBy(MISSED);

    private static final Duration ENDS_WITHIN = Duration.ofSeconds(10);

    private final DataSource source;

    /** Work that is done again and again, until it is closed. */
    public interface Turn extends AutoCloseable {

        @Override
        void close();
    }

    public Turns(DataSource source) {
        this.source = source;
    }

    /**
     * Begins.
     *
     * @param pause between the end of a turn and the next
     * @return ends it on this server
     */
    public Turn take(String name, Duration pause, Runnable work) {
        var scheduler = Scheduler.create(source)
                .startTasks(Tasks.recurring(name, FixedDelay.of(pause)).execute((_, _) -> work.run()))
                .schedulerName(new SchedulerName.Fixed(UUID.randomUUID().toString()))
                .threads(1)
                .pollingInterval(pause)
                .heartbeatInterval(HEARTBEAT)
                .missedHeartbeatsLimit(MISSED)
                .shutdownMaxWait(ENDS_WITHIN)
                .build();
        scheduler.start();
        return scheduler::stop;
    }
}
