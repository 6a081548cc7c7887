package limbqueue.rulebook;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import limbqueue.referral.RuleFirings;
import limbqueue.triage.rule.Rule;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.ThresholdFile.Seen;
import limbqueue.triage.threshold.ThresholdFile.Threshold;

/**
 * A rule book in the words of the page.
 *
 * @param book id of the book
 * @param policy id of the policy in force, which is not part of the book
 * @param asOf the day on which it is read
 * @param referrals how many referrals the counts are taken from
 * @param chapters those that have rules, in the order of the book
 */
public record RuleSheet(String book, String policy, LocalDate asOf, int referrals, List<Chapter> chapters) {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    public record Chapter(String heading, List<Entry> entries) {}

    /**
     * One rule.
     *
     * @param speaksIn in how many of the referrals it speaks
     */
    public record Entry(String id, String says, List<Cited> cited, List<Value> numbers, int speaksIn) {

        /** Whether each of the words in {@code search} stands somewhere in what the page shows of the rule. */
        public boolean has(String search) {
            var shown = String.join(" ", words()).toLowerCase(Locale.ROOT);
            return Arrays.stream(search.strip().toLowerCase(Locale.ROOT).split("\\s+"))
                    .allMatch(shown::contains);
        }

        private List<String> words() {
            var words = new ArrayList<>(List.of(id, says));
            cited.forEach(cited -> words.addAll(List.of(cited.source(), cited.locator(), cited.seen())));
            numbers.forEach(number -> words.addAll(List.of(
                    number.name(),
                    number.value(),
                    number.source(),
                    number.locator(),
                    number.seen(),
                    number.inForce())));
            return words;
        }
    }

    /** @param source the citation */
    public record Cited(String source, String locator, String seen) {}

    /**
     * A threshold, one value of it.
     *
     * @param value with its unit
     * @param source id of the source
     * @param inForce since when, or from when to when
     */
    public record Value(String name, String value, String source, String locator, String seen, String inForce) {}

    static RuleSheet of(RuleBook book, String policy, LocalDate asOf, RuleFirings.Count count) {
        var chapters = Stream.of(Rule.Group.values())
                .map(group -> new Chapter(
                        group.heading(),
                        book.rules().stream()
                                .filter(rule -> rule.group() == group)
                                .map(rule -> entry(rule, book, count))
                                .toList()))
                .filter(chapter -> !chapter.entries().isEmpty())
                .toList();
        return new RuleSheet(book.id(), policy, asOf, count.referrals(), chapters);
    }

    /** Number of rules in all chapters. */
    public int rules() {
        return chapters.stream().mapToInt(chapter -> chapter.entries().size()).sum();
    }

    private static Entry entry(Rule rule, RuleBook book, RuleFirings.Count count) {
        return new Entry(
                rule.id(),
                rule.says(),
                rule.citations().stream()
                        .map(citation -> new Cited(
                                book.citation(citation.source()),
                                citation.locator(),
                                citation.seen().word()))
                        .toList(),
                rule.limits().stream()
                        .flatMap(limit -> numbers(limit, book.thresholds().thresholds()))
                        .toList(),
                count.of(rule.id()));
    }

    private static Stream<Value> numbers(Limit limit, List<Threshold> thresholds) {
        return thresholds.stream()
                .filter(threshold -> threshold.limit() == limit)
                .map(threshold -> new Value(
                        name(limit),
                        value(threshold),
                        threshold.source(),
                        threshold.locator(),
                        seen(threshold),
                        inForce(threshold)));
    }

    /** Whatever a threshold of common practice is marked, nobody can have read it. */
    private static String seen(Threshold threshold) {
        return (threshold.source().equals("common-practice") ? Seen.COMMON_PRACTICE : threshold.seen()).word();
    }

    /** The id as words: {@code rest pain ABI less than}. */
    private static String name(Limit limit) {
        return limit.id()
                .replace('-', ' ')
                .replaceAll("\\babi\\b", "ABI")
                .replaceAll("\\btbi\\b", "TBI")
                .replaceAll("\\begfr\\b", "eGFR")
                .replaceAll("\\binr\\b", "INR")
                .replaceAll("\\btcpo2\\b", "TcPO2")
                .replaceAll("\\bpaco2\\b", "PaCO2")
                .replaceAll("\\bwifi\\b", "WIfI")
                .replaceAll("\\biib\\b", "IIb");
    }

    private static String value(Threshold threshold) {
        var unit = switch (threshold.unit()) {
            case "1" -> "";
            case "mm[Hg]" -> " mmHg";
            case "Cel" -> " °C";
            case "d" -> " days";
            case "wk" -> " weeks";
            case "a" -> " years";
            case "mo" -> " months";
            case "deg" -> "°";
            case "[Ch]" -> " Fr";
            case "/uL" -> " /µL";
            case "10*9/L" -> " × 10^9/L";
            case "mL/min/{1.73_m2}" -> " mL/min/1.73 m²";
            default -> " " + threshold.unit();
        };
        return threshold.printed() + unit;
    }

    private static String inForce(Threshold threshold) {
        return threshold
                .until()
                .map(until -> DATE.format(threshold.from()) + " to " + DATE.format(until))
                .orElseGet(() -> "since " + DATE.format(threshold.from()));
    }

    /** The day on which it is read, as printed. */
    public String date() {
        return DATE.format(asOf);
    }
}
