package limbqueue.access;

import jakarta.annotation.security.RolesAllowed;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import limbqueue.access.jdbc.AccountStore;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** A person's own password. */
@Service
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
public class OwnPassword {

    /** Least number of characters of a password that a person chooses. */
    public static final int SHORTEST = 10;

    /** Most bytes that bcrypt looks at. */
    private static final int LONGEST_BYTES = 72;

    private final AccountStore accounts;
    private final AuditTrail auditTrail;
    private final CurrentPerson currentPerson;
    private final PasswordEncoder passwordEncoder;

    OwnPassword(
            AccountStore accounts,
            AuditTrail auditTrail,
            CurrentPerson currentPerson,
            PasswordEncoder passwordEncoder) {
        this.accounts = accounts;
        this.auditTrail = auditTrail;
        this.currentPerson = currentPerson;
        this.passwordEncoder = passwordEncoder;
    }

    /** Why {@code wanted} can't be the current person's password, in words; empty if it can. */
    public Optional<String> objection(String wanted) {
        if (wanted.length() < SHORTEST) {
            return Optional.of("Use at least " + SHORTEST + " characters. Several words are easiest to remember.");
        }
        if (wanted.getBytes(StandardCharsets.UTF_8).length > LONGEST_BYTES) {
            return Optional.of("Use at most " + LONGEST_BYTES + " characters.");
        }
        var name = currentPerson.get().signInName().toLowerCase(Locale.ROOT);
        if (wanted.toLowerCase(Locale.ROOT).contains(name)) {
            return Optional.of("Leave your sign-in name out of the password.");
        }
        return Optional.empty();
    }

    /**
     * Replaces the current person's password. Every other session of theirs ends; this one goes on.
     *
     * @return false if {@code present} is not the current password; nothing has changed then
     * @throws IllegalArgumentException if there is an {@link #objection} to {@code wanted}
     * @throws NotPossibleException if the account was changed by somebody else meanwhile
     */
    @Transactional
    public boolean change(String present, String wanted) {
        objection(wanted).ifPresent(why -> {
            throw new IllegalArgumentException(why);
        });
        var person = currentPerson.get();
        var signedIn = accounts.find(person.signInName()).orElseThrow();
        if (!passwordEncoder.matches(present, signedIn.passwordHash())) {
            return false;
        }
        var hash = PasswordHash.of(wanted, passwordEncoder);
        var account = signedIn.account();
        if (!accounts.setPassword(account.id(), account.version(), hash, false)) {
            throw new NotPossibleException(
                    "Your account was changed by somebody else meanwhile. Please sign in again.");
        }
        auditTrail.record("changed own password", person.signInName());
        var now = new SignedIn(accounts.get(account.id()), "");
        SecurityContextHolder.getContext()
                .setAuthentication(UsernamePasswordAuthenticationToken.authenticated(now, null, now.getAuthorities()));
        return true;
    }
}
