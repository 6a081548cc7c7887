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
import limbqueue.triage.question.Entries;
import limbqueue.triage.rule.RuleBook;
import org.jspecify.annotations.Nullable;

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
        var course = Course.acting(referral, book, flags, acting);
        var plan = course.plan();
        var questions = new ArrayList<Open>();
        for (var fact : acting.open()) {
            if (differs(fact, course, plan)) {
                questions.add(new Open(fact.ask(), fact.path()));
            }
        }
        return new Planning(Optional.of(plan), course.features(), List.copyOf(questions));
    }

    /** @param plan what {@code acting}, with the answers that are acted on, comes to */
    private static boolean differs(PlanFact<?> fact, Course acting, ProcedurePlan plan) {
        var first = fact.choices().contains(fact.actOn())
                ? plan
                : acting.answering(fact, 0).plan();
        for (var choice = 0; choice < fact.choices().size(); choice++) {
            if (!fact.choices().get(choice).equals(fact.actOn())
                    && !acting.answering(fact, choice).makes(first)) {
                return true;
            }
        }
        return false;
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
        private final PlanLesion.Reported reported;
        private final List<PlanLesion> lesions;
        private final List<PlanLesion> targets;
        private final EarlierProcedures earlier;
        private final List<ProcedurePlan.Access> steps;
        private final List<ProcedurePlan.BailOut> bailOut;

        /** The unknown facts that the lesions rest on, and those that the ways in rest on beside them. */
        private final Set<String> placedBy;

        private final Set<String> accessedBy;

        static Course acting(Case referral, RuleBook book, List<RedFlag> flags, PlanAnswers answers) {
            return new Course(referral, book, flags, answers, null, "");
        }

        /** The same with {@code fact} answered otherwise: what does not rest on it stays as it is. */
        Course answering(PlanFact<?> fact, int choice) {
            return new Course(referral, book, flags, PlanAnswers.answering(fact, choice), this, fact.path());
        }

        private Course(
                Case referral,
                RuleBook book,
                List<RedFlag> flags,
                PlanAnswers answers,
                @Nullable Course acting,
                String varied) {
            this.referral = referral;
            this.book = book;
            this.flags = flags;
            this.answers = answers;
            for (var side : Side.values()) {
                if (referral.legTiers().get(side) == referral.tier()) {
                    sides.add(side);
                }
            }
            this.reported = acting == null || acting.placedBy.contains(varied)
                    ? PlanLesion.of(referral.document().lesions().orElse(List.of()), referral.limits(), answers)
                    : acting.reported;
            this.placedBy = answers.paths();
            this.lesions = reported.placed();
            this.targets = Entries.those(lesions, lesion -> Entries.any(sides, lesion::on));
            this.earlier = new EarlierProcedures(referral.document(), answers);
            if (acting == null || acting.accessedBy.contains(varied)) {
                var access = new AccessPlan(referral, lesions, earlier, answers, book);
                access.treat(sides);
                this.steps = access.access();
                this.bailOut = access.bailOut();
            } else {
                this.steps = acting.steps;
                this.bailOut = acting.bailOut;
            }
            this.accessedBy = answers.paths();
        }

        /** Whether it comes to the plan {@code other}. Most that differ do so in the ways in or the lesions already. */
        boolean makes(ProcedurePlan other) {
            return steps.equals(other.access()) && targetList().equals(other.targets()) && plan().equals(other);
        }

        ProcedurePlan plan() {
            var tools = new Instruments(referral, book, flags, answers, targets, steps, bailOut);
            var minutes = minutes();
            return new ProcedurePlan(
                    List.copyOf(sides),
                    targetList(),
                    steps,
                    bailOut,
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

        private CaseMinutes.Minutes minutes() {
            var expected = CaseMinutes.prior(referral.limits());
            return features().map(expected::of).orElseGet(expected::beforeImaging);
        }

        Optional<CaseFeatures> features() {
            if (targets.isEmpty()) {
                return Optional.empty();
            }
            return Optional.of(new CaseFeatures(
                    Entries.count(targets, lesion -> !lesion.closed()),
                    Entries.count(targets, PlanLesion::closed),
                    Entries.any(targets, lesion -> lesion.closed() && lesion.level() == Level.ABOVE_GROIN),
                    targets.stream()
                            .mapToDouble(lesion -> lesion.length(answers))
                            .sum(),
                    Entries.count(targets, lesion -> lesion.calcification(answers) == Calcification.SEVERE),
                    earlier.failed(sides),
                    Entries.any(
                            steps,
                            step -> step.order() == 1
                                    && Entries.any(
                                            step.sites(), site -> site.place().ofArm()))));
        }

        private List<Caution> cautions() {
            var cautions = new Cautions(referral, book, flags);
            if (targets.isEmpty()) {
                cautions.add(
                        "plan-imaging-first",
                        "Access cannot be proposed before imaging: no lesion of a leg that is treated is known.",
                        List.of());
            }
            if (!reported.unplaced().isEmpty()) {
                cautions.add(
                        "plan-unplaced",
                        "A lesion of which artery or side is not known is not planned for.",
                        reported.unplaced());
            }
            cautions.ofLesions(lesions, targets, sides);
            cautions.ofPatient(sides, lesions);
            return cautions.all();
        }
    }
}
