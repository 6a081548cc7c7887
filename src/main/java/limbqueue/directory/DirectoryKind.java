package limbqueue.directory;

/** What an entry of the directory is. */
public enum DirectoryKind {
    REFERRER,
    HOSPITAL
}
