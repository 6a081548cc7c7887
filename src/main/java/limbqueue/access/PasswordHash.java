package limbqueue.access;

import java.util.Objects;
import org.springframework.security.crypto.password.PasswordEncoder;

/** What is kept of a password. */
final class PasswordHash {

    private PasswordHash() {}

    /** The encoder gives nothing for nothing only, and a password is something. */
    static String of(String password, PasswordEncoder encoder) {
        return Objects.requireNonNull(encoder.encode(password));
    }
}
