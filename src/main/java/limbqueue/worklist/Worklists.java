package limbqueue.worklist;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import org.springframework.stereotype.Service;

/** What is to be done. */
@Service
public class Worklists {

    private final WorkInMemory memory;

    Worklists(WorkInMemory memory) {
        this.memory = memory;
    }

    /** Everything that is to be done now. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public Work now() {
        return memory.now();
    }
}
