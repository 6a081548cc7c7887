package limbqueue.dispatch;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.ReachedBy;
import limbqueue.directory.ReferrersOnFile;
import limbqueue.letter.Legible;
import limbqueue.letter.Letter;
import limbqueue.letter.OutgoingLetters;
import limbqueue.letter.PostalAddress;
import org.springframework.stereotype.Component;

/**
 * Finds out where a letter goes. What people keep in the directory comes before what the referral said, and what is printed
 * on the letter is where the post carries it.
 */
@Component
class Destinations {

    private static final String NOT_LEGIBLE =
            " Have it written in one of these scripts in the referral, for the letters to come. In this one the words can be"
                    + " corrected here; with a name that cannot be printed it has to be written by hand and marked as sent.";

    private final ReferrersOnFile referrers;
    private final OutgoingLetters letters;
    private final FaxGateway gateway;

    Destinations(ReferrersOnFile referrers, OutgoingLetters letters, FaxGateway gateway) {
        this.referrers = referrers;
        this.letters = letters;
        this.gateway = gateway;
    }

    Destination of(long letterId) {
        var letter = letters.letter(letterId);
        var entry = entry(letter);
        return wanted(letter, entry)
                .map(channel -> checked(channel, address(channel, letter, entry), letterId))
                .orElseGet(() -> new Destination.NotRight(
                        Channel.POST,
                        "",
                        "Nothing is known of how " + letter.recipient() + " is reached. "
                                + (letter.kind().toPatient()
                                        ? "Ask for the address, or hand the letter over and mark it as sent."
                                        : "Enter an address, a fax number or an e-mail address in the directory, and"
                                                + " release the letter.")));
    }

    /** The address, as it is used, where it can be right. */
    Destination checked(Channel channel, String typed, long letterId) {
        var address = typed.strip();
        var parts = letters.parts(letterId);
        var wrong = switch (channel) {
            case EMAIL -> ReachedBy.wrongWithEmail(address);
            case FAX -> ReachedBy.wrongWithFax(address);
            case POST ->
                PostalAddress.wrongWith(parts.addressee(), parts.letterhead().window());
        };
        return Legible.wrongWith(parts)
                .map(why -> why + NOT_LEGIBLE)
                .or(() -> wrong.map(why -> why + todo(channel)))
                .or(() -> channel == Channel.FAX ? gateway.missing() : Optional.empty())
                .<Destination>map(why -> new Destination.NotRight(channel, address, why))
                .orElseGet(() -> new Destination.Known(channel, address));
    }

    /** What is known of this channel, to begin with when a person types an address. */
    String known(Channel channel, long letterId) {
        var letter = letters.letter(letterId);
        return address(channel, letter, entry(letter));
    }

    private static String todo(Channel channel) {
        return switch (channel) {
            case EMAIL, FAX -> " Correct it in the directory and release the letter, or send it another way.";
            case POST -> " Send it another way, or write the envelope by hand and mark the letter as sent.";
        };
    }

    /** The directory knows referring doctors: a patient of the same name is somebody else. */
    private Optional<DirectoryEntry> entry(Letter letter) {
        if (letter.kind().toPatient()) {
            return Optional.empty();
        }
        var name = letters.parts(letter.id()).addressee().getFirst();
        var organisation =
                letter.recipient().startsWith(name + ", ") ? letter.recipient().substring(name.length() + 2) : "";
        return referrers.find(name, organisation);
    }

    private Optional<Channel> wanted(Letter letter, Optional<DirectoryEntry> entry) {
        return entry.map(DirectoryEntry::prefers)
                .flatMap(Destinations::channel)
                .or(() -> channel(letter.channel().split(" ", 2)[0].toLowerCase(Locale.ROOT)))
                .or(() -> entry.flatMap(Destinations::anyOf));
    }

    private static Optional<Channel> channel(String way) {
        return switch (way) {
            case "email" -> Optional.of(Channel.EMAIL);
            case "fax" -> Optional.of(Channel.FAX);
            case "post" -> Optional.of(Channel.POST);
            default -> Optional.empty();
        };
    }

    private static Optional<Channel> anyOf(DirectoryEntry entry) {
        if (!entry.fax().isEmpty()) {
            return Optional.of(Channel.FAX);
        }
        return entry.email().isEmpty() ? Optional.empty() : Optional.of(Channel.EMAIL);
    }

    private String address(Channel channel, Letter letter, Optional<DirectoryEntry> entry) {
        return switch (channel) {
            case EMAIL -> onFile(entry.map(DirectoryEntry::email), "Email ", letter);
            case FAX -> onFile(entry.map(DirectoryEntry::fax), "Fax ", letter);
            case POST -> String.join("\n", postal(letter.id()));
        };
    }

    private static String onFile(Optional<String> kept, String label, Letter letter) {
        return kept.filter(address -> !address.isEmpty())
                .or(() -> Optional.of(letter.channel())
                        .filter(told -> told.startsWith(label))
                        .map(told -> told.substring(label.length())))
                .orElse("");
    }

    private List<String> postal(long letterId) {
        return letters.parts(letterId).addressee();
    }
}
