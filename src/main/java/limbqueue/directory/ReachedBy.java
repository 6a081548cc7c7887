package limbqueue.directory;

import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Whether an address or a number, as somebody typed it, can reach anybody; if not, what is wrong, in words.
 *
 * <p>An e-mail address is a dot-atom, an {@code @} and a domain name (RFC 5322, section 3.4.1; RFC 1035, section 2.3.1), of at
 * most 254 characters (RFC 5321, section 4.5.3.1.3, less the two angle brackets). Quoted names and addresses in numbers are
 * refused: nobody writes them on a letterhead. A fax number has 5 to 15 digits; 15 is the most of ITU-T E.164, 5 is common
 * practice, no source.
 */
public final class ReachedBy {

    private static final int MOST_OF_AN_ADDRESS = 254;
    private static final int MOST_BEFORE_THE_AT = 64;
    private static final Pattern NAME =
            Pattern.compile("[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+(\\.[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+)*");
    private static final Pattern LABEL = Pattern.compile("[A-Za-z0-9]([A-Za-z0-9-]{0,61}[A-Za-z0-9])?");
    private static final Pattern BETWEEN_DIGITS = Pattern.compile("[\\s\\p{Z}().\\-/\\u2010-\\u2013]");
    private static final Pattern DIGITS = Pattern.compile("\\+?[0-9]{5,15}");

    private ReachedBy() {}

    /** What is wrong with an e-mail address; nothing if it can be right. */
    public static Optional<String> wrongWithEmail(String typed) {
        var at = typed.lastIndexOf('@');
        if (typed.isBlank()) {
            return Optional.of("The e-mail address is missing.");
        }
        if (at < 1 || at == typed.length() - 1) {
            return Optional.of("“" + typed + "” is no e-mail address: it needs a name, an @ and a domain.");
        }
        if (typed.length() > MOST_OF_AN_ADDRESS || at > MOST_BEFORE_THE_AT) {
            return Optional.of("“" + typed + "” is too long for an e-mail address.");
        }
        if (!NAME.matcher(typed.substring(0, at)).matches()) {
            return Optional.of(
                    "“" + typed + "” is no e-mail address: what stands before the @ has a blank, a letter with"
                            + " an accent, a dot too many, or another sign that mail does not carry.");
        }
        var labels = typed.substring(at + 1).split("\\.", -1);
        if (labels.length < 2) {
            return Optional.of("“" + typed + "” is no e-mail address: the domain after the @ has no dot.");
        }
        for (var label : labels) {
            if (!LABEL.matcher(label).matches()) {
                return Optional.of("“" + typed + "” is no e-mail address: “" + label + "” cannot be part of a domain.");
            }
        }
        return Optional.empty();
    }

    /** What is wrong with a fax number; nothing if it can be dialled. */
    public static Optional<String> wrongWithFax(String typed) {
        if (typed.isBlank()) {
            return Optional.of("The fax number is missing.");
        }
        return DIGITS.matcher(dialled(typed)).matches()
                ? Optional.empty()
                : Optional.of("“" + typed
                        + "” is no fax number: write 5 to 15 digits, with a + before the code of a country.");
    }

    /** The number as it is dialled: digits, with a + before the code of a country. */
    public static String dialled(String typed) {
        return BETWEEN_DIGITS.matcher(typed).replaceAll("");
    }

    /** What is wrong with how this entry wants its letters; nothing if they can reach it, or nobody has said how. */
    static Optional<String> wrongWith(DirectoryEntry entry) {
        if (!entry.email().isEmpty() || entry.prefers().equals("email")) {
            var wrong = wrongWithEmail(entry.email());
            if (wrong.isPresent()) {
                return wrong.map(why -> why + toPrefer(entry, "email", "e-mail"));
            }
        }
        if (!entry.fax().isEmpty() || entry.prefers().equals("fax")) {
            var wrong = wrongWithFax(entry.fax());
            if (wrong.isPresent()) {
                return wrong.map(why -> why + toPrefer(entry, "fax", "fax"));
            }
        }
        return entry.prefers().equals("post") && entry.address().isBlank()
                ? Optional.of("The address is missing." + toPrefer(entry, "post", "post"))
                : Optional.empty();
    }

    private static String toPrefer(DirectoryEntry entry, String way, String word) {
        return entry.prefers().equals(way)
                ? " Correct it, or choose another way than " + word + "."
                : " Correct it, or leave it empty.";
    }
}
