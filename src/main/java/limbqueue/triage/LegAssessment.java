package limbqueue.triage;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
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
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.ChronicGrade.Category;
import limbqueue.triage.grade.InfectionGrade.Infection;
import limbqueue.triage.grade.LegFacts;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.grade.LegTopics;
import limbqueue.triage.grade.WifiTable;
import limbqueue.triage.perfusion.Indices;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Fact;
import limbqueue.triage.question.Facts;
import limbqueue.triage.question.Reading;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.urgency.LegUrgency;
import org.jspecify.annotations.Nullable;

/** One leg: what to act on, what remains possible, and what to ask. */
final class LegAssessment {

    /** A question still open, and the most urgent tier that an answer could bring. */
    record Open(String ask, String field, Tier couldReveal, List<String> couldChange) {}

    private final LegFacts facts;
    private final LegPicture picture;

    private final LegRules rules;
    private final Facts known;
    private final Fact<Infection> infection;
    private final Fact<Integer> ischaemia;
    private @Nullable Readings readings;

    private final LegUrgency.Rule rule;
    private final Category rutherford;
    private final Fontaine fontaine;
    private final boolean threatened;
    private final int wound;

    LegAssessment(LegFacts facts, ReferralDocument document, LegRules rules) {
        this.facts = facts;
        this.picture = LegPicture.of(facts);
        this.rules = rules;
        this.known = facts.byTopic();
        Background.of(facts.side(), document, facts.limits()).facts().forEach(known::note);
        this.infection = known.of(LegTopics.INFECTION);
        this.ischaemia = known.of(LegTopics.ISCHAEMIA);
        this.rule = rules.urgency().actOn(known);
        this.rutherford = rules.rutherford().actOn(known);
        this.fontaine = rules.fontaine().actOn(known);
        this.threatened = rules.threat().actOn(known);
        this.wound = rules.wound().actOn(known);
    }

    /** The diagrams read with what is known of this leg; nobody needs them for what is acted on alone. */
    private record Readings(
            Reading<LegUrgency.Rule> urgency,
            Reading<Tier> tier,
            List<Tier> possibleTiers,
            Reading<Category> rutherford,
            Reading<Fontaine> fontaine,
            Reading<Boolean> threat,
            Reading<Integer> wound) {

        static Readings of(LegRules rules, Facts known) {
            var tier = rules.tier().read(known);
            return new Readings(
                    rules.urgency().read(known),
                    tier,
                    tier.possible(),
                    rules.rutherford().read(known),
                    rules.fontaine().read(known),
                    rules.threat().read(known),
                    rules.wound().read(known));
        }
    }

    private Readings readings() {
        var read = readings;
        if (read == null) {
            read = Readings.of(rules, known);
            readings = read;
        }
        return read;
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

    List<Tier> possibleTiers() {
        return readings().possibleTiers();
    }

    Grading.OfLeg grading() {
        return new Grading.OfLeg(
                rule.tier(),
                rule.id(),
                rutherford.actOn(),
                fontaine,
                limbThreatening(),
                facts.footGone()
                        ? Optional.empty()
                        : Optional.of(new Grading.WifiGrades(wound, ischaemia.acting(), picture.infection(), stage())));
    }

    private int stage() {
        return WifiTable.stage(wound, ischaemia.acting(), picture.infection());
    }

    LegResult result(ArmPressures arms) {
        return new LegResult(
                facts.figures().abi(),
                Indices.tbi(facts.leg(), arms, facts.limits()),
                new FontaineGrade(fontaine, sorted(readings().fontaine().possible())),
                new RutherfordGrade(rutherford.actOn(), possibleCategories()),
                facts.footGone() ? Optional.empty() : Optional.of(wifi()),
                limbThreatening(),
                possibleThreats(),
                rule.tier());
    }

    private List<Rutherford> possibleCategories() {
        var possible = EnumSet.noneOf(Rutherford.class);
        readings().rutherford().possible().forEach(category -> possible.addAll(category.possible()));
        return List.copyOf(possible);
    }

    private List<Answer> possibleThreats() {
        if (limbThreatening() == Answer.CANNOT_SAY) {
            return List.of(Answer.YES, Answer.NO);
        }
        return readings().threat().possible().stream()
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
        var ischaemias = ischaemia.possible();
        var infections = infection.possible();
        for (var possibleWound : readings().wound().possible()) {
            for (var possibleIschaemia : ischaemias) {
                for (var possibleInfection : infections) {
                    stages.add(WifiTable.stage(possibleWound, possibleIschaemia, possibleInfection.grade()));
                }
            }
        }
        return new Wifi(
                wound,
                ischaemia.acting(),
                picture.infection(),
                stage(),
                WifiTable.benefit(wound, ischaemia.acting(), picture.infection()),
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
        var unknown = unknown();
        if (unknown.isEmpty()) {
            return open;
        }
        var urgent = readings().tier().decisive();
        var rutherford = readings().rutherford().decisiveFields();
        var fontaine = readings().fontaine().decisiveFields();
        var threat = readings().threat().decisiveFields();
        var wifi = wifiFields();
        for (var fact : unknown.values()) {
            var field = fact.path();
            var change = new ArrayList<String>(5);
            var leadsTo = urgent.getOrDefault(field, List.of());
            if (movesReferral(leadsTo, otherLeg)) {
                change.add("urgency");
            }
            if (rutherford.contains(field)) {
                change.add("rutherford");
            }
            if (fontaine.contains(field)) {
                change.add("fontaine");
            }
            if (threat.contains(field)) {
                change.add("chronicLimbThreatening");
            }
            if (wifi.contains(field)) {
                change.add("wifi");
            }
            if (!change.isEmpty()) {
                var reveals = leadsTo.isEmpty() ? rule.tier() : Collections.min(leadsTo);
                open.add(new Open(fact.ask(), field, reveals, List.copyOf(change)));
            }
        }
        return open;
    }

    private Set<String> wifiFields() {
        var fields = new HashSet<>(readings().wound().decisiveFields());
        infection.part().ifPresent(reading -> fields.addAll(reading.decisiveFields()));
        if (!ischaemia.known()) {
            fields.add(ischaemia.path());
        }
        return fields;
    }

    /** The unknown facts that were looked at, by path, in the order of looking. */
    private Map<String, Fact<?>> unknown() {
        var unknown = new LinkedHashMap<String, Fact<?>>();
        readings().urgency().lookedAt(unknown);
        readings().rutherford().lookedAt(unknown);
        readings().fontaine().lookedAt(unknown);
        readings().threat().lookedAt(unknown);
        readings().wound().lookedAt(unknown);
        infection.part().ifPresent(reading -> reading.lookedAt(unknown));
        return unknown;
    }

    private static boolean movesReferral(List<Tier> tiers, Tier otherLeg) {
        return !tiers.isEmpty()
                && otherLeg.orMoreUrgent(Collections.min(tiers)) != otherLeg.orMoreUrgent(Collections.max(tiers));
    }

    private static <T extends Comparable<T>> List<T> sorted(List<T> values) {
        var sorted = new ArrayList<>(values);
        Collections.sort(sorted);
        return List.copyOf(sorted);
    }

    List<Reason> reasons(ArmPressures arms, RuleBook book) {
        var reasons = new ArrayList<Reason>();
        var because = because();
        reasons.add(reason(book, rule.id(), because, sentence()));
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
                    because,
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
                    because,
                    Sentence.of(
                            "Fontaine stage of the %s, from the complaint and the walking distance.", facts.words())));
        }
        if (picture.threatening() && !picture.acute()) {
            reasons.add(reason(
                    book,
                    "chronic-limb-threatening",
                    because,
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
                    with(because, facts.path("pressures")),
                    Sentence.of(
                            "WIfI of the %s: wound %d, ischaemia %d, infection %d.",
                            facts.words(), wound, picture.perfusion().ischaemia(), picture.infection())));
        }
        return reasons;
    }

    private static List<String> with(List<String> paths, String another) {
        var all = new ArrayList<>(paths);
        all.add(another);
        return List.copyOf(all);
    }

    private static Reason reason(RuleBook book, String rule, List<String> because, String text) {
        return new Reason(rule, because, text, book.sourceOf(rule));
    }

    /** The fields that the complaint of this leg stands in. */
    private List<String> because() {
        var fields = new Evidence()
                .when(picture.acute(), "acute")
                .when(picture.tissueLoss(), "wound")
                .when(picture.infection() > 0, "infection")
                .when(picture.restPain(), "restPain")
                .when(picture.claudication(), "claudication")
                .paths();
        return Entries.each(fields, facts::path);
    }
}
