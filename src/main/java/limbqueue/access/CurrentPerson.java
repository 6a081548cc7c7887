package limbqueue.access;

import java.util.Optional;
import org.springframework.stereotype.Component;

/** Who is signed in on this thread. */
@Component
public class CurrentPerson {

    /** The person signed in. @throws org.springframework.security.access.AccessDeniedException if nobody is */
    public Person get() {
        throw new IllegalStateException("being built");
    }

    public Optional<Person> find() {
        throw new IllegalStateException("being built");
    }
}
