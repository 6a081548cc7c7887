package limbqueue.triage.question;

/**
 * Where the rules get their answers from. The rules themselves never see an unknown: how an unknown is answered is the
 * business of the implementation, so the same rules say what to act on and what is still possible.
 */
public interface Answers {

    <T> T of(Topic<T> topic);
}
