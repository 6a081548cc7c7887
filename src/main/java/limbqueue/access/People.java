package limbqueue.access;

import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.regex.Pattern;
import limbqueue.access.jdbc.AccountStore;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The people who may sign in, as the manager keeps them. */
@Service
@RolesAllowed(Role.IS_MANAGER)
public class People {

    private static final Pattern SIGN_IN_NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{1,39}");
    private static final int LONGEST_DISPLAY_NAME = 80;

    private final AccountStore accounts;
    private final AuditTrail auditTrail;
    private final CurrentPerson currentPerson;
    private final PasswordEncoder passwordEncoder;

    People(AccountStore accounts, AuditTrail auditTrail, CurrentPerson currentPerson, PasswordEncoder passwordEncoder) {
        this.accounts = accounts;
        this.auditTrail = auditTrail;
        this.currentPerson = currentPerson;
        this.passwordEncoder = passwordEncoder;
    }

    /** Everybody, those who may sign in first, then by name. */
    public List<Account> all() {
        return accounts.all();
    }

    /** Adds a person with a generated password, which must be replaced at the first sign-in. */
    @Transactional
    public AddOutcome add(String signInName, String displayName, Role role) {
        var name = signInName.strip();
        var shown = displayName.strip();
        if (!SIGN_IN_NAME.matcher(name).matches()) {
            return new AddOutcome.NameRefused(
                    "Use 2 to 40 letters, digits, dots, hyphens or underscores, starting with a letter or digit.");
        }
        if (shown.isEmpty() || shown.length() > LONGEST_DISPLAY_NAME) {
            return new AddOutcome.DisplayNameRefused("Give the person's name, in at most 80 characters.");
        }
        var password = GeneratedPassword.make();
        var added = accounts.add(name, shown, role, PasswordHash.of(password, passwordEncoder), true);
        if (added.isEmpty()) {
            return new AddOutcome.NameRefused("Somebody already signs in as " + name + ". Choose another name.");
        }
        auditTrail.record("added person", name);
        return new AddOutcome.Added(added.get(), password);
    }

    /**
     * Ends the person's right to sign in, and every session they have.
     *
     * @throws NotPossibleException if the account has changed since it was read, if it is one's own, or if nobody would
     *     be left to manage people
     */
    @Transactional
    public void deactivate(Account account) {
        if (account.id() == currentPerson.get().id()) {
            throw new NotPossibleException("You can't deactivate yourself. Another manager can do it.");
        }
        accounts.lockManagers();
        change(accounts.setActive(account.id(), account.version(), false));
        if (!accounts.hasActiveManager()) {
            throw new NotPossibleException("This is the last active manager. Make another manager first.");
        }
        auditTrail.record("deactivated person", account.signInName());
    }

    /** Lets the person sign in again. @throws NotPossibleException if the account has changed since it was read */
    @Transactional
    public void reactivate(Account account) {
        change(accounts.setActive(account.id(), account.version(), true));
        auditTrail.record("reactivated person", account.signInName());
    }

    /**
     * Replaces a person's password by a generated one and ends every session they have.
     *
     * @return the generated password, to be handed over; it is kept nowhere
     * @throws NotPossibleException if the account has changed since it was read
     */
    @Transactional
    public String resetPassword(Account account) {
        var password = GeneratedPassword.make();
        change(accounts.setPassword(account.id(), account.version(), PasswordHash.of(password, passwordEncoder), true));
        auditTrail.record("reset password", account.signInName());
        return password;
    }

    private static void change(boolean changed) {
        if (!changed) {
            throw new NotPossibleException(
                    "This account was changed by somebody else meanwhile. The list is up to date now: please look again.");
        }
    }
}
