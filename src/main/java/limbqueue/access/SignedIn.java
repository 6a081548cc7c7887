package limbqueue.access;

import java.util.Collection;
import java.util.List;
import org.springframework.security.core.CredentialsContainer;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.core.authority.SimpleGrantedAuthority;
import org.springframework.security.core.userdetails.UserDetails;

/** What the session keeps of the person who signed in: the account as it was at that moment. */
final class SignedIn implements UserDetails, CredentialsContainer {

    private static final long serialVersionUID = 1L;

    private final transient Account account;
    private String passwordHash;

    SignedIn(Account account, String passwordHash) {
        this.account = account;
        this.passwordHash = passwordHash;
    }

    Account account() {
        return account;
    }

    @Override
    public Collection<? extends GrantedAuthority> getAuthorities() {
        return List.of(new SimpleGrantedAuthority("ROLE_" + account.role().name()));
    }

    @Override
    public String getPassword() {
        return passwordHash;
    }

    @Override
    public String getUsername() {
        return account.signInName();
    }

    @Override
    public boolean isEnabled() {
        return account.active();
    }

    @Override
    public void eraseCredentials() {
        passwordHash = "";
    }
}
