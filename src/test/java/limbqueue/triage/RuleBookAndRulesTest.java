package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.triage.flag.FlagRule;
import limbqueue.triage.flag.RedFlags;
import limbqueue.triage.rule.Firings;
import limbqueue.triage.rule.Rule;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.ThresholdFile.Threshold;
import limbqueue.triage.urgency.LegUrgency;
import limbqueue.triage.workup.Item;
import org.junit.jupiter.api.Test;

/** The book has every rule that a result can name, and nothing that no result rests on. */
class RuleBookAndRulesTest {

    private static final Path CORE = Path.of("src/main/java/limbqueue/triage");

    private static Set<String> book() {
        return RuleBook.shipped().rules().stream().map(Rule::id).collect(Collectors.toCollection(TreeSet::new));
    }

    /** Literals that the pattern finds anywhere in the core. */
    private static Set<String> named(String pattern) throws IOException {
        var named = new TreeSet<String>();
        try (Stream<Path> files = Files.walk(CORE)) {
            for (var file :
                    files.filter(path -> path.toString().endsWith(".java")).toList()) {
                Pattern.compile(pattern)
                        .matcher(Files.readString(file))
                        .results()
                        .forEach(match -> named.add(match.group(1)));
            }
        }
        assertThat(named).as(pattern).isNotEmpty();
        return named;
    }

    /** Everything that the code says a result can carry, whether or not a document is known that brings it about. */
    private static Set<String> nameable() throws IOException {
        var nameable = new TreeSet<String>();
        Arrays.stream(LegUrgency.Rule.values()).map(LegUrgency.Rule::id).forEach(nameable::add);
        RedFlags.rules().stream().map(FlagRule::code).forEach(nameable::add);
        nameable.addAll(named("\\b(?:new Reason|reason)\\(\\s*(?:book,\\s*)?\"([a-z0-9-]+)\""));
        Arrays.stream(Item.values()).map(item -> Firings.WORK_UP + item.code()).forEach(nameable::add);
        nameable.addAll(named("\\badd\\(\\s*\"(contradiction-[a-z0-9-]+)\""));
        nameable.addAll(named("\"(plan-[a-z0-9-]+)\""));
        nameable.addAll(named("\\brules\\.add\\(\\s*\"([a-z0-9-]+)\""));
        return nameable;
    }

    @Test
    void theBookHasEveryRuleThatAResultCanNameAndNoOther() throws IOException {
        assertThat(book()).containsExactlyInAnyOrderElementsOf(nameable());
    }

    /** Rules that no table speaks of yet. */
    private static final Map<String, String> OTHERS = Map.of(
            "contradiction-acute",
            "L.acute.present=false L.acute.onset=2026-03-01",
            "contradiction-infection",
            "L.infection.localSigns=0 L.infection.rednessMm=6",
            "work-up-contrast-allergy",
            "L.restPain.present=true allergies[0].to=iodinated_contrast",
            "work-up-smoking",
            "L.claudication.present=true history.smoking=current",
            "work-up-vein-mapping",
            "L.restPain.present=true procedures[0].kind=angioplasty procedures[0].side=left procedures[0].outcome=failed");

    @Test
    void aRuleThatNoTableSpeaksOfSpeaksInAReferralOfItsOwn() {
        OTHERS.forEach((rule, given) -> assertThat(
                        Firings.of(Triage.triage(Facts.of(given).document(), Policy.standard(), Facts.TODAY)))
                .as(given)
                .contains(rule));
    }

    /** Vignettes, published tables, and cases of the limits together make every rule speak. */
    @Test
    void everyRuleOfTheBookSpeaksInSomeReferral() {
        var fired = new TreeSet<String>();
        Stream.of(
                        VignettesTest.vignettes().stream().map(row -> row.cell(1)),
                        PublishedRulesTest.situations().map(row -> row.cell(3)),
                        LimitCasesTest.cases().stream().map(row -> row.cell(2)),
                        OTHERS.values().stream())
                .flatMap(given -> given)
                .map(given -> Facts.of(given).triage())
                .forEach(result -> {
                    var rules = Firings.of(result);
                    assertThat(book()).containsAll(rules);
                    fired.addAll(rules);
                });
        assertThat(fired).containsExactlyInAnyOrderElementsOf(book());
    }

    @Test
    void whatAResultNamesIsWhatFired() {
        var result = Facts.of("L.restPain.present=true L.restPain.sinceDays=30 L.abi=0.30 L.tbi=0.2 "
                        + "armPressures.left=120 armPressures.right=140 history.diabetes=true")
                .triage();
        var rules = Firings.of(result);
        assertThat(rules)
                .contains(
                        "urgency-rest-pain",
                        "urgency-no-symptom",
                        "ankle-brachial-index",
                        "toe-brachial-index",
                        "rutherford-chronic",
                        "fontaine",
                        "chronic-limb-threatening",
                        "wifi-stage",
                        "wifi-ischaemia",
                        "wifi-benefit",
                        "fhir-priority",
                        "arm-access-risk",
                        "work-up-hba1c")
                .doesNotContain("wifi-wound", "wifi-infection", "hba1c", "contradiction-abi");
        result.reasons().forEach(reason -> assertThat(rules).contains(reason.rule()));
    }

    @Test
    void everySourceThatIsListedIsUsed() {
        var book = RuleBook.shipped();
        var used = new HashSet<String>();
        book.thresholds().thresholds().stream().map(Threshold::source).forEach(used::add);
        book.rules().forEach(rule -> rule.citations().forEach(citation -> used.add(citation.source())));
        assertThat(used)
                .containsExactlyInAnyOrderElementsOf(book.thresholds().sources().keySet());
    }

    @Test
    void theResultNamesTheSourceThatTheBookNames() {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent(
                "rules.txt",
                (name, text) -> text.replaceFirst(
                        "(rule     only-leg\n(?:.*\n){2})printed .*\n", "$1printed  gvg-2019 | elsewhere | memory\n"));
        var document =
                Facts.of("R.amputation=aboveKnee L.claudication.present=true").document();
        assertThat(sourceOfOnlyLeg(document, RuleBook.shipped())).isEqualTo("common-practice");
        assertThat(sourceOfOnlyLeg(document, RuleBook.of(files))).isEqualTo("gvg-2019");
    }

    private static String sourceOfOnlyLeg(ReferralDocument document, RuleBook book) {
        return Triage.triage(document, Policy.standard(), book, Facts.TODAY).redFlags().stream()
                .filter(flag -> flag.code().equals("only-leg"))
                .findFirst()
                .orElseThrow()
                .source();
    }

    /** A book without a rule that the result needs must not pass for one that has it. */
    @Test
    void aRuleMissingFromTheBookStopsTriage() {
        var files = new HashMap<String, String>(Map.copyOf(RuleBook.shipped().files()));
        files.computeIfPresent(
                "rules.txt", (name, text) -> text.replace("rule     urgency-no-symptom\n", "rule     x\n"));
        var book = RuleBook.of(files);
        var document = Facts.of("received=2026-03-02").document();
        assertThatThrownBy(() -> Triage.triage(document, Policy.standard(), book, Facts.TODAY))
                .hasMessageContaining("urgency-no-symptom");
    }
}
