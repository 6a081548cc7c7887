package limbqueue.access;

import limbqueue.access.jdbc.AccountStore;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The accounts that the application makes itself, when there are none and so nobody who could. */
@Component
public class FirstPeople {

    private final AccountStore accounts;
    private final AuditTrail auditTrail;
    private final PasswordEncoder passwordEncoder;

    FirstPeople(AccountStore accounts, AuditTrail auditTrail, PasswordEncoder passwordEncoder) {
        this.accounts = accounts;
        this.auditTrail = auditTrail;
        this.passwordEncoder = passwordEncoder;
    }

    /** Whether there is no account at all. */
    public boolean nobody() {
        return accounts.all().isEmpty();
    }

    /** Adds a person with a known password. @throws IllegalStateException if the sign-in name is taken */
    @Transactional
    public void add(String signInName, String displayName, Role role, String password) {
        add(signInName, displayName, role, password, false);
    }

    /**
     * Adds a manager with a generated password, which must be replaced at the first sign-in.
     *
     * @return the password; it is kept nowhere
     */
    @Transactional
    public String addManager(String signInName) {
        var password = GeneratedPassword.make();
        add(signInName, "Manager", Role.MANAGER, password, true);
        return password;
    }

    private void add(String signInName, String displayName, Role role, String password, boolean generated) {
        var added = accounts.add(signInName, displayName, role, PasswordHash.of(password, passwordEncoder), generated);
        if (added.isEmpty()) {
            throw new IllegalStateException("the sign-in name " + signInName + " is taken");
        }
        auditTrail.recordOwn("added person", signInName);
    }

    /** Whether somebody can sign in with this name and password now. */
    public boolean canSignIn(String signInName, String password) {
        return accounts.find(signInName)
                .filter(found -> found.account().active())
                .filter(found -> passwordEncoder.matches(password, found.passwordHash()))
                .isPresent();
    }
}
