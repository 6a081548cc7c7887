package limbqueue.letter;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.triage.ReferralDocument.Patient;
import limbqueue.triage.ReferralDocument.Referrer;

/**
 * Whom a letter goes to.
 *
 * @param recipient as in a list of letters
 * @param channel how, with the number or address, as far as known; else empty
 * @param addressee name, organisation and address lines
 * @param salutation with which the letter begins
 */
record Correspondent(String recipient, String channel, List<String> addressee, String salutation) {

    static Correspondent referrer(Referrer referrer, Vocabulary words) {
        var name = Typed.line(referrer.name());
        var organisation = Typed.line(referrer.organisation());
        var unnamed = words.say("referrer.unnamed");
        var addressee = new ArrayList<String>();
        addressee.add(name.orElse(unnamed));
        organisation.ifPresent(addressee::add);
        referrer.address().map(Typed::address).ifPresent(addressee::addAll);
        var recipient = Stream.of(name, organisation).flatMap(Optional::stream).collect(Collectors.joining(", "));
        return new Correspondent(
                recipient.isEmpty() ? unnamed : recipient,
                channel(referrer),
                List.copyOf(addressee),
                name.map(known -> words.say("greeting", withoutTitleBehind(known)))
                        .orElseGet(() -> words.say("greeting.unnamed")));
    }

    static Correspondent patient(Patient patient, Vocabulary words) {
        var name = name(patient);
        var address = patient.address().map(Typed::address).orElse(List.of());
        var addressee = Stream.concat(Stream.of(name.orElseGet(() -> words.say("addressee.unnamed"))), address.stream())
                .toList();
        return new Correspondent(
                addressee.getFirst(),
                address.isEmpty() ? "" : "Post",
                addressee,
                name.map(known -> words.say("greeting.patient", known))
                        .orElseGet(() -> words.say("greeting.patient.unnamed")));
    }

    static Optional<String> name(Patient patient) {
        return Optional.of(Stream.of(patient.given(), patient.family())
                        .map(Typed::line)
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining(" ")))
                .filter(name -> !name.isEmpty());
    }

    /** {@code Bea Thornquist, nurse practitioner} is greeted by her name. */
    private static String withoutTitleBehind(String name) {
        var comma = name.indexOf(',');
        return comma > 0 ? name.substring(0, comma).strip() : name;
    }

    /** How the referring doctor wants to be told, with the number or address, as far as known. */
    private static String channel(Referrer referrer) {
        var fax = Typed.line(referrer.fax());
        var email = Typed.line(referrer.email());
        return referrer.prefers()
                .map(prefers -> switch (prefers) {
                    case POST -> "Post";
                    case FAX -> "Fax" + fax.map(number -> " " + number).orElse("");
                    case EMAIL -> "Email" + email.map(address -> " " + address).orElse("");
                })
                .or(() -> Typed.line(referrer.address()).map(address -> "Post"))
                .or(() -> fax.map(number -> "Fax " + number))
                .or(() -> email.map(address -> "Email " + address))
                .orElse("");
    }
}
