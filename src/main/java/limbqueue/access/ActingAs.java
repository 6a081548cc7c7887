package limbqueue.access;

import limbqueue.access.jdbc.AccountStore;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;

/** Runs work of the application itself, as loading a demo, under the name and with the rights of one person. */
@Component
public class ActingAs {

    private final AccountStore accounts;

    ActingAs(AccountStore accounts) {
        this.accounts = accounts;
    }

    /**
     * Runs {@code work} on this thread as the person with this sign-in name; afterwards the thread acts for whom it
     * acted before.
     *
     * @throws IllegalArgumentException if nobody active has this name
     */
    public void person(String signInName, Runnable work) {
        var account = accounts.find(signInName)
                .map(AccountStore.Found::account)
                .filter(Account::active)
                .orElseThrow(() -> new IllegalArgumentException("nobody active signs in as " + signInName));
        var signedIn = new SignedIn(account, "");
        var before = SecurityContextHolder.getContext();
        var context = SecurityContextHolder.createEmptyContext();
        context.setAuthentication(
                UsernamePasswordAuthenticationToken.authenticated(signedIn, null, signedIn.getAuthorities()));
        SecurityContextHolder.setContext(context);
        try {
            work.run();
        } finally {
            SecurityContextHolder.setContext(before);
        }
    }
}
