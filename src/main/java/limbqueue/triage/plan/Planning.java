package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.Caution;
import limbqueue.triage.ProcedurePlan.Target;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.finding.Case;
import limbqueue.triage.plan.PlanLesion.Level;
import limbqueue.triage.rule.RuleBook;

/**
 * The procedure plan of a referral, and what to ask because an answer would change it. The legs that are treated are
 * those that call for the tier; lesions of the other leg only get in the way. What imaging has not told is taken at
 * its most serious, what nobody has mentioned is asked about and not invented. Each unknown fact that the plan looks
 * at is answered in every way that matters while the others stay as they are acted on: it is a question when that
 * makes different plans.
 */
public final class Planning {

    /** A question whose answer would change the plan. */
    public record Open(String ask, String field) {}

    private final Optional<ProcedurePlan> plan;
    private final Optional<CaseFeatures> features;
    private final List<Open> questions;

    private Planning(Optional<ProcedurePlan> plan, Optional<CaseFeatures> features, List<Open> questions) {
        this.plan = plan;
        this.features = features;
        this.questions = questions;
    }

    /** Nothing where only advice is proposed. */
    public static Planning of(Case referral, RuleBook book, List<RedFlag> flags) {
        if (referral.tier() == Tier.ADVICE_ONLY) {
            return new Planning(Optional.empty(), Optional.empty(), List.of());
        }
        var acting = PlanAnswers.acting();
        var course = new Course(referral, book, flags, acting);
        var plan = course.plan();
        var questions = acting.open().stream()
                .filter(fact -> differs(fact, plan, referral, book, flags))
                .map(fact -> new Open(fact.ask(), fact.path()))
                .toList();
        return new Planning(Optional.of(plan), course.features(plan.access()), questions);
    }

    /** @param acting the plan with the answer that is acted on */
    private static boolean differs(
            PlanFact<?> fact, ProcedurePlan acting, Case referral, RuleBook book, List<RedFlag> flags) {
        var first = fact.choices().contains(fact.actOn()) ? acting : with(fact, 0, referral, book, flags);
        for (var choice = 0; choice < fact.choices().size(); choice++) {
            if (!fact.choices().get(choice).equals(fact.actOn())
                    && !with(fact, choice, referral, book, flags).equals(first)) {
                return true;
            }
        }
        return false;
    }

    private static ProcedurePlan with(PlanFact<?> fact, int choice, Case referral, RuleBook book, List<RedFlag> flags) {
        return new Course(referral, book, flags, PlanAnswers.answering(fact, choice)).plan();
    }

    public Optional<ProcedurePlan> plan() {
        return plan;
    }

    /** What the time of the case depends on; empty while no lesion of a leg that is treated is known. */
    public Optional<CaseFeatures> features() {
        return features;
    }

    public List<Open> questions() {
        return questions;
    }

    /** The course of planning with one set of answers. */
    private static final class Course {

        private final Case referral;
        private final RuleBook book;
        private final List<RedFlag> flags;
        private final PlanAnswers answers;
        private final Set<Side> sides = EnumSet.noneOf(Side.class);
        private final List<PlanLesion> lesions;
        private final List<PlanLesion> targets;
        private final List<String> unplaced;
        private final EarlierProcedures earlier;

        Course(Case referral, RuleBook book, List<RedFlag> flags, PlanAnswers answers) {
            this.referral = referral;
            this.book = book;
            this.flags = flags;
            this.answers = answers;
            for (var side : Side.values()) {
                if (referral.legTiers().get(side) == referral.tier()) {
                    sides.add(side);
                }
            }
            var reported = PlanLesion.of(referral.document().lesions().orElse(List.of()), referral.limits(), answers);
            this.lesions = reported.placed();
            this.unplaced = reported.unplaced();
            this.targets = lesions.stream()
                    .filter(lesion -> sides.stream().anyMatch(lesion::on))
                    .toList();
            this.earlier = new EarlierProcedures(referral.document(), answers);
        }

        ProcedurePlan plan() {
            var access = new AccessPlan(referral, lesions, earlier, answers, book);
            access.treat(sides);
            var steps = access.access();
            var tools = new Instruments(referral, book, flags, answers, targets, steps, access.bailOut());
            var minutes = minutes(steps);
            return new ProcedurePlan(
                    List.copyOf(sides),
                    targetList(),
                    steps,
                    access.bailOut(),
                    tools.sheaths(),
                    tools.support(),
                    tools.wires(),
                    new Views(referral, book, answers, targets).projections(),
                    tools.room(),
                    "Local anaesthetic and light sedation only: pain while a balloon is up warns of rupture.",
                    Math.toIntExact(Math.round(minutes.median())),
                    Math.toIntExact(Math.round(minutes.ninety())),
                    targets.isEmpty()
                            ? "A wide range, since no lesion is known: common practice, no source."
                            : "Common practice, no source, until the practice has recorded cases of its own: half of"
                                    + " such cases take no longer than the first number, nine of ten no longer than the"
                                    + " second.",
                    cautions());
        }

        private List<Target> targetList() {
            var list = new ArrayList<Target>();
            var place = 0;
            for (var i = 0; i < targets.size(); i++) {
                var lesion = targets.get(i);
                if (i == 0 || targets.get(i - 1).segment() != lesion.segment()) {
                    place++;
                }
                list.add(new Target(
                        place,
                        lesion.facts().path(),
                        lesion.side(),
                        lesion.segment(),
                        lesion.words(answers),
                        place == 1
                                ? "The first lesion on the way of the blood."
                                : "After the lesions above it: without inflow nothing below stays open.",
                        "plan-inflow-first",
                        book.sourceOf("plan-inflow-first")));
            }
            return List.copyOf(list);
        }

        private CaseMinutes.Minutes minutes(List<ProcedurePlan.Access> steps) {
            var expected = CaseMinutes.prior(referral.limits());
            return features(steps).map(expected::of).orElseGet(expected::beforeImaging);
        }

        Optional<CaseFeatures> features(List<ProcedurePlan.Access> steps) {
            if (targets.isEmpty()) {
                return Optional.empty();
            }
            return Optional.of(new CaseFeatures(
                    Math.toIntExact(
                            targets.stream().filter(lesion -> !lesion.closed()).count()),
                    Math.toIntExact(targets.stream().filter(PlanLesion::closed).count()),
                    targets.stream().anyMatch(lesion -> lesion.closed() && lesion.level() == Level.ABOVE_GROIN),
                    targets.stream()
                            .mapToDouble(lesion -> lesion.length(answers))
                            .sum(),
                    Math.toIntExact(targets.stream()
                            .filter(lesion -> lesion.calcification(answers) == Calcification.SEVERE)
                            .count()),
                    earlier.failed(sides),
                    steps.stream()
                            .filter(step -> step.order() == 1)
                            .flatMap(step -> step.sites().stream())
                            .anyMatch(site -> site.place().ofArm())));
        }

        private List<Caution> cautions() {
            var cautions = new Cautions(referral, book, flags);
            if (targets.isEmpty()) {
                cautions.add(
                        "plan-imaging-first",
                        "Access cannot be proposed before imaging: no lesion of a leg that is treated is known.",
                        List.of());
            }
            if (!unplaced.isEmpty()) {
                cautions.add(
                        "plan-unplaced", "A lesion of which artery or side is not known is not planned for.", unplaced);
            }
            cautions.ofLesions(lesions, targets, sides);
            cautions.ofPatient(sides, lesions);
            return cautions.all();
        }
    }
}
