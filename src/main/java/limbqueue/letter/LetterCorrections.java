package limbqueue.letter;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.letter.CorrectionOutcome.Corrected;
import limbqueue.letter.CorrectionOutcome.NotRight;
import limbqueue.letter.CorrectionOutcome.Overtaken;
import limbqueue.letter.CorrectionOutcome.Unchanged;
import limbqueue.letter.Parts.Passage;
import limbqueue.letter.jdbc.ConfidentialQuery;
import limbqueue.letter.jdbc.CorrectionStore;
import limbqueue.letter.jdbc.LetterStore;
import limbqueue.referral.ProposedCases;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/**
 * Corrections of single letters by hand, before they leave. The sentences that no letter is without stay, and what is added is
 * looked through for what no letter may say.
 */
@Service
public class LetterCorrections {

    /** About two printed pages. */
    private static final int MOST_CHARACTERS = 6000;

    private final CorrectionStore store;
    private final LetterStore letters;
    private final ConfidentialQuery confidential;
    private final ProposedCases cases;
    private final ObjectProvider<LetterUnderway> underway;
    private final JsonMapper json;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    LetterCorrections(
            CorrectionStore store,
            LetterStore letters,
            ConfidentialQuery confidential,
            ProposedCases cases,
            ObjectProvider<LetterUnderway> underway,
            JsonMapper json,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.letters = letters;
        this.confidential = confidential;
        this.cases = cases;
        this.underway = underway;
        this.json = json;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * The words of a letter as they stand, to be corrected.
     *
     * @throws LetterNotFoundException if there is none with this id
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional(readOnly = true)
    public CorrectableLetter open(long id) {
        return correctable(id);
    }

    /** The corrections of a letter, newest first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<LetterCorrection> of(long id) {
        var kind = letters.find(id)
                .orElseThrow(() -> new LetterNotFoundException(id))
                .kind();
        return store.of(id).stream()
                .map(one -> new LetterCorrection(
                        one.version(),
                        one.author(),
                        one.at(),
                        BodyText.of(own(kind, parts(one.before()))),
                        BodyText.of(own(kind, parts(one.after())))))
                .toList();
    }

    /**
     * Lets the letter say this from now on.
     *
     * @param version of the letter that was looked at
     * @param body in the form of {@link CorrectableLetter#body()}
     * @throws LetterNotFoundException if there is none with this id
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public CorrectionOutcome correct(long id, int version, String body) {
        letters.lock(id);
        var letter = letters.find(id).orElseThrow(() -> new LetterNotFoundException(id));
        var kept = store.find(id).orElseThrow(() -> new LetterNotFoundException(id));
        if (kept.closed()) {
            return new NotRight(List.of("The letter has left or was withdrawn meanwhile, so it stays as it is."
                    + " Copy your words, and telephone or write anew."));
        }
        if (underway.stream().anyMatch(sender -> sender.mayLeave(id))) {
            return new NotRight(List.of("The letter is on its way out. Hold it first; your words stay here."));
        }
        if (kept.version() != version) {
            return new Overtaken(of(id).getFirst(), correctable(id));
        }
        var before = parts(kept.parts());
        var typed = BodyText.read(body);
        if (typed.equals(BodyText.read(BodyText.of(own(letter.kind(), before))))) {
            return new Unchanged();
        }
        var after = before.with(Stream.concat(typed.stream(), standing(letter.kind(), before).stream())
                .toList());
        var wrong = wrong(kept.referral(), typed, body, before, after);
        if (!wrong.isEmpty()) {
            return new NotRight(wrong);
        }
        store.correct(
                id,
                version,
                json.writeValueAsString(after),
                after.asText(),
                currentPerson.get(),
                clock.instant().truncatedTo(ChronoUnit.MICROS));
        auditTrail.record("corrected a letter about", letter.reference());
        return new Corrected(correctable(id));
    }

    private List<String> wrong(long referral, List<Passage> typed, String body, Parts before, Parts after) {
        var wrong = new ArrayList<String>();
        if (typed.isEmpty()) {
            wrong.add("The letter would say nothing. Write what it is to say, or hold it back.");
        }
        if (body.length() > MOST_CHARACTERS) {
            wrong.add("It is %d characters long; a letter has room for %d. Shorten it."
                    .formatted(body.length(), MOST_CHARACTERS));
        }
        if (body.contains("{{") || body.contains("}}")) {
            wrong.add("Placeholders in {{ }} are for the words of all letters. Write here what this one is to say.");
        }
        typed.stream()
                .filter(passage ->
                        passage.kind() == Parts.Kind.LIST && passage.text().isEmpty())
                .findFirst()
                .ifPresent(_ ->
                        wrong.add("A list begins with a sentence that leads to it, in the line above its entries."));
        cases.of(List.of(referral)).stream()
                .findFirst()
                .map(about -> new Confidential.Sources(
                        about.document(),
                        about.proposal(),
                        confidential.notes(referral),
                        confidential.staff(),
                        confidential.otherPatients(referral, after.asText())))
                .ifPresent(sources ->
                        wrong.addAll(Confidential.in(before.asText(), after.asText(), after.language(), sources)));
        return wrong;
    }

    private CorrectableLetter correctable(long id) {
        var kind = letters.find(id)
                .orElseThrow(() -> new LetterNotFoundException(id))
                .kind();
        var kept = store.find(id).orElseThrow(() -> new LetterNotFoundException(id));
        var parts = parts(kept.parts());
        return new CorrectableLetter(
                id,
                kept.version(),
                BodyText.of(own(kind, parts)),
                standing(kind, parts).stream().map(Passage::text).toList());
    }

    /** Of the body, what stands before the sentences that no letter is without. */
    private static List<Passage> own(LetterKind kind, Parts parts) {
        return parts.body().subList(0, parts.body().size() - kind.standingPassages());
    }

    private static List<Passage> standing(LetterKind kind, Parts parts) {
        return parts.body()
                .subList(
                        parts.body().size() - kind.standingPassages(),
                        parts.body().size());
    }

    private Parts parts(String text) {
        return json.readValue(text, Parts.class);
    }
}
