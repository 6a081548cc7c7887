package limbqueue.intake;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.Optional;
import java.util.function.Function;
import limbqueue.document.Draft;
import limbqueue.file.DroppedFile;
import limbqueue.file.ReferralFiles;
import limbqueue.reading.LetterReader;
import limbqueue.reading.ReadLetter;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Turns a letter into a referral, or into more of one: what a person accepted, the words of the letter, and its file.
 */
@Service
public class LetterIntake {

    private final Referrals referrals;
    private final ReferralFiles files;
    private final Function<String, ReadLetter> reader;

    LetterIntake(Referrals referrals, ReferralFiles files) {
        this.referrals = referrals;
        this.files = files;
        this.reader = LetterReader::read;
    }

    /** Reads a letter for a new referral. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public OpenLetter read(String text) {
        return new OpenLetter(text, reader.apply(text), Draft.empty());
    }

    /** Reads a letter for a referral that is there. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public OpenLetter read(String text, Referral referral) {
        return new OpenLetter(text, reader.apply(text), Draft.of(referral.document()));
    }

    /** Begins a draft with what was accepted, the letter and its file. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public Referral begin(OpenLetter letter, Optional<DroppedFile> file) {
        var draft = Draft.empty();
        letter.enterInto(draft);
        var referral = referrals.enter(draft.toJson());
        file.ifPresent(came -> files.keep(referral.id(), came));
        return referral;
    }

    /**
     * Adds what was accepted, the letter and its file to a referral that is still open.
     *
     * @param seen the referral as it was when the letter was read beside it
     * @return a conflict if somebody saved another version meanwhile; the file is kept in either case
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public SaveOutcome add(Referral seen, OpenLetter letter, Optional<DroppedFile> file) {
        file.ifPresent(came -> files.keep(seen.id(), came));
        var draft = Draft.of(seen.document());
        letter.enterInto(draft);
        return referrals.save(seen.id(), seen.version(), draft.toJson());
    }
}
