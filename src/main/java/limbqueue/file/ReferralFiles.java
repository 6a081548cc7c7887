package limbqueue.file;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.file.jdbc.FileStore;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.util.unit.DataSize;

/** The files of referrals: what may come in, what is kept, and how it is handed out. */
@Service
public class ReferralFiles {

    private final FileStore store;
    private final VirusScan scan;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;
    private final int largest;

    ReferralFiles(
            FileStore store,
            VirusScan scan,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock,
            @Value("${limbqueue.file.largest}") DataSize largest) {
        this.store = store;
        this.scan = scan;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
        this.largest = Math.toIntExact(Math.min(largest.toBytes(), Integer.MAX_VALUE / 4));
    }

    /** What a file may have at most, in bytes. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public int largest() {
        return largest;
    }

    /** What is said of a file of {@code size} bytes that is too large; also of one that was not sent at all. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public String tooLarge(long size) {
        return LetterText.tooLarge(size, largest);
    }

    /**
     * Takes in a file without keeping it yet. No more of it is read than may be kept.
     *
     * @param name as it came
     * @param declared its size in bytes as the sender says; below 0 if that is not known
     * @throws IOException if {@code content} breaks off
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    public Received receive(InputStream content, String name, long declared) throws IOException {
        if (declared > largest) {
            return new Received.Refused(tooLarge(declared));
        }
        var bytes = content.readNBytes(largest + 1);
        if (bytes.length > largest) {
            return new Received.Refused(tooLarge(bytes.length));
        }
        return switch (scan.look(bytes)) {
            case CLEAN -> received(bytes, name);
            case INFECTED ->
                new Received.Refused(
                        "The virus scanner found something in this file. It was not kept. Do not open it, and"
                                + " tell the sender.");
            case NOT_LOOKED_AT ->
                new Received.Refused("The virus scanner could not look at this file, so it was not kept. Try again; if"
                        + " this goes on, tell whoever runs LimbQueue.");
        };
    }

    private Received received(byte[] bytes, String name) {
        var letter = LetterText.of(bytes, name, Tesseract.onThePath(), largest);
        return switch (letter) {
            case Extracted.Read read -> new Received.Sound(new DroppedFile(name, read.type(), bytes), letter);
            case Extracted.NotRead(var sentence, var type) ->
                type.<Received>map(sound -> new Received.Sound(new DroppedFile(name, sound, bytes), letter))
                        .orElseGet(() -> new Received.Refused(sentence));
        };
    }

    /** Keeps a file with a referral. The same file a second time is the one that is there. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public KeptFile keep(long referralId, DroppedFile file) {
        var me = currentPerson.get();
        var added = store.add(
                referralId,
                file.name(),
                file.type(),
                file.content(),
                me,
                clock.instant().truncatedTo(ChronoUnit.MICROS));
        var kept = store.find(referralId, file.content());
        if (added) {
            auditTrail.record("kept a file with", store.reference(referralId));
        }
        return kept;
    }

    /** The files of a referral, in the order in which they came. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<KeptFile> of(long referralId) {
        return store.of(referralId);
    }

    /**
     * The file as it is sent to a browser.
     *
     * @throws UnknownFileException if there is none with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Served serve(long id) {
        var file = store.find(id).orElseThrow(() -> new UnknownFileException(id));
        return Served.of(file, store.content(id));
    }
}
