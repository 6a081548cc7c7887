package limbqueue.letter;

/** A letter just written, not yet stored. The components are those of {@link Letter}. */
record WrittenLetter(LetterKind kind, String patient, String recipient, String channel, Parts parts) {}
