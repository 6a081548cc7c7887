package limbqueue.triage.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.function.UnaryOperator;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.ThresholdFile.Seen;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The file of rules is read strictly. */
class RuleFileTest {

    private static final String RULES = "rules.txt";

    private static RuleBook with(UnaryOperator<String> change) {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent(RULES, (name, text) -> change.apply(text));
        return RuleBook.of(files);
    }

    /** Number of the line that begins the entry of a rule. */
    private static int lineOf(String rule) {
        var lines = RuleBook.shipped().files().getOrDefault(RULES, "").lines().toList();
        for (var i = 0; i < lines.size(); i++) {
            if (lines.get(i).matches("rule +" + rule)) {
                return i + 1;
            }
        }
        throw new AssertionError("no rule " + rule);
    }

    private static final String SPECIMEN = """

            rule     specimen
            group    grades
            says     A rule as it should be.
            printed  rutherford-1997 | a table | confirmed
            printed  common-practice | a habit | common practice
            compares acute-at-most, leaves-within
            """;

    @Test
    void anEntryIsReadAsItStands() {
        assertThat(with(text -> text + SPECIMEN).rules().getLast())
                .isEqualTo(new Rule(
                        "specimen",
                        Rule.Group.GRADES,
                        "A rule as it should be.",
                        List.of(
                                new Rule.Citation("rutherford-1997", "a table", Seen.CONFIRMED),
                                new Rule.Citation("common-practice", "a habit", Seen.COMMON_PRACTICE)),
                        List.of(Limit.ACUTE_AT_MOST, Limit.LEAVES_WITHIN)));
    }

    @ParameterizedTest(name = "{0} becomes {1}")
    @CsvSource(
            delimiter = ';',
            value = {
                "rule     specimen;rule     Specimen;1;not an id;small letters",
                "rule     specimen;rule     only-leg;1;only-leg stands twice;remove one",
                "rule     specimen;rule;1;nothing stands after rule;write it",
                "rule     specimen;regel    specimen;1;a stray line;begin it with",
                "rule     specimen;says     First.;1;rule is missing before says;add it",
                "group    grades;group    beauty;2;unknown group beauty;use one of",
                "group    grades;says     No group.;2;group is missing before says;add it",
                "says     A rule as it should be.;says     no sentence;3;not a sentence;full stop",
                "says     A rule as it should be.;group    grades;3;says is missing before group;add it",
                "printed  rutherford-1997 | a table | confirmed;printed  hearsay | a table | confirmed;4;unknown source hearsay;add it to the list",
                "printed  rutherford-1997 | a table | confirmed;printed  rutherford-1997 | | confirmed;4;not a citation;none of them empty",
                "printed  rutherford-1997 | a table | confirmed;printed  rutherford-1997 | confirmed;4;not a citation;source | locator | seen",
                "printed  rutherford-1997 | a table | confirmed;printed  rutherford-1997 | a table | believed;4;unknown mark believed;use confirmed",
                "printed  rutherford-1997 | a table | confirmed;printed  rutherford-1997 | a table | common practice;4;is marked common practice;nothing else",
                "printed  common-practice | a habit | common practice;printed  common-practice | a habit | memory;5;is marked memory;mark common practice",
                "compares acute-at-most, leaves-within;compares acute-at-most, no-such;6;unknown threshold no-such;as the file of thresholds",
                "compares acute-at-most, leaves-within;compares acute-at-most, acute-at-most;6;acute-at-most stands twice;remove one",
                "compares acute-at-most, leaves-within;group    grades;6;compares is missing before group;add it"
            })
    void aLineThatIsWrongStopsTheReadingWithFileLineAndRemedy(
            String right, String planted, int line, String wrong, String remedy) {
        assertThat(SPECIMEN).contains(right);
        var first = RuleBook.shipped().files().getOrDefault(RULES, "").lines().count() + 1;
        assertThatThrownBy(() -> with(text -> text + SPECIMEN.replace(right, planted)))
                .hasMessageContaining("rules.txt, line " + (first + line) + ":")
                .hasMessageContaining(wrong)
                .hasMessageContaining(remedy);
    }

    @ParameterizedTest
    @CsvSource({"printed", "says", "group"})
    void anEntryThatEndsEarlyStopsTheReading(String missing) {
        var lines = new ArrayList<>(SPECIMEN.strip().lines().toList());
        while (!lines.removeLast().startsWith(missing)) {
            // Down to the line that is to be missing.
        }
        lines.removeIf(line -> line.startsWith(missing));
        var first = RuleBook.shipped().files().getOrDefault(RULES, "").lines().count() + 1;
        assertThatThrownBy(() -> with(text -> text + "\n" + String.join("\n", lines)))
                .hasMessageContaining("rules.txt, line " + (first + 1) + ": the rule has no line " + missing);
    }

    @Test
    void aSecondLineOfComparisonStopsTheReading() {
        assertThatThrownBy(() -> with(text -> text + SPECIMEN + "compares deferred-at-least\n"))
                .hasMessageContaining("a line too many in the rule specimen");
    }

    @Test
    void aThresholdThatNoRuleComparesWithStopsTheReading() {
        assertThatThrownBy(() -> with(text -> text.replace("compares leaves-within\n", "")))
                .hasMessageContaining("no rule compares with the threshold leaves-within")
                .hasMessageContaining("name it");
    }

    @Test
    void aRuleThatIsNotInTheBookHasNoSource() {
        assertThatThrownBy(() -> RuleBook.shipped().sourceOf("no-such-rule"))
                .hasMessageContaining("no-such-rule")
                .hasMessageContaining(RuleBook.shipped().id());
        assertThat(RuleBook.shipped().sourceOf("only-leg")).isEqualTo("common-practice");
    }

    @Test
    void theWrongPlaceIsTheLineOfTheFile() {
        assertThatThrownBy(() -> with(text -> text.replace("rule     only-leg\n", "rule     Only Leg\n")))
                .hasMessageContaining("rules.txt, line " + lineOf("only-leg") + ": not an id");
    }
}
