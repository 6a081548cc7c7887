package limbqueue.directory;

import java.util.Optional;
import limbqueue.directory.jdbc.DirectoryStore;
import org.springframework.stereotype.Component;

/** Referring doctors as the application itself looks them up, when nobody is signed in. */
@Component
public class ReferrersOnFile {

    private final DirectoryStore store;

    ReferrersOnFile(DirectoryStore store) {
        this.store = store;
    }

    /** The entry of this name at this practice or hospital, or the one that it was merged into. */
    public Optional<DirectoryEntry> find(String name, String organisation) {
        return store.named(DirectoryKind.REFERRER, name, organisation);
    }
}
