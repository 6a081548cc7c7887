package limbqueue.dispatch;

import java.util.Map;
import java.util.Optional;

/** What a status code of RFC 3463 says, in words for the office. */
final class BounceWords {

    /** By subject and detail (RFC 3463, sections 3.2 to 3.8), whatever the class before them. */
    private static final Map<String, String> WORDS = Map.of(
            "1.1", "there is no such mailbox",
            "1.2", "there is no such domain",
            "1.3", "the address is written wrongly",
            "2.1", "the mailbox takes no messages",
            "2.2", "the mailbox is full",
            "2.3", "the message is too large for the mailbox",
            "4.1", "the other mail server does not answer",
            "4.4", "no way to the other mail server is known",
            "4.7", "it was not delivered in the time allowed",
            "7.1", "the other mail server does not let it through");

    private BounceWords() {}

    static String of(BounceReading.Undelivered undelivered) {
        var subject = undelivered.status().replaceFirst("^[245]\\.", "");
        var known = Optional.ofNullable(WORDS.get(subject)).map(words -> ": " + words);
        var said = undelivered.said().isEmpty() ? "" : " The other mail server said: " + shortened(undelivered.said());
        return "It came back" + known.orElse("")
                + (undelivered.status().isEmpty() ? "" : " (" + undelivered.status() + ")") + "." + said;
    }

    private static String shortened(String said) {
        return said.length() > 300 ? said.substring(0, 300) + "…" : said;
    }
}
