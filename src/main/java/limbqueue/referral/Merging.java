package limbqueue.referral;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.file.KeptFile;
import limbqueue.file.ReferralFiles;
import limbqueue.referral.jdbc.MergingStore;
import limbqueue.referral.jdbc.ReferralStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Makes of two referrals of one person one. Nothing is deleted and no decision moves: the part rests, with its document, its
 * revisions, its letters and its timeline, and can be taken out again; only what was never decided on becomes a part.
 */
@Service
public class Merging {

    private final ReferralStore referrals;
    private final MergingStore mergings;
    private final Referrals life;
    private final ReferralFiles files;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    Merging(
            ReferralStore referrals,
            MergingStore mergings,
            Referrals life,
            ReferralFiles files,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.referrals = referrals;
        this.mergings = mergings;
        this.life = life;
        this.files = files;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** Why this referral cannot become part of the other; empty if it can. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<String> whyNot(long whole, long part) {
        return whyNot(life.get(whole), life.get(part));
    }

    private Optional<String> whyNot(Referral whole, Referral part) {
        if (whole.id() == part.id()) {
            return Optional.of("A referral is no part of itself.");
        }
        for (var one : List.of(whole, part)) {
            var merged = mergings.wholeOf(one.id());
            if (merged.isPresent()) {
                return Optional.of(one.reference() + " is part of "
                        + merged.get().wholeReference() + " already. Take it out there first.");
            }
        }
        if (!mergings.partsOf(part.id()).isEmpty()) {
            return Optional.of(part.reference()
                    + " has another referral as its part. Merge into it, or take that part out first.");
        }
        if (!referrals.decisions(part.id()).isEmpty()) {
            return Optional.of("A physician has decided on " + part.reference()
                    + ", and a decision stays with the referral it was made on. Say that it is the same person: both stay,"
                    + " and each shows the other.");
        }
        return switch (whole.state()) {
            case DRAFT ->
                part.state() == ReferralState.DRAFT
                        ? Optional.empty()
                        : Optional.of(part.reference() + " is before the physician, and would leave the queue. Merge "
                                + whole.reference() + " into it, not the other way round.");
            case QUEUED, INFORMATION_NEEDED, APPROVED -> Optional.empty();
            case RETURNED, SENT_TO_HOSPITAL ->
                Optional.of(whole.reference()
                        + " is closed. Say that it is the same person: both stay, and each shows the" + " other.");
        };
    }

    /**
     * Makes {@code part} a part of {@code whole}, whose document becomes {@code document}. New facts in an approved referral
     * count as results: they may put it before the physician again.
     *
     * @param document the document that the whole has from now on, as JSON text
     * @throws ReferralNotFoundException if there is none with one of the ids
     * @throws IllegalArgumentException if {@code document} is not a JSON object
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public MergeOutcome merge(long whole, int wholeVersion, long part, int partVersion, String document) {
        lockInOrder(whole, part);
        var into = life.get(whole);
        var from = life.get(part);
        if (into.version() != wholeVersion || from.version() != partVersion) {
            return new MergeOutcome.Changed(into.version() != wholeVersion ? into : from);
        }
        var why = whyNot(into, from);
        if (why.isPresent()) {
            return new MergeOutcome.NotPossible(why.get());
        }
        return switch (write(into, document)) {
            case Written.Not(var words) -> new MergeOutcome.NotPossible(words);
            case Written.In(var written, var changes) -> {
                var resting = mergings.makePart(part, partVersion, whole)
                        .orElseThrow(() -> new IllegalStateException(from.reference() + " changed under its lock"));
                mergings.add(
                        whole,
                        part,
                        into.document(),
                        written.document(),
                        currentPerson.get(),
                        clock.instant().truncatedTo(ChronoUnit.MICROS));
                auditTrail.record("merged " + from.reference() + " into", into.reference());
                yield new MergeOutcome.Done(written, resting, changes);
            }
        };
    }

    /**
     * Takes {@code part} out again: it is where it was. What the whole took over from it is put back as it was before, except
     * where somebody has changed it since.
     *
     * @throws ReferralNotFoundException if there is none with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public MergeOutcome separate(long part) {
        var found = mergings.standing(part);
        if (found.isEmpty()) {
            return new MergeOutcome.NotPossible(life.get(part).reference() + " is part of no other referral any more.");
        }
        var merging = found.get();
        lockInOrder(merging.whole(), part);
        var whole = life.get(merging.whole());
        var resting = life.get(part);
        var out = mergings.takeOut(part, resting.version())
                .orElseThrow(() -> new IllegalStateException(resting.reference() + " changed under its lock"));
        mergings.undo(merging.id(), currentPerson.get(), clock.instant().truncatedTo(ChronoUnit.MICROS));
        auditTrail.record("took " + resting.reference() + " out of", whole.reference());
        return switch (write(whole, putBack(merging, whole))) {
            case Written.In(var written, var changes) -> new MergeOutcome.Done(written, out, changes);
            // A closed referral keeps its facts. That the two are two again matters more.
            case Written.Not _ -> new MergeOutcome.Done(whole, out, List.of());
        };
    }

    /** The referral that this one is part of. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Optional<Merged> wholeOf(long id) {
        return mergings.wholeOf(id);
    }

    /** The referrals that are part of this one. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<Merged> partsOf(long id) {
        return mergings.partsOf(id);
    }

    /** The files that came with this referral, then those of its parts, each in the order in which they came. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<KeptFile> filesOf(long id) {
        return Stream.concat(
                        files.of(id).stream(),
                        mergings.partsOf(id).stream().flatMap(merged -> filesOf(merged.part()).stream()))
                .toList();
    }

    private sealed interface Written {
        record In(Referral referral, List<String> changes) implements Written {}

        record Not(String why) implements Written {}
    }

    private Written write(Referral into, String document) {
        if (Draft.of(document).toJson().equals(Draft.of(into.document()).toJson())) {
            return new Written.In(into, List.of());
        }
        return switch (into.state()) {
            case DRAFT, QUEUED, INFORMATION_NEEDED ->
                switch (life.save(into.id(), into.version(), document)) {
                    case SaveOutcome.Saved(var saved) -> new Written.In(saved, List.of());
                    case SaveOutcome.Conflict _ ->
                        throw new IllegalStateException(into.reference() + " changed under its lock");
                };
            case APPROVED ->
                switch (life.enterResults(into.id(), into.version(), document)) {
                    case ResultsOutcome.Entered(var entered, var changes) -> new Written.In(entered, changes);
                    case ResultsOutcome.NotRight(var problems) ->
                        new Written.Not("This cannot be right in a referral that is approved: "
                                + String.join(
                                        " ",
                                        problems.stream().map(Problem::text).toList()));
                    case ResultsOutcome.Overtaken _ ->
                        throw new IllegalStateException(into.reference() + " changed under its lock");
                };
            case RETURNED, SENT_TO_HOSPITAL -> new Written.Not(into.reference() + " is closed.");
        };
    }

    private static String putBack(MergingStore.Standing merging, Referral whole) {
        var before = Draft.of(merging.before());
        var after = Draft.of(merging.after());
        var now = Draft.of(whole.document());
        for (var place : MergedDocument.places(before, after)) {
            if (now.get(place).equals(after.get(place))) {
                now.putBack(place, before.get(place));
            }
        }
        return now.toJson();
    }

    /** Always the older first, so that two who merge the same pair wait for each other and never in a ring. */
    private void lockInOrder(long one, long other) {
        for (var id : List.of(Math.min(one, other), Math.max(one, other))) {
            if (referrals.findLocked(id).isEmpty()) {
                throw new ReferralNotFoundException(id);
            }
        }
    }
}
