package limbqueue.triage;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.ArmPressures;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.Wifi;
import limbqueue.triage.finding.Background;
import limbqueue.triage.grade.AcuteClass;
import limbqueue.triage.grade.ChronicGrade;
import limbqueue.triage.grade.ChronicGrade.Category;
import limbqueue.triage.grade.InfectionGrade.Infection;
import limbqueue.triage.grade.LegFacts;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.grade.LimbThreat;
import limbqueue.triage.grade.WifiTable;
import limbqueue.triage.grade.WoundGrade;
import limbqueue.triage.perfusion.Indices;
import limbqueue.triage.perfusion.Perfusion;
import limbqueue.triage.question.Acting;
import limbqueue.triage.question.Answers;
import limbqueue.triage.question.Exploration;
import limbqueue.triage.question.Fact;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.urgency.LegUrgency;

/** One leg: what to act on, what remains possible, and what to ask. */
final class LegAssessment {

    /** A question still open, and the most urgent tier that an answer could bring. */
    record Open(String ask, String field, Tier couldReveal, List<String> couldChange) {}

    private final LegFacts facts;
    private final LegPicture picture;
    private final Map<String, Fact<?>> lookedAt = new LinkedHashMap<>();

    private final LegUrgency.Rule rule;
    private final Category rutherford;
    private final Fontaine fontaine;
    private final boolean threatened;
    private final int wound;

    private final Exploration<Tier> tiers;
    private final Exploration<Category> rutherfords;
    private final Exploration<Fontaine> fontaines;
    private final Exploration<Boolean> threats;
    private final Exploration<Integer> wounds;
    private final Exploration<Infection> infections;
    private final Exploration<Perfusion> perfusions;

    LegAssessment(LegFacts facts, ReferralDocument document) {
        this.facts = facts;
        this.picture = LegPicture.of(facts);
        var background = Background.of(facts.side(), document, facts.limits());
        var acting = new Acting();
        this.rule = LegUrgency.of(facts, background, acting);
        this.rutherford = category(facts, acting);
        this.fontaine = ChronicGrade.fontaine(facts, acting);
        this.threatened = LimbThreat.of(facts, acting);
        this.wound = WoundGrade.of(facts, acting);
        acting.of(facts.infection());
        lookedAt.putAll(acting.unknown());
        this.tiers = Exploration.of(
                answers -> LegUrgency.of(facts, background, answers).tier());
        this.rutherfords = Exploration.of(answers -> category(facts, answers));
        this.fontaines = Exploration.of(answers -> ChronicGrade.fontaine(facts, answers));
        this.threats = Exploration.of(answers -> LimbThreat.of(facts, answers));
        this.wounds = Exploration.of(answers -> WoundGrade.of(facts, answers));
        this.infections = facts.infection().explore();
        this.perfusions = Exploration.of(answers -> answers.of(facts.perfusion()));
    }

    private static Category category(LegFacts facts, Answers answers) {
        return AcuteClass.present(facts, answers)
                ? Category.of(AcuteClass.of(facts, answers))
                : ChronicGrade.rutherford(facts, answers);
    }

    LegPicture picture() {
        return picture;
    }

    LegUrgency.Rule rule() {
        return rule;
    }

    String sentence() {
        return rule.sentence(facts.words());
    }

    Set<Tier> possibleTiers() {
        return tiers.conclusions();
    }

    LegResult result(ArmPressures arms) {
        return new LegResult(
                facts.figures().abi(),
                Indices.tbi(facts.leg(), arms, facts.limits()),
                new FontaineGrade(fontaine, sorted(fontaines.conclusions())),
                new RutherfordGrade(rutherford.actOn(), possibleCategories()),
                facts.footGone() ? Optional.empty() : Optional.of(wifi()),
                limbThreatening(),
                possibleThreats(),
                rule.tier());
    }

    private List<Rutherford> possibleCategories() {
        var possible = EnumSet.noneOf(Rutherford.class);
        rutherfords.conclusions().forEach(category -> possible.addAll(category.possible()));
        return List.copyOf(possible);
    }

    private List<Answer> possibleThreats() {
        if (limbThreatening() == Answer.CANNOT_SAY) {
            return List.of(Answer.YES, Answer.NO);
        }
        return threats.conclusions().stream()
                .map(threat -> threat ? Answer.YES : Answer.NO)
                .sorted()
                .toList();
    }

    /** Without any figure of perfusion a symptom that lasts can be explained neither way. */
    private Answer limbThreatening() {
        if (threatened && !facts.figures().known()) {
            return Answer.CANNOT_SAY;
        }
        return threatened ? Answer.YES : Answer.NO;
    }

    /** Wound, ischaemia and infection are graded from different facts, so any grades can go together. */
    private Wifi wifi() {
        var stages = new TreeSet<Integer>();
        for (var possibleWound : wounds.conclusions()) {
            for (var possiblePerfusion : perfusions.conclusions()) {
                for (var possibleInfection : infections.conclusions()) {
                    stages.add(
                            WifiTable.stage(possibleWound, possiblePerfusion.ischaemia(), possibleInfection.grade()));
                }
            }
        }
        var ischaemia = picture.perfusion().ischaemia();
        return new Wifi(
                wound,
                ischaemia,
                picture.infection(),
                WifiTable.stage(wound, ischaemia, picture.infection()),
                WifiTable.benefit(wound, ischaemia, picture.infection()),
                List.copyOf(stages));
    }

    /**
     * Unknown facts that were looked at and whose answer could change something.
     *
     * @param otherLeg the least urgent tier that remains possible for the other leg: what only moves this leg within
     *     less urgent tiers than that moves nothing
     */
    List<Open> openQuestions(Tier otherLeg) {
        var open = new ArrayList<Open>();
        if (lookedAt.isEmpty()) {
            return open;
        }
        var urgent = tiers.decisive();
        Map<String, Map<String, ? extends Collection<?>>> grades = new LinkedHashMap<>();
        grades.put("rutherford", rutherfords.decisive());
        grades.put("fontaine", fontaines.decisive());
        grades.put("chronicLimbThreatening", threats.decisive());
        var wifi = new HashSet<String>();
        wifi.addAll(wounds.decisive().keySet());
        wifi.addAll(infections.decisive().keySet());
        wifi.addAll(perfusions.decisive().keySet());
        for (var fact : lookedAt.values()) {
            var change = new LinkedHashSet<String>();
            var leadsTo = urgent.getOrDefault(fact.path(), Set.of());
            var reveals = leadsTo.stream().min(Comparator.naturalOrder());
            if (movesReferral(leadsTo, otherLeg)) {
                change.add("urgency");
            }
            grades.forEach((grade, decisive) -> {
                if (decisive.containsKey(fact.path())) {
                    change.add(grade);
                }
            });
            if (wifi.contains(fact.path())) {
                change.add("wifi");
            }
            if (!change.isEmpty()) {
                open.add(new Open(fact.ask(), fact.path(), reveals.orElse(rule.tier()), List.copyOf(change)));
            }
        }
        return open;
    }

    private static boolean movesReferral(Set<Tier> tiers, Tier otherLeg) {
        return tiers.stream().map(otherLeg::orMoreUrgent).distinct().count() > 1;
    }

    private static <T extends Comparable<T>> List<T> sorted(Set<T> values) {
        return values.stream().sorted().toList();
    }

    List<Reason> reasons(ArmPressures arms, RuleBook book) {
        var reasons = new ArrayList<Reason>();
        reasons.add(reason(book, rule.id(), because(), sentence()));
        facts.figures()
                .abi()
                .ifPresent(abi -> reasons.add(reason(
                        book,
                        "ankle-brachial-index",
                        List.of(facts.path("pressures"), "armPressures"),
                        Sentence.of(
                                "Ankle-brachial index of the %s %.2f: %s.",
                                facts.words(),
                                abi.value(),
                                switch (abi.band()) {
                                    case ABNORMAL -> "abnormal";
                                    case BORDERLINE -> "borderline";
                                    case NORMAL -> "normal";
                                    case NONCOMPRESSIBLE ->
                                        "the arteries cannot be compressed, the number says nothing";
                                }))));
        if (Indices.fallsWithExercise(facts.leg(), arms, facts.limits())) {
            reasons.add(reason(
                    book,
                    "fall-after-exercise",
                    List.of(facts.path("abiAfterExercise"), facts.path("pressures.ankleAfterExercise")),
                    Sentence.of(
                            "The pressure of the %s falls with exercise as it does behind a narrowed artery.",
                            facts.words())));
        }
        if (picture.acute()) {
            reasons.add(reason(
                    book,
                    "rutherford-acute",
                    List.of(facts.path("acute")),
                    Sentence.of(
                            "Acute limb ischaemia of the %s, class %s.",
                            facts.words(), rutherford.actOn().label())));
        } else if (picture.symptoms()) {
            reasons.add(reason(
                    book,
                    "rutherford-chronic",
                    because(),
                    Sentence.of(
                            "Rutherford category %s of the %s%s.",
                            rutherford.actOn().label(),
                            facts.words(),
                            rutherford.possible().size() > 1
                                    ? "; the walking distance stands in for a treadmill test (common practice)"
                                    : "")));
            reasons.add(reason(
                    book,
                    "fontaine",
                    because(),
                    Sentence.of(
                            "Fontaine stage of the %s, from the complaint and the walking distance.", facts.words())));
        }
        if (picture.threatening() && !picture.acute()) {
            reasons.add(reason(
                    book,
                    "chronic-limb-threatening",
                    because(),
                    switch (limbThreatening()) {
                        case YES -> Sentence.of("Limb-threatening ischaemia of the %s.", facts.words());
                        case NO ->
                            Sentence.of(
                                    "The definition of limb-threatening ischaemia is not met for the %s.",
                                    facts.words());
                        case CANNOT_SAY ->
                            Sentence.of(
                                    "Limb-threatening ischaemia of the %s cannot be ruled out: no figure of its blood flow is known.",
                                    facts.words());
                    }));
            reasons.add(reason(
                    book,
                    "wifi-stage",
                    Stream.concat(because().stream(), Stream.of(facts.path("pressures")))
                            .toList(),
                    Sentence.of(
                            "WIfI of the %s: wound %d, ischaemia %d, infection %d.",
                            facts.words(), wound, picture.perfusion().ischaemia(), picture.infection())));
        }
        return reasons;
    }

    private static Reason reason(RuleBook book, String rule, List<String> because, String text) {
        return new Reason(rule, because, text, book.sourceOf(rule));
    }

    /** The fields that the complaint of this leg stands in. */
    private List<String> because() {
        return Stream.of(
                        picture.acute() ? Optional.of("acute") : Optional.<String>empty(),
                        picture.tissueLoss() ? Optional.of("wound") : Optional.<String>empty(),
                        picture.infection() > 0 ? Optional.of("infection") : Optional.<String>empty(),
                        picture.restPain() ? Optional.of("restPain") : Optional.<String>empty(),
                        picture.claudication() ? Optional.of("claudication") : Optional.<String>empty())
                .flatMap(Optional::stream)
                .map(facts::path)
                .toList();
    }
}
