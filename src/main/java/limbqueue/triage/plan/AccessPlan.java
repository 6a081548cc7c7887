package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import limbqueue.triage.ProcedurePlan.Access;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.ProcedurePlan.BailOut;
import limbqueue.triage.ProcedurePlan.Place;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.finding.Case;
import limbqueue.triage.plan.PlanLesion.Level;
import limbqueue.triage.question.Entries;
import limbqueue.triage.rule.RuleBook;

/** The ways in, for each leg from the aorta down: the row of the table that its lesions meet, and what changes it. */
final class AccessPlan {

    /**
     * A way in before it has its place in the order.
     *
     * @param last whether something speaks against it, so that the others are tried before it
     */
    private record Candidate(List<AccessSite> sites, String why, String rule, boolean last) {}

    /** Why the aortic bifurcation cannot be crossed from the opposite groin. */
    private record Hindrance(String rule, String words) {}

    private final Case referral;
    private final List<PlanLesion> lesions;
    private final EarlierProcedures earlier;
    private final Arms arms;
    private final PlanAnswers answers;
    private final RuleBook book;
    private final List<Access> access = new ArrayList<>();
    private final List<BailOut> bailOut = new ArrayList<>();

    /** @param lesions all that count, those of legs that are not treated among them */
    AccessPlan(Case referral, List<PlanLesion> lesions, EarlierProcedures earlier, PlanAnswers answers, RuleBook book) {
        this.referral = referral;
        this.lesions = lesions;
        this.earlier = earlier;
        this.arms = new Arms(referral.document(), referral.limits(), earlier, answers);
        this.answers = answers;
        this.book = book;
    }

    void treat(Set<Side> sides) {
        for (var side : sides) {
            var order = 1;
            for (var level : Level.values()) {
                var targets = Entries.those(lesions, lesion -> lesion.on(side) && lesion.level() == level);
                if (!targets.isEmpty()) {
                    order = treat(side, row(targets), targets, order);
                }
            }
        }
    }

    /** In the order of trying; steps that are the same for both legs are one. */
    List<Access> access() {
        record Alike(int order, List<AccessSite> sites, String rule) {}
        var merged = new LinkedHashMap<Alike, Access>();
        access.forEach(step -> merged.merge(
                new Alike(step.order(), step.sites(), step.rule()),
                step,
                (one, other) -> new Access(
                        one.order(),
                        both(one.sides(), other.sides()),
                        one.sites(),
                        one.why(),
                        one.rule(),
                        one.source())));
        return List.copyOf(merged.values());
    }

    List<BailOut> bailOut() {
        return List.copyOf(bailOut);
    }

    private static List<Side> both(List<Side> one, List<Side> other) {
        var sides = new ArrayList<>(one);
        sides.addAll(other);
        return List.copyOf(sides);
    }

    /** The row that the lesions of one side and level meet. */
    private AccessRow row(List<PlanLesion> targets) {
        return targets.getFirst().level() == Level.ABOVE_GROIN ? aboveGroin(targets) : belowGroin(targets);
    }

    private AccessRow aboveGroin(List<PlanLesion> targets) {
        var commonClosed = any(targets, Segment.COMMON_ILIAC, PlanLesion::closed);
        var externalClosed = any(targets, Segment.EXTERNAL_ILIAC, PlanLesion::closed);
        if (any(targets, Segment.INFRARENAL_AORTA, PlanLesion::closed)) {
            return AccessRow.AORTO_ILIAC;
        }
        if (commonClosed) {
            return externalClosed ? AccessRow.WHOLE_ILIAC : AccessRow.AORTO_ILIAC;
        }
        if (externalClosed) {
            return AccessRow.EXTERNAL_ILIAC;
        }
        if (has(targets, Segment.INFRARENAL_AORTA)
                || any(targets, Segment.COMMON_ILIAC, lesion -> lesion.atOrigin(answers))) {
            return AccessRow.ILIAC_ORIGIN_NARROWED;
        }
        return has(targets, Segment.EXTERNAL_ILIAC) || has(targets, Segment.INTERNAL_ILIAC)
                ? AccessRow.EXTERNAL_ILIAC_NARROWED
                : AccessRow.COMMON_ILIAC_NARROWED;
    }

    private AccessRow belowGroin(List<PlanLesion> targets) {
        if (has(targets, Segment.COMMON_FEMORAL) || has(targets, Segment.PROFUNDA_FEMORIS)) {
            return AccessRow.COMMON_FEMORAL;
        }
        if (has(targets, Segment.SUPERFICIAL_FEMORAL)) {
            var atOrigin = any(targets, Segment.SUPERFICIAL_FEMORAL, lesion -> lesion.atOrigin(answers));
            return any(targets, Segment.SUPERFICIAL_FEMORAL, PlanLesion::closed)
                    ? (atOrigin ? AccessRow.FLUSH_FEMORAL : AccessRow.SUPERFICIAL_FEMORAL)
                    : (atOrigin ? AccessRow.FEMORAL_ORIGIN_NARROWED : AccessRow.FEMORAL_NARROWED);
        }
        return has(targets, Segment.POPLITEAL) ? AccessRow.POPLITEAL : AccessRow.BELOW_KNEE;
    }

    private static boolean has(List<PlanLesion> lesions, Segment segment) {
        return any(lesions, segment, _ -> true);
    }

    private static boolean any(List<PlanLesion> lesions, Segment segment, Predicate<PlanLesion> condition) {
        return Entries.any(lesions, lesion -> lesion.segment() == segment && condition.test(lesion));
    }

    private boolean closed(Side side, Segment segment) {
        return Entries.any(lesions, lesion -> lesion.on(side) && lesion.segment() == segment && lesion.closed());
    }

    private boolean diseased(Side side, Segment segment) {
        return Entries.any(lesions, lesion -> lesion.on(side) && lesion.segment() == segment);
    }

    /** @return the number of the next step */
    private int treat(Side side, AccessRow row, List<PlanLesion> targets, int first) {
        var bySites = new LinkedHashMap<List<AccessSite>, Candidate>();
        for (var way : row.ways()) {
            candidate(way, side, row).ifPresent(found -> bySites.putIfAbsent(found.sites(), found));
        }
        var order = first;
        for (var last : List.of(false, true)) {
            for (var found : bySites.values()) {
                if (found.last() == last) {
                    access.add(new Access(
                            order++,
                            List.of(side),
                            found.sites(),
                            found.why(),
                            found.rule(),
                            book.sourceOf(found.rule())));
                }
            }
        }
        if (Entries.any(targets, PlanLesion::closed)) {
            row.bailOut().stream()
                    .filter(place -> canBePunctured(side, place))
                    .forEach(place -> bailOut.add(new BailOut(
                            List.of(side),
                            List.of(AccessSite.of(side, place)),
                            row.finding() + ": upwards from below the occlusion when it cannot be crossed from above.",
                            row.rule(),
                            book.sourceOf(row.rule()))));
        }
        return order;
    }

    private boolean canBePunctured(Side side, Place place) {
        var leg = referral.leg(side);
        return switch (place) {
            case PROFUNDA -> !closed(side, Segment.PROFUNDA_FEMORIS);
            case SUPERFICIAL_FEMORAL -> !closed(side, Segment.SUPERFICIAL_FEMORAL);
            case POPLITEAL -> !closed(side, Segment.POPLITEAL);
            case TIBIAL -> !leg.facts().footGone();
            case FEMORAL, BRACHIAL, RADIAL -> true;
        };
    }

    private Optional<Candidate> candidate(AccessRow.Way way, Side side, AccessRow row) {
        return switch (way) {
            case OPPOSITE_GROIN -> oppositeGroin(side, row);
            case SAME_GROIN_UPWARDS ->
                groin(side, false).map(site -> groin(site, side, row, row.finding() + ": upwards from the same side."));
            case SAME_GROIN_DOWNWARDS ->
                groin(side, true)
                        .map(site -> groin(site, side, row, row.finding() + ": downwards from the same side."));
            case ARM -> Optional.of(arm(side, row, row.rule(), row.finding()));
            case BOTH_GROINS -> Optional.of(together(row, List.of(), row.finding() + "."));
            case BOTH_GROINS_AND_ARM -> Optional.of(together(row, List.of(arms.site(side)), row.finding() + "."));
        };
    }

    private Candidate together(AccessRow row, List<AccessSite> arm, String why) {
        var sites = new ArrayList<AccessSite>();
        for (var each : Side.values()) {
            groin(each, false).ifPresent(sites::add);
        }
        sites.addAll(arm);
        var small = Entries.any(sites, site -> site.place().small());
        return new Candidate(
                List.copyOf(sites),
                small ? why + DISEASED_GROIN : why,
                small ? "plan-diseased-groin" : row.rule(),
                false);
    }

    private static final String DISEASED_GROIN =
            " Where the common femoral artery is diseased or too short for a sheath, a small system goes in below it.";

    private Candidate arm(Side side, AccessRow row, String rule, String reason) {
        var site = arms.site(side);
        var why = row.equals(AccessRow.AORTO_ILIAC)
                ? "From the arm alone, where a covered stent may be needed."
                : reason + ": from the arm, downwards.";
        return objected(new Candidate(List.of(site), why, rule, false), site, side);
    }

    private Optional<Candidate> oppositeGroin(Side side, AccessRow row) {
        var hindrance = hindrance(side);
        if (hindrance.isPresent()) {
            return row.armReaches()
                    ? Optional.of(arm(
                            side,
                            row,
                            hindrance.get().rule(),
                            row.finding() + ", and " + hindrance.get().words()))
                    : Optional.empty();
        }
        return groin(side.opposite(), false).map(site -> acrossFrom(site, side, row));
    }

    private Candidate acrossFrom(AccessSite site, Side side, AccessRow row) {
        var found = groin(
                site, side, row, row.finding() + ": over the aortic bifurcation; where that is steep, an arm instead.");
        return pulseAbsent(side.opposite())
                ? new Candidate(
                        found.sites(),
                        found.why() + " No pulse is felt there, so the artery above may be closed.",
                        "plan-absent-pulse",
                        true)
                : found;
    }

    private boolean pulseAbsent(Side side) {
        return answers.of(PlanFact.yesOrNo(
                side.path() + ".pulses.femoral",
                referral.document().legs().of(side).pulses().femoral().map(pulse -> pulse == Pulse.ABSENT),
                "Can a pulse be felt in the " + (side == Side.LEFT ? "left" : "right") + " groin?"));
    }

    private Optional<Hindrance> hindrance(Side side) {
        var opposite = side.opposite();
        if (closed(opposite, Segment.INFRARENAL_AORTA)
                || closed(opposite, Segment.COMMON_ILIAC)
                || closed(opposite, Segment.EXTERNAL_ILIAC)) {
            return Optional.of(new Hindrance(
                    "plan-opposite-groin-closed", "the way over the aortic bifurcation is closed on the other side"));
        }
        if (earlier.graft()) {
            return Optional.of(new Hindrance(
                    "plan-bifurcated-graft", "an earlier repair may have left a graft with a steep bifurcation"));
        }
        return groin(opposite, false).isEmpty()
                ? Optional.of(new Hindrance(
                        "plan-diseased-groin",
                        "every artery of the opposite groin in which a sheath could lie is diseased"))
                : Optional.empty();
    }

    /** The site in the groin of {@code side}, below a diseased common femoral artery where there is one. */
    private Optional<AccessSite> groin(Side side, boolean downwards) {
        if (!diseased(side, Segment.COMMON_FEMORAL)) {
            return Optional.of(AccessSite.of(side, Place.FEMORAL));
        }
        if (!diseased(side, Segment.SUPERFICIAL_FEMORAL)) {
            return Optional.of(AccessSite.of(side, Place.SUPERFICIAL_FEMORAL));
        }
        return downwards || diseased(side, Segment.PROFUNDA_FEMORIS)
                ? Optional.empty()
                : Optional.of(AccessSite.of(side, Place.PROFUNDA));
    }

    private Candidate groin(AccessSite site, Side treated, AccessRow row, String why) {
        return objected(
                site.place().small()
                        ? new Candidate(List.of(site), why + DISEASED_GROIN, "plan-diseased-groin", true)
                        : new Candidate(List.of(site), why, row.rule(), false),
                site,
                treated);
    }

    private Candidate objected(Candidate found, AccessSite site, Side treated) {
        return earlier.against(site, treated)
                .map(objection -> new Candidate(
                        found.sites(),
                        found.why() + " Only after the others: " + objection.words() + ".",
                        objection.rule(),
                        true))
                .orElse(found);
    }
}
