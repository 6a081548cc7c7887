package limbqueue.directory;

/** Two entries that may stand for the same; the one that was there first is {@code one}. */
public record AlikeEntries(DirectoryEntry one, DirectoryEntry other) {}
