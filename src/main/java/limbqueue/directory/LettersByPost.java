package limbqueue.directory;

import java.util.Optional;

/** Knows which addresses letters can be printed with. */
public interface LettersByPost {

    /** What of the entry cannot be printed or seen in the window of an envelope, and what to do; nothing if all can. */
    Optional<String> wrongWith(DirectoryEntry entry);
}
