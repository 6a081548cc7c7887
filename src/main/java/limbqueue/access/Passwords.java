package limbqueue.access;

import java.util.Objects;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Component;

/** Turns passwords into what may be kept of them, and compares. */
@Component
class Passwords {

    private final PasswordEncoder encoder;

    Passwords(PasswordEncoder encoder) {
        this.encoder = encoder;
    }

    String hash(String password) {
        return Objects.requireNonNull(encoder.encode(password));
    }

    boolean match(String password, String hash) {
        return encoder.matches(password, hash);
    }
}
