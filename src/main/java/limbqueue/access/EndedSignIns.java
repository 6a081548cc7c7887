package limbqueue.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import limbqueue.access.jdbc.AccountStore;
import org.springframework.security.web.authentication.logout.SecurityContextLogoutHandler;
import org.springframework.web.filter.OncePerRequestFilter;

/** Ends the session of a person whose account was deactivated or whose password was replaced since they signed in. */
final class EndedSignIns extends OncePerRequestFilter {

    private final AccountStore accounts;
    private final CurrentPerson currentPerson;
    private final SecurityContextLogoutHandler signOut = new SecurityContextLogoutHandler();

    EndedSignIns(AccountStore accounts, CurrentPerson currentPerson) {
        this.accounts = accounts;
        this.currentPerson = currentPerson;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        currentPerson.signedIn().map(SignedIn::account).ifPresent(account -> {
            if (!accounts.isCurrent(account.id(), account.version())) {
                signOut.logout(request, response, null);
            }
        });
        chain.doFilter(request, response);
    }
}
