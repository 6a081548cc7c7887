package limbqueue.booking;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import limbqueue.triage.DrugTiming;
import limbqueue.triage.Policy;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.WorkUpItem;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;

/**
 * Which steps a referral still has before it, from what triage proposes for it: what is measured and pictured, the clinic,
 * and the procedure; and what keeps each of them from a day. Blood tests are no step, since they need no session: CTA and
 * procedure are barred on days on which no kidney function could count.
 */
public final class CasePath {

    /** What triage makes of a referral for the plan. */
    public sealed interface Outcome {}

    /** It waits for places. */
    public record Waits(WaitingCase waiting) implements Outcome {}

    /** It has no place in any session. */
    public record NotQueued(String reference, Tier tier, String why) implements Outcome {}

    /**
     * What a practice knows of a case beside the referral.
     *
     * @param needs of every session in which the patient is
     * @param procedureNeeds of the procedure room alone
     * @param told ids of the sessions for which the patient has been told to come
     * @param done steps that have been taken since
     */
    public record Known(
            Set<Capability> needs, Set<Capability> procedureNeeds, Map<StepKind, String> told, Set<StepKind> done) {

        public static final Known NOTHING = new Known(Set.of(), Set.of(), Map.of(), Set.of());
    }

    private static final Set<String> MEASURED = Set.of("duplex", "toe-pressure", "exercise-abi", "vein-mapping");
    private static final Set<String> OUTSIDE = Set.of("outside-report", "outside-images", "operator-conversation");
    private static final Set<String> PRESCRIBED =
            Set.of("anticoagulant", "metformin", "sglt2-inhibitor", "kidney-drugs");
    private static final String KIDNEY = "kidney-function";
    private static final Set<String> BLOOD = Set.of(KIDNEY, "blood-count", "potassium", "inr", "thyroid-function");

    private final ReferralDocument document;
    private final Policy policy;
    private final RuleBook book;
    private final LocalDate asOf;
    private final LeadDays lead;
    private final Map<StepKind, StepMinutes> minutes;
    private final Known known;
    private final TriageResult result;

    private CasePath(
            ReferralDocument document,
            Policy policy,
            LocalDate asOf,
            LeadDays lead,
            Map<StepKind, StepMinutes> minutes,
            Known known) {
        this.document = document;
        this.policy = policy;
        this.book = RuleBook.shipped();
        this.asOf = asOf;
        this.lead = lead;
        this.minutes = minutes;
        this.known = known;
        this.result = Triage.triage(document, policy, book, asOf);
    }

    /** Minutes of the steps before the procedure where a practice says nothing else (common practice, no source). */
    public static Map<StepKind, StepMinutes> usualMinutes() {
        return Map.of(
                StepKind.PRESSURES_AND_DUPLEX, new StepMinutes(40, 55),
                StepKind.CTA, new StepMinutes(25, 35),
                StepKind.CLINIC, new StepMinutes(25, 40));
    }

    /**
     * The path of a referral.
     *
     * @param reference under which it is planned
     * @param minutes of the steps before the procedure
     */
    public static Outcome of(
            String reference,
            ReferralDocument document,
            Policy policy,
            LocalDate asOf,
            LeadDays lead,
            Map<StepKind, StepMinutes> minutes,
            Known known) {
        return new CasePath(document, policy, asOf, lead, minutes, known).outcome(reference);
    }

    private Outcome outcome(String reference) {
        var tier = result.urgency().tier();
        if (tier == Tier.SAME_DAY) {
            return new NotQueued(reference, tier, "To hospital today: the tier same day is never a place in a queue.");
        }
        var plan = result.procedurePlan();
        if (plan.isEmpty()) {
            return new NotQueued(reference, tier, "Advice only: a letter, and no session.");
        }
        var steps = steps(plan.get());
        if (steps.isEmpty()) {
            return new NotQueued(reference, tier, "Every step of it has been taken.");
        }
        return new Waits(new WaitingCase(
                reference,
                patient(reference),
                tier,
                result.urgency().targetDate().orElseThrow(),
                steps));
    }

    /** Two referrals are of one patient when they share an identifier, or name and date of birth. */
    private String patient(String reference) {
        var patient = document.patient();
        var identifier = patient.identifiers().orElse(List.of()).stream()
                .filter(id -> id.value().isPresent())
                .findFirst();
        if (identifier.isPresent()) {
            return "%s|%s"
                    .formatted(
                            identifier.get().system().orElse(""),
                            identifier.get().value().orElseThrow());
        }
        if (patient.family().isPresent()
                && patient.given().isPresent()
                && patient.born().isPresent()) {
            return "%s|%s|%s"
                    .formatted(
                            patient.family().orElseThrow(),
                            patient.given().orElseThrow(),
                            patient.born().orElseThrow());
        }
        return "referral|" + reference;
    }

    private List<Step> steps(ProcedurePlan plan) {
        var steps = new ArrayList<Step>();
        var imagingDays = policy.validity().imagingMonths() * 30;
        if (needed(item -> MEASURED.contains(item.code()))) {
            add(
                    steps,
                    StepKind.PRESSURES_AND_DUPLEX,
                    usual(StepKind.PRESSURES_AND_DUPLEX),
                    Set.of(),
                    List.of(),
                    imagingDays);
        }
        if (needed(item -> item.code().equals("cta-or-mra"))) {
            add(steps, StepKind.CTA, usual(StepKind.CTA), Set.of(), kidneyFunction(), imagingDays);
        }
        add(steps, StepKind.CLINIC, usual(StepKind.CLINIC), Set.of(), List.of(), imagingDays);
        add(
                steps,
                StepKind.PROCEDURE,
                new StepMinutes(plan.expectedMinutes(), Math.max(plan.expectedMinutes(), plan.expectedMinutes90())),
                procedureNeeds(plan),
                beforeProcedure(),
                imagingDays);
        return steps;
    }

    private StepMinutes usual(StepKind kind) {
        return minutes.getOrDefault(kind, Objects.requireNonNull(usualMinutes().get(kind)));
    }

    private void add(
            List<Step> steps,
            StepKind kind,
            StepMinutes time,
            Set<Capability> needs,
            List<Barred> barred,
            int countsDays) {
        if (known.done().contains(kind)) {
            return;
        }
        var all = new ArrayList<>(away());
        all.add(Barred.untilTold(asOf.plusDays(lead.notice())));
        all.addAll(barred);
        var allNeeds = EnumSet.noneOf(Capability.class);
        allNeeds.addAll(known.needs());
        allNeeds.addAll(needs);
        steps.add(new Step(
                kind,
                time,
                allNeeds,
                all,
                steps.isEmpty() ? 0 : reportDays(steps.getLast().kind()),
                kind == StepKind.PRESSURES_AND_DUPLEX || kind == StepKind.CTA
                        ? Optional.of(countsDays)
                        : Optional.empty(),
                Optional.ofNullable(known.told().get(kind))));
    }

    private int reportDays(StepKind before) {
        return switch (before) {
            case PRESSURES_AND_DUPLEX -> lead.duplexReport();
            case CTA -> lead.ctaReport();
            case CLINIC, PROCEDURE -> 0;
        };
    }

    private boolean needed(Predicate<WorkUpItem> condition) {
        return result.workUp().stream().anyMatch(item -> item.needed() && condition.test(item));
    }

    private List<Barred> away() {
        var patient = document.patient();
        var away = new ArrayList<Barred>();
        for (var absence : patient.unavailable().orElse(List.of())) {
            if (absence.from().isPresent() || absence.to().isPresent()) {
                away.add(new Barred(
                        absence.from().map(LocalDate::atStartOfDay).orElse(LocalDateTime.MIN),
                        absence.to().map(day -> day.plusDays(1).atStartOfDay()).orElse(LocalDateTime.MAX),
                        "the patient cannot come"));
            }
        }
        patient.leavesArea()
                .ifPresent(day -> away.add(new Barred(
                        day.atStartOfDay(),
                        patient.returnsToArea().map(LocalDate::atStartOfDay).orElse(LocalDateTime.MAX),
                        "the patient has left the area")));
        return away;
    }

    /** Between the last day of the kidney function that is held and the first day of a new one. */
    private List<Barred> kidneyFunction() {
        var held = result.workUp().stream()
                .filter(item -> item.code().equals(KIDNEY))
                .findFirst()
                .flatMap(WorkUpItem::validUntil)
                .filter(last -> !last.isBefore(asOf));
        var again = asOf.plusDays(lead.bloodTests());
        return between(held, again, "kidney function is in on %s at the soonest".formatted(again));
    }

    private static List<Barred> between(Optional<LocalDate> held, LocalDate again, String why) {
        var from = held.map(last -> last.plusDays(1).atStartOfDay()).orElse(LocalDateTime.MIN);
        return from.isBefore(again.atStartOfDay()) ? List.of(new Barred(from, again.atStartOfDay(), why)) : List.of();
    }

    private List<Barred> beforeProcedure() {
        var barred = new ArrayList<>(kidneyFunction());
        if (needed(item -> BLOOD.contains(item.code()) && !item.code().equals(KIDNEY))) {
            var in = asOf.plusDays(lead.bloodTests());
            barred.add(Barred.before(in, "blood tests are in on %s at the soonest".formatted(in)));
        }
        if (needed(item -> OUTSIDE.contains(item.code()))) {
            var in = asOf.plusDays(lead.outsideRecords());
            barred.add(Barred.before(in, "the other hospital's records are there on %s at the soonest".formatted(in)));
        }
        if (needed(item -> PRESCRIBED.contains(item.code()))) {
            var settled = asOf.plusDays(lead.prescriber());
            barred.add(Barred.before(settled, "the prescriber has answered on %s at the soonest".formatted(settled)));
        }
        holds().forEach(barred::add);
        for (var code : List.of("duplex", "cta-or-mra")) {
            heldPicture(code).ifPresent(barred::add);
        }
        if (needed(item -> item.code().equals("exercise-therapy"))) {
            barred.add(exercise());
        }
        return barred;
    }

    /** A drug that was taken on the evening of the day of planning has been left out long enough. */
    private List<Barred> holds() {
        var at = asOf.plusDays(1).atStartOfDay().plusYears(1);
        return Triage.workUpFor(document, policy, book, asOf, at).drugs().stream()
                .filter(drug -> drug.action() == DrugTiming.Action.HOLD)
                .flatMap(drug -> drug.lastDose().stream()
                        .map(last -> Duration.between(last, at))
                        .map(hold -> Barred.before(
                                asOf.plusDays(1).atStartOfDay().plus(hold),
                                "%s is held for %s before it"
                                        .formatted(drug.drug(), drug.hold().orElse("some time")))))
                .toList();
    }

    /** A picture that is held and not repeated carries the procedure as long as it counts. */
    private Optional<Barred> heldPicture(String code) {
        return result.workUp().stream()
                .filter(item -> item.code().equals(code) && !item.needed())
                .findFirst()
                .flatMap(WorkUpItem::validUntil)
                .map(last -> Barred.after(
                        last, "the %s that is held counts until %s".formatted(code.replace('-', ' '), last)));
    }

    private Barred exercise() {
        var weeks = book.on(asOf).of(Limit.EXERCISE_PROGRAMME_WEEKS)
                - document.history().exerciseProgrammeWeeks().orElse(0.0);
        var until = asOf.plusDays(Math.round(weeks * 7));
        return Barred.before(until, "supervised exercise comes first, until %s".formatted(until));
    }

    private Set<Capability> procedureNeeds(ProcedurePlan plan) {
        var needs = EnumSet.noneOf(Capability.class);
        needs.addAll(known.procedureNeeds());
        if (plan.access().stream()
                .filter(access -> access.order() == 1)
                .flatMap(access -> access.sites().stream())
                .anyMatch(site -> site.place().ofArm())) {
            needs.add(Capability.ARM_ACCESS);
        }
        if (needed(item -> item.code().equals("covered-stent-stock"))) {
            needs.add(Capability.COVERED_STENT_STOCK);
        }
        return needs;
    }
}
