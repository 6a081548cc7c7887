package limbqueue.triage;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import limbqueue.triage.TriageResult.Contradiction;
import limbqueue.triage.TriageResult.FhirPriority;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.LegResults;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Urgency;
import limbqueue.triage.anatomy.AnatomicFindings;
import limbqueue.triage.finding.Case;
import limbqueue.triage.flag.Outcome;
import limbqueue.triage.flag.RedFlags;
import limbqueue.triage.grade.Contradictions;
import limbqueue.triage.grade.LegFacts;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.plan.CaseFeatures;
import limbqueue.triage.plan.Planning;
import limbqueue.triage.question.Entries;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.workup.WorkUp;

/** The course of triage: each leg by itself, then the patient, then what follows. */
final class Assessment {

    private static final Comparator<Question> MOST_URGENT_FIRST = Comparator.comparing(Question::couldReveal)
            .thenComparing(question -> question.couldChange().size(), Comparator.reverseOrder());

    private final ReferralDocument document;
    private final Policy policy;
    private final RuleBook book;
    private final LocalDate asOf;
    private final Map<Side, LegAssessment> legs = new EnumMap<>(Side.class);
    private final Tier tier;
    private final Case referral;

    Assessment(ReferralDocument document, Policy policy, RuleBook book, LegRules rules, LocalDate asOf) {
        this.document = document;
        this.policy = policy;
        this.book = book;
        this.asOf = asOf;
        var limits = book.on(asOf);
        var pictures = new EnumMap<Side, LegPicture>(Side.class);
        var tiers = new EnumMap<Side, Tier>(Side.class);
        for (var side : Side.values()) {
            var facts = new LegFacts(side, document, asOf, limits, rules.infection(limits));
            var leg = new LegAssessment(facts, document, rules);
            legs.put(side, leg);
            pictures.put(side, leg.picture());
            tiers.put(side, leg.rule().tier());
        }
        this.tier =
                leg(Side.LEFT).rule().tier().orMoreUrgent(leg(Side.RIGHT).rule().tier());
        this.referral = new Case(document, asOf, limits, pictures, tiers, tier, targetDate(tier));
    }

    Grading grading() {
        return new Grading(tier, leg(Side.LEFT).grading(), leg(Side.RIGHT).grading());
    }

    /** Codes of the red flags raised. */
    Set<String> flags() {
        return codes(RedFlags.raised(RedFlags.look(referral), book));
    }

    Optional<LocalDate> targetDate() {
        return referral.targetDate();
    }

    TriageResult result() {
        var anatomy = AnatomicFindings.of(document, referral.limits());
        var outcomes = RedFlags.look(referral);
        var flags = RedFlags.raised(outcomes, book);
        var codes = codes(flags);
        var workUp = workUp(codes, anatomy, Optional.empty());
        var planning = Planning.of(referral, book, flags);
        return new TriageResult(
                document.reference(),
                asOf,
                policy.id(),
                book.id(),
                TriageResult.NOTICE,
                new LegResults(legResult(Side.LEFT), legResult(Side.RIGHT)),
                anatomy.entries(),
                new Urgency(
                        tier,
                        possibleTiers(),
                        referral.targetDate(),
                        waitingSince(codes),
                        fhirPriority(tier),
                        because()),
                flags,
                contradictions(),
                questions(outcomes, anatomy, workUp, planning),
                workUp.items(),
                planning.plan(),
                reasons(anatomy));
    }

    /** The work-up for a procedure at {@code at}. */
    ProcedureWorkUp workUpFor(LocalDateTime at) {
        var workUp = workUp(flags(), AnatomicFindings.of(document, referral.limits()), Optional.of(at));
        return new ProcedureWorkUp(at, workUp.items(), workUp.drugs());
    }

    private WorkUp workUp(Set<String> flags, AnatomicFindings anatomy, Optional<LocalDateTime> at) {
        return WorkUp.of(referral, policy, book, flags, anatomy.entries(), at);
    }

    /** What the time of the case depends on. */
    Optional<CaseFeatures> caseFeatures() {
        return Planning.of(referral, book, RedFlags.raised(RedFlags.look(referral), book))
                .features();
    }

    private static Set<String> codes(List<RedFlag> flags) {
        var codes = new LinkedHashSet<String>();
        flags.forEach(flag -> codes.add(flag.code()));
        return codes;
    }

    /**
     * Any tier of one leg with any of the other. The legs share signs of the whole body, arm pressures and earlier
     * procedures, but those move both the same way, so the more urgent of the two is reached.
     */
    private List<Tier> possibleTiers() {
        var possible = new TreeSet<Tier>();
        for (var left : leg(Side.LEFT).possibleTiers()) {
            for (var right : leg(Side.RIGHT).possibleTiers()) {
                possible.add(left.orMoreUrgent(right));
            }
        }
        return List.copyOf(possible);
    }

    private LegAssessment leg(Side side) {
        return Objects.requireNonNull(legs.get(side));
    }

    private LegResult legResult(Side side) {
        return leg(side).result(document.armPressures());
    }

    private Optional<LocalDate> targetDate(Tier tier) {
        return tier == Tier.SAME_DAY
                ? Optional.of(asOf)
                : policy.targetDate(tier, document.received().orElse(asOf));
    }

    private LocalDate waitingSince(Set<String> flags) {
        var received = document.received().orElse(asOf);
        return flags.contains("put-off-elsewhere")
                ? document.deferredElsewhere()
                        .days()
                        .map(put -> received.minusDays(put.days()))
                        .orElse(received)
                : received;
    }

    /** Codes of FHIR request-priority (fhir-r4), where asap outranks urgent. */
    private static FhirPriority fhirPriority(Tier tier) {
        return switch (tier) {
            case SAME_DAY -> FhirPriority.STAT;
            case WITHIN_5_DAYS -> FhirPriority.ASAP;
            case WITHIN_14_DAYS, WITHIN_6_WEEKS -> FhirPriority.URGENT;
            case WITHIN_18_WEEKS, ADVICE_ONLY -> FhirPriority.ROUTINE;
        };
    }

    private String because() {
        return String.join(" ", new LinkedHashSet<>(Entries.each(leading(), LegAssessment::sentence)));
    }

    /** The legs that call for the tier; of two without urgency only one that has a symptom. */
    private List<LegAssessment> leading() {
        var calling = Entries.those(legs.values(), leg -> leg.rule().tier() == tier);
        var withSymptoms = Entries.those(calling, leg -> leg.picture().symptoms());
        return withSymptoms.isEmpty() ? calling : withSymptoms;
    }

    private List<Contradiction> contradictions() {
        var contradictions = new ArrayList<Contradiction>();
        for (var leg : legs.values()) {
            contradictions.addAll(Contradictions.of(leg.picture(), document.armPressures()));
        }
        return List.copyOf(contradictions);
    }

    private List<Reason> reasons(AnatomicFindings anatomy) {
        var reasons = new ArrayList<Reason>();
        for (var leg : Entries.those(legs.values(), leg -> leg.rule().tier() == tier)) {
            reasons.addAll(leg.reasons(document.armPressures(), book));
        }
        for (var leg : Entries.those(legs.values(), leg -> leg.rule().tier() != tier)) {
            reasons.addAll(leg.reasons(document.armPressures(), book));
        }
        reasons.addAll(anatomy.reasons(book));
        return List.copyOf(reasons);
    }

    /** Most urgent first, then by how much an answer could change, then in the order of looking. */
    private List<Question> questions(
            Map<String, Outcome> outcomes, AnatomicFindings anatomy, WorkUp workUp, Planning planning) {
        var questions = new ArrayList<Question>();
        var byTier = new EnumMap<Tier, LocalDate>(Tier.class);
        for (var side : Side.values()) {
            for (var open : leg(side).openQuestions(leastUrgent(side.opposite()))) {
                var tier = open.couldReveal();
                questions.add(new Question(
                        open.ask(), open.field(), tier, byTier.computeIfAbsent(tier, this::askBy), open.couldChange()));
            }
        }
        var day = askBy(tier);
        for (var path : missing(outcomes.values())) {
            questions.add(new Question(FlagQuestions.ask(path), path, tier, day, List.of("redFlags")));
        }
        for (var open : anatomy.questions()) {
            questions.add(new Question(open.ask(), open.field(), tier, day, List.of("anatomy")));
        }
        for (var open : workUp.questions()) {
            questions.add(new Question(open.ask(), open.field(), tier, day, List.of("workUp")));
        }
        for (var open : planning.questions()) {
            questions.add(new Question(open.ask(), open.field(), tier, day, List.of("procedurePlan")));
        }
        questions.sort(MOST_URGENT_FIRST);
        return merged(questions);
    }

    /** What would settle the flags that cannot be told, each field once. */
    private static Set<String> missing(Collection<Outcome> outcomes) {
        var missing = new LinkedHashSet<String>();
        for (var outcome : outcomes) {
            if (outcome instanceof Outcome.CannotTell open) {
                missing.addAll(open.missing());
            }
        }
        return missing;
    }

    private Tier leastUrgent(Side side) {
        return Collections.max(leg(side).possibleTiers());
    }

    private LocalDate askBy(Tier tier) {
        return targetDate(tier).or(() -> targetDate(Tier.WITHIN_18_WEEKS)).orElse(asOf);
    }

    /** The more urgent of two questions for the same field, with what either could change. */
    private static Question both(Question first, Question later) {
        var changes = new LinkedHashSet<>(first.couldChange());
        changes.addAll(later.couldChange());
        return new Question(first.ask(), first.field(), first.couldReveal(), first.askBy(), List.copyOf(changes));
    }

    /** What is asked: the field, but about a whole list several things may be. */
    private static String asked(Question question) {
        return question.field().equals("lesions") ? question.ask() : question.field();
    }

    private static List<Question> merged(Collection<Question> questions) {
        var byField = new LinkedHashMap<String, Question>();
        questions.forEach(question -> byField.merge(asked(question), question, Assessment::both));
        return List.copyOf(byField.values());
    }
}
