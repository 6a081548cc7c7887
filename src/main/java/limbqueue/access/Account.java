package limbqueue.access;

/**
 * A person's account as the manager sees it.
 *
 * @param active whether the person may sign in
 * @param mustChangePassword whether the password was made by somebody else and must be replaced at the next sign-in
 * @param version for optimistic locking; it grows with every change, and with it every earlier sign-in ends
 */
public record Account(
        long id,
        String signInName,
        String displayName,
        Role role,
        boolean active,
        boolean mustChangePassword,
        int version) {

    public Person person() {
        return new Person(id, signInName, displayName, role);
    }
}
