package limbqueue.access;

import limbqueue.access.jdbc.AccountStore;
import org.springframework.stereotype.Component;

/** Whether the sign-in on this thread still counts: for what reaches an open page without a request of its own. */
@Component
public class StandingSignIn {

    private final AccountStore accounts;
    private final CurrentPerson currentPerson;

    StandingSignIn(AccountStore accounts, CurrentPerson currentPerson) {
        this.accounts = accounts;
        this.currentPerson = currentPerson;
    }

    /** False also when nobody is signed in. */
    public boolean counts() {
        return currentPerson
                .signedIn()
                .map(SignedIn::account)
                .filter(account -> accounts.isCurrent(account.id(), account.version()))
                .isPresent();
    }
}
