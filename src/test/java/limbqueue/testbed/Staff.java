package limbqueue.testbed;

import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import limbqueue.access.ActingAs;

/** Lets a test call a service as one of the people of the test database. */
public final class Staff {

    private final ActingAs actingAs;

    public Staff(ActingAs actingAs) {
        this.actingAs = actingAs;
    }

    /** What {@code work} gives when {@code person} does it. */
    public <T> T as(String person, Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> {
            try {
                result.set(work.call());
            } catch (RuntimeException failed) {
                throw failed;
            } catch (Exception failed) {
                throw new IllegalStateException(failed);
            }
        });
        return result.get();
    }
}
