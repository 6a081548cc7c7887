package limbqueue.access;

import java.util.Optional;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;

/** Who is signed in on this thread. */
@Component
public class CurrentPerson {

    /**
     * The person signed in.
     *
     * @throws AccessDeniedException if nobody is
     */
    public Person get() {
        return find().orElseThrow(() -> new AccessDeniedException("Nobody is signed in."));
    }

    public Optional<Person> find() {
        return signedIn().map(signedIn -> signedIn.account().person());
    }

    /** Whether the person signed in uses a password that somebody else made and knows. */
    public boolean mustChangePassword() {
        return signedIn()
                .map(signedIn -> signedIn.account().mustChangePassword())
                .orElse(false);
    }

    Optional<SignedIn> signedIn() {
        var authentication = SecurityContextHolder.getContext().getAuthentication();
        if (authentication != null && authentication.getPrincipal() instanceof SignedIn signedIn) {
            return Optional.of(signedIn);
        }
        return Optional.empty();
    }
}
