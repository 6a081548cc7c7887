package limbqueue.presence;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import limbqueue.access.CurrentPerson;
import limbqueue.presence.jdbc.OnlookerStore;
import org.springframework.stereotype.Service;

/** Who looks at a referral. */
@Service
@RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
public class Onlookers {

    private final OnlookerStore store;
    private final OpenPages pages;
    private final CurrentPerson person;

    Onlookers(OnlookerStore store, OpenPages pages, CurrentPerson person) {
        this.store = store;
        this.pages = pages;
        this.person = person;
    }

    /**
     * Keeps that the person signed in has this referral open.
     *
     * @return ends it; may be called by anybody, on any thread
     */
    public Runnable look(long referral) {
        return pages.open(referral, person.get());
    }

    /** Who else has it open, on whatever server, the first first. */
    public List<Onlooker> others(long referral) {
        return store.others(referral, person.get().id());
    }
}
