package limbqueue.letter;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.letter.jdbc.WordingStore;
import limbqueue.letter.wording.Language;
import limbqueue.letter.wording.ShippedWordings;
import limbqueue.letter.wording.TemplateReader;
import limbqueue.letter.wording.WordingProblem;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.ReferralNotFoundException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The words of letters as the practice edits them: checked, previewed, published in versions that are never changed. */
@Service
public class LetterWords {

    private final WordingsInForce inForce;
    private final WordingStore store;
    private final LetterPreviews previews;
    private final ProposedCases cases;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    LetterWords(
            WordingsInForce inForce,
            WordingStore store,
            LetterPreviews previews,
            ProposedCases cases,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.inForce = inForce;
        this.store = store;
        this.previews = previews;
        this.cases = cases;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** The languages that letters are written in. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    public List<Language> languages() {
        return inForce.shipped().languages();
    }

    /** The words that count today. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional(readOnly = true)
    public LetterWording now(LetterKind kind, String language) {
        return wording(kind, language);
    }

    private LetterWording wording(LetterKind kind, String language) {
        var latest = store.latest(kind, language);
        var published = latest.flatMap(WordingVersion::text);
        return new LetterWording(
                kind,
                language,
                latest.map(WordingVersion::version).orElse(0),
                published.orElseGet(() -> shipped(kind, language)),
                published.isEmpty(),
                latest.map(WordingVersion::author),
                latest.map(WordingVersion::at));
    }

    /** The words that come with the product. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    public String shipped(LetterKind kind, String language) {
        return inForce.shipped().text(kind, language);
    }

    /** Everything that was published, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional(readOnly = true)
    public List<WordingVersion> history(LetterKind kind, String language) {
        return store.history(kind, language);
    }

    /** What is wrong with these words; nothing if they can be published. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    public List<WordingProblem> check(LetterKind kind, String language, String text) {
        return read(kind, language, text).problems();
    }

    /**
     * The letter that these words would make, about a referral of which nothing is known; empty if they cannot stand.
     */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional(readOnly = true)
    public Optional<Parts> preview(LetterKind kind, String language, String text) {
        return read(kind, language, text)
                .template()
                .map(template -> previews.of(kind, language, template, previews.unknown()));
    }

    /**
     * The letter that these words would make about a referral, as if what it tells of happened today; empty if they cannot
     * stand.
     *
     * @throws ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional(readOnly = true)
    public Optional<Parts> preview(LetterKind kind, String language, String text, long referralId) {
        var about = cases.of(List.of(referralId)).stream()
                .findFirst()
                .orElseThrow(() -> new ReferralNotFoundException(referralId));
        return read(kind, language, text).template().map(template -> previews.of(kind, language, template, about));
    }

    /**
     * Lets these words count from now on. Letters written before stay as they are.
     *
     * @param version of the publication that was looked at, 0 for none
     */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public WordingOutcome publish(LetterKind kind, String language, int version, String text) {
        var words = text.replace("\r\n", "\n").stripTrailing() + "\n";
        var problems = read(kind, language, words).problems();
        if (!problems.isEmpty()) {
            return new WordingOutcome.NotRight(problems);
        }
        var before = wording(kind, language);
        if (before.text().equals(words)) {
            return new WordingOutcome.Unchanged();
        }
        var asShipped = words.equals(shipped(kind, language));
        return add(kind, language, version, asShipped ? Optional.empty() : Optional.of(words));
    }

    /** Lets the words that come with the product count again. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public WordingOutcome backToShipped(LetterKind kind, String language, int version) {
        return wording(kind, language).shipped()
                ? new WordingOutcome.Unchanged()
                : add(kind, language, version, Optional.empty());
    }

    private WordingOutcome add(LetterKind kind, String language, int version, Optional<String> text) {
        if (wording(kind, language).version() != version
                || !store.add(kind, language, version + 1, text, currentPerson.get(), now())) {
            return new WordingOutcome.Overtaken(wording(kind, language));
        }
        auditTrail.record("published words of a letter", kind.fileName() + " " + language + " " + (version + 1));
        return new WordingOutcome.Published(wording(kind, language));
    }

    /** Tag of the language of letters to whom nobody has chosen another for: of every patient, and of most doctors. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional(readOnly = true)
    public String language() {
        return inForce.language();
    }

    /** @throws NotPossibleException if no letter is written in this language */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public void chooseLanguage(String language) {
        if (!inForce.shipped().knows(language)) {
            throw new NotPossibleException("No letter is written in this language. Choose another.");
        }
        if (!inForce.language().equals(language)) {
            store.chooseLanguage(language, currentPerson.get(), now());
            auditTrail.record("chose the language of letters", language);
        }
    }

    private static TemplateReader.Reading read(LetterKind kind, String language, String text) {
        return TemplateReader.read(ShippedWordings.file(kind, language), kind, text);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
