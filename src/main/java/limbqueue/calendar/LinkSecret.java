package limbqueue.calendar;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Pattern;

/**
 * What makes the address of a calendar one that nobody guesses: 256 random bits as 43 letters of the alphabet for addresses
 * (RFC 4648, section 5). A digest of so much chance needs neither salt nor slowness to keep it from being turned back.
 */
final class LinkSecret {

    private static final int OCTETS = 32;
    private static final Pattern FORM = Pattern.compile("[A-Za-z0-9_-]{43}");
    private static final SecureRandom RANDOM = new SecureRandom();

    private final String text;

    private LinkSecret(String text) {
        this.text = text;
    }

    static LinkSecret make() {
        var octets = new byte[OCTETS];
        RANDOM.nextBytes(octets);
        return new LinkSecret(Base64.getUrlEncoder().withoutPadding().encodeToString(octets));
    }

    /** What somebody sent, be it a secret or not. */
    static LinkSecret sent(String text) {
        return new LinkSecret(text);
    }

    /** Whether it looks like one. */
    boolean wellFormed() {
        return FORM.matcher(text).matches();
    }

    /** SHA-256 of it: what is kept. */
    byte[] digest() {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.US_ASCII));
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java has SHA-256", impossible);
        }
    }

    /** The path of the calendar, without a slash in front. */
    String path() {
        return "calendar/" + text + ".ics";
    }

    /** Never the secret: what is written by chance ends up in a log. */
    @Override
    public String toString() {
        return "LinkSecret";
    }
}
