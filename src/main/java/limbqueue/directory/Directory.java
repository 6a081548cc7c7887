package limbqueue.directory;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.directory.jdbc.DirectoryStore;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Imaging;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.Referrer;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Referring doctors and hospitals, kept as referrals name them. */
@Service
public class Directory {

    /** A directory longer than this is offered by those named last. */
    private static final int MOST_OFFERED = 3000;

    private static final int MOST_ALIKE = 3;
    private static final int MOST_PAIRS = 20;
    private static final int MOST_CHARACTERS = 200;
    private static final int MOST_OF_AN_ADDRESS = 2000;
    private static final List<String> WAYS_OF_LETTERS = List.of("", "post", "fax", "email");

    private final DirectoryStore store;
    private final LetterLanguages languages;
    private final LettersByPost post;
    private final AuditTrail auditTrail;

    Directory(DirectoryStore store, LetterLanguages languages, LettersByPost post, AuditTrail auditTrail) {
        this.store = store;
        this.languages = languages;
        this.post = post;
        this.auditTrail = auditTrail;
    }

    /** Entries of this kind by name; of a very long directory those named last. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public List<DirectoryEntry> known(DirectoryKind kind) {
        return store.standing(kind, MOST_OFFERED);
    }

    /** The entry, or the one it was merged into; empty if there never was one. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public Optional<DirectoryEntry> find(long id) {
        return store.find(id);
    }

    /** The languages that letters can be wanted in. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    public List<LetterLanguages.LetterLanguage> languages() {
        return languages.all();
    }

    /** Tag of the language in which this referring doctor wants letters; empty where nobody has said so. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public Optional<String> language(Referrer referrer) {
        return line(referrer.name())
                .flatMap(name -> store.named(
                        DirectoryKind.REFERRER,
                        name,
                        line(referrer.organisation()).orElse("")))
                .map(DirectoryEntry::language)
                .filter(language -> !language.isEmpty());
    }

    /** Entries that a referring doctor of this name may be meant by, where none has the very name and practice. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public List<DirectoryEntry> like(Optional<String> name, Optional<String> organisation) {
        var practice = line(organisation).orElse("");
        return line(name)
                .filter(typed ->
                        store.named(DirectoryKind.REFERRER, typed, practice).isEmpty())
                .map(typed -> store.like(DirectoryKind.REFERRER, typed, practice, MOST_ALIKE))
                .orElse(List.of());
    }

    /** Entries of this kind that may stand for the same, the most alike first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public List<AlikeEntries> alike(DirectoryKind kind) {
        return store.alike(kind, MOST_PAIRS).stream()
                .flatMap(ids -> store.find(ids[0]).stream()
                        .flatMap(one -> store.find(ids[1]).stream().map(other -> new AlikeEntries(one, other))))
                .toList();
    }

    /**
     * Takes in whom a referral names. An entry that is there already gets what it lacked and keeps what it has: a slip in one
     * referral must not spoil it.
     *
     * @param on the day of the referral
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public void takeIn(ReferralDocument document, LocalDate on) {
        var referrer = document.referrer();
        line(referrer.name())
                .ifPresent(name -> store.takeIn(new DirectoryEntry(
                        0,
                        1,
                        DirectoryKind.REFERRER,
                        name,
                        line(referrer.organisation()).orElse(""),
                        text(referrer.address(), MOST_OF_AN_ADDRESS).orElse(""),
                        line(referrer.phone()).orElse(""),
                        line(referrer.fax()).orElse(""),
                        line(referrer.email()).orElse(""),
                        referrer.prefers()
                                .map(way -> switch (way) {
                                    case POST -> "post";
                                    case FAX -> "fax";
                                    case EMAIL -> "email";
                                })
                                .orElse(""),
                        "",
                        on)));
        Stream.of(
                        document.imaging().stream().flatMap(List::stream).map(Imaging::where),
                        document.procedures().stream().flatMap(List::stream).map(Procedure::where),
                        Stream.of(document.deferredElsewhere().where()))
                .flatMap(places -> places)
                .flatMap(place -> line(place).stream())
                .distinct()
                .forEach(name -> store.takeIn(
                        new DirectoryEntry(0, 1, DirectoryKind.HOSPITAL, name, "", "", "", "", "", "", "", on)));
    }

    /** Replaces what the directory says of {@code entry}, which is at the version it was read at. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional
    public CorrectOutcome correct(DirectoryEntry entry) {
        var clean = new DirectoryEntry(
                entry.id(),
                entry.version(),
                entry.kind(),
                clean(entry.name()),
                entry.kind() == DirectoryKind.REFERRER ? clean(entry.organisation()) : "",
                clean(entry.address()),
                clean(entry.phone()),
                clean(entry.fax()),
                clean(entry.email()),
                entry.kind() == DirectoryKind.REFERRER ? entry.prefers() : "",
                entry.kind() == DirectoryKind.REFERRER ? entry.language() : "",
                entry.lastEntered());
        if (clean.name().isEmpty()) {
            return new CorrectOutcome.NotRight("An entry needs a name. Merge it into another if it stands for nobody.");
        }
        if (!WAYS_OF_LETTERS.contains(clean.prefers())
                || clean.address().length() > MOST_OF_AN_ADDRESS
                || Stream.of(clean.name(), clean.organisation(), clean.phone(), clean.fax(), clean.email())
                        .anyMatch(text -> text.length() > MOST_CHARACTERS)) {
            return new CorrectOutcome.NotRight("At most " + MOST_CHARACTERS + " characters are kept of a line, and "
                    + MOST_OF_AN_ADDRESS + " of an address. Shorten it.");
        }
        if (!clean.language().isEmpty()
                && languages.all().stream().noneMatch(one -> one.tag().equals(clean.language()))) {
            return new CorrectOutcome.NotRight("No letter is written in this language. Choose another, or none.");
        }
        var unreachable = ReachedBy.wrongWith(clean).or(() -> unprintable(clean));
        if (unreachable.isPresent()) {
            return new CorrectOutcome.NotRight(unreachable.get());
        }
        if (store.isTaken(clean)) {
            return new CorrectOutcome.NotRight(
                    "There is another entry of this name. Merge the two if they are the same.");
        }
        if (!store.replace(clean)) {
            return new CorrectOutcome.Overtaken();
        }
        auditTrail.record("corrected a directory entry", reference(clean.id()));
        return new CorrectOutcome.Corrected(store.find(clean.id()).orElseThrow());
    }

    /** Only where letters go by post: whoever reads them on a screen has no window. */
    private Optional<String> unprintable(DirectoryEntry entry) {
        return entry.kind() == DirectoryKind.REFERRER
                        && !entry.address().isEmpty()
                        && (entry.prefers().equals("post") || entry.prefers().isEmpty())
                ? post.wrongWith(entry)
                : Optional.empty();
    }

    /**
     * Lets {@code kept} stand for {@code other} from now on, and gives it what it lacked. A referral that names the other
     * finds the one kept.
     *
     * @return false if one of them is gone, merged already, or of another kind
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional
    public boolean merge(long kept, long other) {
        if (!store.merge(kept, other)) {
            return false;
        }
        auditTrail.record("merged directory entries", reference(other) + " into " + reference(kept));
        return true;
    }

    private static String reference(long id) {
        return "directory " + id;
    }

    private static Optional<String> line(Optional<String> told) {
        return text(told, MOST_CHARACTERS);
    }

    /** What can be kept of {@code told}; what is too long is no name and no number, and is left out. */
    private static Optional<String> text(Optional<String> told, int most) {
        return told.map(Directory::clean).filter(text -> !text.isEmpty() && text.length() <= most);
    }

    /** Without characters that nobody can see or print; a line break stays. */
    private static String clean(String text) {
        return text.replaceAll("[\\p{Cntrl}&&[^\\n]]", "").strip();
    }
}
