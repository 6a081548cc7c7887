package limbqueue.letter;

/** What a letter tells the referring doctor. */
public enum LetterKind {
    RECEIVED,
    INFORMATION_NEEDED,
    TRIAGED,
    RETURNED
}
