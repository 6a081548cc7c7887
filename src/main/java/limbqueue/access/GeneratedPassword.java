package limbqueue.access;

import java.security.SecureRandom;

/** Passwords to be read from a screen and typed once: no letter that looks like another, about 59 bits. */
final class GeneratedPassword {

    private static final String LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
    private static final int GROUPS = 3;
    private static final int GROUP_LENGTH = 4;
    private static final SecureRandom RANDOM = new SecureRandom();

    private GeneratedPassword() {}

    static String make() {
        var password = new StringBuilder();
        for (var group = 0; group < GROUPS; group++) {
            if (group > 0) {
                password.append('-');
            }
            for (var i = 0; i < GROUP_LENGTH; i++) {
                password.append(LETTERS.charAt(RANDOM.nextInt(LETTERS.length())));
            }
        }
        return password.toString();
    }
}
