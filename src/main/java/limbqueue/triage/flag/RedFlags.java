package limbqueue.triage.flag;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.finding.Case;
import limbqueue.triage.rule.RuleBook;

/** All red flags: every rule always runs. */
public final class RedFlags {

    private static final List<FlagRule> RULES = List.of(
            new UndisclosedAttemptRule(),
            new FailedAttemptRule(),
            new EarlierComplicationRule(),
            new PutOffElsewhereRule(),
            new PressureWithoutFindingsRule(),
            new LeavesBeforeFollowUpRule(),
            new SuddenChangeRule(),
            new SystemicInfectionRule(),
            new FalseReassuranceRule(),
            new SymptomsDoNotFitRule(),
            new ArmAccessRule(),
            new HardToSeeRule(),
            new OnlyLegRule(),
            new DiabeticFootRule(),
            new AtheroembolismRule(),
            new AneurysmRule(),
            new KidneyRiskRule(),
            new ContrastAllergyRule(),
            new BleedingRiskRule(),
            new PregnancyRule());

    private RedFlags() {}

    public static List<FlagRule> rules() {
        return RULES;
    }

    /** What every rule makes of a referral, by the code of its flag, in the order of the rules. */
    public static Map<String, Outcome> look(Case referral) {
        var outcomes = new LinkedHashMap<String, Outcome>();
        RULES.forEach(rule -> outcomes.put(rule.code(), rule.look(referral)));
        return outcomes;
    }

    /** The flags raised, each with its source in {@code book}. */
    public static List<RedFlag> raised(Map<String, Outcome> outcomes, RuleBook book) {
        return RULES.stream()
                .flatMap(rule -> outcomes.get(rule.code()) instanceof Outcome.Fires fires
                        ? java.util.stream.Stream.of(
                                new RedFlag(rule.code(), fires.text(), fires.evidence(), book.sourceOf(rule.code())))
                        : java.util.stream.Stream.<RedFlag>empty())
                .toList();
    }
}
