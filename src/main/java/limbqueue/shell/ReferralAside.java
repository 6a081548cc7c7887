package limbqueue.shell;

import com.vaadin.flow.component.Component;
import java.util.Optional;

/** What a module has to say on top of the page of a referral. */
public interface ReferralAside {

    /** @param again shows the page anew, after something changed */
    Optional<Component> of(long referral, Runnable again);
}
