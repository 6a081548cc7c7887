package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.ResultFormat;
import limbqueue.triage.finding.BleedingClass;
import limbqueue.triage.finding.ContrastCeiling;
import limbqueue.triage.finding.CreatinineClearance;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.MehranScore;
import limbqueue.triage.finding.PlannedSheath;
import limbqueue.triage.finding.RevisedCardiacRisk;
import limbqueue.triage.rule.RuleBook;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.databind.node.MissingNode;

/**
 * What a row of a table expects of a result, in the words of the public format: {@code legs.left.wifi.stage=3},
 * {@code urgency.possible=[within5Days,within14Days]}, {@code +only-leg} for a red flag that is raised,
 * {@code -only-leg} for one that is not, {@code ?history.diabetes} for a question that is asked and
 * {@code !history.diabetes} for one that is not, {@code contradictions=1} for their number, {@code tier=} for the
 * urgency, {@code work+inr}, {@code work-inr} for an item of the work-up that is needed or not, and
 * {@code rule+fall-after-exercise} for a reason that is given. {@code mehran=4-9} is the score of Mehran before contrast,
 * {@code mehran.risk=LOW-MODERATE} its groups of risk. Where a source names a class that the facts it gives do not settle,
 * {@code L.rutherford.possible~5} demands that the list holds the class, and {@code L.fontaine.grade:IIa,IIb} that the
 * value is one of those named.
 * Of the work-up {@code says.potassium~mildly_raised} demands words of an item, and {@code mute.potassium~raised} that they
 * are not in it; {@code rcri=1-3} is the revised cardiac risk index, {@code bleeding=HIGH} the class of the puncture, {@code bleeding5=LOW} that with a sheath of 5 Fr,
 * {@code outside=INR_2.1_is_above_1.8} the values outside of its limits, {@code contrast99=FINE} the judgement of so many mL,
 * {@code clearance=32.50} the creatinine clearance, {@code drug.apixaban=HOLD,4_doses_left_out} what is proposed for a drug,
 * {@code last.apixaban=2026-03-18T08:00} and {@code again.apixaban=2026-03-21T08:00} its times for a procedure at
 * {@link #BOOKED}.
 * Of the anatomy {@code tasc.aortoIliac.left=D} or {@code tascPossible.femoropopliteal.right=[A,B]}, and of a side's GLASS
 * {@code glass.left=3}, {@code glassPossible.left=[1,2]}, {@code glassFemoropopliteal.left=4}, {@code glassInfrapopliteal.left=0}.
 * Of the procedure plan {@code access=[leftFemoral+rightFemoral,leftBrachial]} are all attempts in order, {@code access.left}
 * those for one leg, {@code bailOut} likewise; {@code plan+only-leg} and {@code plan-only-leg} are rules {@code plan-…} that it
 * names or not, {@code must+covered_stent} an item that must be in the room, {@code room+snare} one that is listed at all,
 * {@code says+light_sedation} words anywhere in it, with {@code _} for a blank; {@code view=left_foot:from_the_front} a
 * projection, {@code minutes=90} and {@code minutes90=225} the two numbers, and {@code plan?lesions[0].side} a question whose answer
 * could change it, {@code plan!…} one that is not.
 */
final class Expectation {

    /** The booked time in the tables: a Friday at eight. */
    static final LocalDateTime BOOKED = LocalDateTime.of(2026, 3, 20, 8, 0);

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Pattern COMPARISON = Pattern.compile("(?<path>[^=~:]+)(?<how>[=~:])(?<value>.+)");

    private static final Pattern OF_PLAN = Pattern.compile(
            "^(?:plan[+?!-]|says[+-]|room[+-]|must[+-]|view=|access(?:\\.left|\\.right)?=|bailOut=|minutes(?:90)?=)");

    /** The rules as drawn for a run of many rows. */
    static final ScopedValue<LegRules> DRAWN = ScopedValue.newInstance();

    private Expectation() {}

    static void check(Facts given, String expected, String why) {
        // Drawn anew and not once for all, so that a rule changed while the tests run is noticed.
        var rules = DRAWN.isBound() ? DRAWN.get() : LegRules.draw();
        var result =
                new Assessment(given.document(), Policy.standard(), RuleBook.shipped(), rules, Facts.TODAY).result();
        var json = JSON.readTree(ResultFormat.write(result));
        for (var wanted : expected.strip().split("\\s+", -1)) {
            if (wanted.startsWith("mehran")) {
                checkMehran(given.document(), wanted, why + "\n" + given);
            } else if (wanted.matches("(says|mute)\\..*")) {
                checkWords(result, wanted, why + "\n" + given);
            } else if (wanted.matches("(rcri|bleeding\\d*|outside\\d*|contrast\\d+|clearance)=.*")) {
                checkFigure(given.document(), wanted, why + "\n" + given);
            } else if (wanted.matches("(drug|last|again)\\..*")) {
                checkDrug(given.document(), wanted, why + "\n" + given);
            } else if (OF_PLAN.matcher(wanted).find()) {
                checkPlan(result, json, wanted, why + "\n" + given);
            } else {
                check(json, wanted, why + "\n" + given);
            }
        }
    }

    private static void checkPlan(TriageResult result, JsonNode json, String wanted, String why) {
        var plan = result.procedurePlan().orElseThrow(() -> new AssertionError(why + "\nhas no plan"));
        var found = OF_PLAN.matcher(wanted);
        found.find();
        var words = wanted.substring(found.end()).replace('_', ' ');
        var expected = wanted.substring(found.end());
        switch (found.group()) {
            case "plan+" -> assertThat(plan.rules()).as(why).contains("plan-" + expected);
            case "plan-" -> assertThat(plan.rules()).as(why).doesNotContain("plan-" + expected);
            case "says+" ->
                assertThat(json.get("procedurePlan").toString()).as(why).contains(words);
            case "says-" ->
                assertThat(json.get("procedurePlan").toString()).as(why).doesNotContain(words);
            case "room+" -> assertThat(items(plan, false)).as(why).anyMatch(item -> item.contains(words));
            case "room-" -> assertThat(items(plan, false)).as(why).noneMatch(item -> item.contains(words));
            case "must+" -> assertThat(items(plan, true)).as(why).anyMatch(item -> item.contains(words));
            case "must-" -> assertThat(items(plan, true)).as(why).noneMatch(item -> item.contains(words));
            case "plan?" -> assertThat(askedForThePlan(result)).as(why).contains(path(expected));
            case "plan!" -> assertThat(askedForThePlan(result)).as(why).doesNotContain(path(expected));
            case "minutes=" -> assertThat(plan.expectedMinutes()).as(why).isEqualTo(Integer.parseInt(expected));
            case "minutes90=" -> assertThat(plan.expectedMinutes90()).as(why).isEqualTo(Integer.parseInt(expected));
            case "view=" -> {
                var cut = words.indexOf(':');
                assertThat(plan.projections().stream()
                                .filter(view -> view.target().equals(words.substring(0, cut)))
                                .map(ProcedurePlan.Projection::view)
                                .findFirst()
                                .orElse("none"))
                        .as(why)
                        .isEqualTo(words.substring(cut + 1));
            }
            case "bailOut=" ->
                assertThat(plan.bailOut().stream()
                                .map(step -> sites(step.sites()))
                                .toList()
                                .toString()
                                .replace(" ", ""))
                        .as(why)
                        .isEqualTo(expected);
            default ->
                assertThat(plan.access().stream()
                                .filter(step -> found.group().equals("access=")
                                        || step.sides()
                                                .contains(found.group().contains("left") ? Side.LEFT : Side.RIGHT))
                                .sorted(Comparator.comparing(ProcedurePlan.Access::order))
                                .map(step -> sites(step.sites()))
                                .toList()
                                .toString()
                                .replace(" ", ""))
                        .as(why)
                        .isEqualTo(expected);
        }
    }

    private static String path(String written) {
        return written.replaceFirst("^L\\.", "legs.left.").replaceFirst("^R\\.", "legs.right.");
    }

    /** As the public format names them: {@code leftSuperficialFemoral}. */
    private static String sites(List<ProcedurePlan.AccessSite> sites) {
        return sites.stream()
                .map(site -> {
                    var words = site.name().toLowerCase(Locale.ROOT).split("_", -1);
                    return words[0]
                            + Stream.of(words)
                                    .skip(1)
                                    .map(word -> word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1))
                                    .collect(Collectors.joining());
                })
                .collect(Collectors.joining("+"));
    }

    private static List<String> items(ProcedurePlan plan, boolean onlyWhatMustBeThere) {
        return plan.room().stream()
                .filter(item -> item.mustBeInRoom() || !onlyWhatMustBeThere)
                .map(ProcedurePlan.RoomItem::item)
                .toList();
    }

    private static List<String> askedForThePlan(TriageResult result) {
        return result.questions().stream()
                .filter(question -> question.couldChange().contains("procedurePlan"))
                .map(TriageResult.Question::field)
                .toList();
    }

    private static void checkMehran(ReferralDocument document, String wanted, String why) {
        var limits = RuleBook.shipped().on(Facts.TODAY);
        var found = MehranScore.of(document, Facts.TODAY, limits)
                .map(score -> wanted.startsWith("mehran.risk=")
                        ? MehranScore.Risk.of(score.least(), limits) + "-" + MehranScore.Risk.of(score.most(), limits)
                        : score.least() + "-" + score.most())
                .orElse("none");
        assertThat(found).as(why).isEqualTo(wanted.substring(wanted.indexOf('=') + 1));
    }

    private static void checkWords(TriageResult result, String wanted, String why) {
        var cut = wanted.indexOf('~');
        var code = wanted.substring(5, cut);
        var words = wanted.substring(cut + 1).replace('_', ' ');
        var item = result.workUp().stream()
                .filter(one -> one.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new AssertionError(why + "\nno item " + code));
        var said = item.text() + "\n" + item.why() + "\n" + item.calculations();
        if (wanted.startsWith("says")) {
            assertThat(said).as(why).contains(words);
        } else {
            assertThat(said).as(why).doesNotContain(words);
        }
    }

    private static void checkFigure(ReferralDocument document, String wanted, String why) {
        var limits = RuleBook.shipped().on(Facts.TODAY);
        var name = wanted.substring(0, wanted.indexOf('='));
        var number = name.replaceAll("\\D", "");
        var french = number.isEmpty() ? PlannedSheath.of(limits).french() : Double.parseDouble(number);
        var bleeding = BleedingClass.of(french, document, limits);
        var found = switch (name.replaceAll("\\d", "")) {
            case "rcri" -> {
                var risk = RevisedCardiacRisk.of(document, limits);
                yield risk.least() + "-" + risk.most();
            }
            case "bleeding" -> bleeding.name();
            case "outside" ->
                String.join(";", bleeding.outside(document, limits)).replace(' ', '_');
            case "clearance" ->
                CreatinineClearance.of(document, Facts.TODAY)
                        .map(span -> two(span.least()) + (span.most() > span.least() ? "-" + two(span.most()) : ""))
                        .orElse("none");
            default ->
                KidneyFunction.latest(document, Facts.TODAY)
                        .map(kidney -> ContrastCeiling.of(kidney.span(), limits)
                                .of(Double.parseDouble(number))
                                .name())
                        .orElse("none");
        };
        assertThat(found).as(why).isEqualTo(wanted.substring(wanted.indexOf('=') + 1));
    }

    private static String two(double number) {
        return BigDecimal.valueOf(number).setScale(2, RoundingMode.HALF_UP).toPlainString();
    }

    private static void checkDrug(ReferralDocument document, String wanted, String why) {
        var name = wanted.substring(wanted.indexOf('.') + 1, wanted.indexOf('='));
        var timing =
                Triage.workUpFor(document, Policy.standard(), RuleBook.shipped(), Facts.TODAY, BOOKED).drugs().stream()
                        .filter(drug -> drug.drug().equals(name))
                        .findFirst()
                        .orElseThrow(() -> new AssertionError(why + "\nno drug " + name));
        var found = switch (wanted.substring(0, wanted.indexOf('.'))) {
            case "last" -> timing.lastDose().map(Object::toString).orElse("none");
            case "again" -> timing.restart().map(Object::toString).orElse("none");
            default ->
                timing.action()
                        + timing.hold()
                                .map(words -> "," + words.replace(' ', '_'))
                                .orElse("");
        };
        assertThat(found).as(why).isEqualTo(wanted.substring(wanted.indexOf('=') + 1));
    }

    private static void check(JsonNode result, String wanted, String why) {
        if (wanted.startsWith("+") || wanted.startsWith("-")) {
            var raised = result.get("redFlags").findValuesAsString("code");
            if (wanted.startsWith("+")) {
                assertThat(raised).as(why).contains(wanted.substring(1));
            } else {
                assertThat(raised).as(why).doesNotContain(wanted.substring(1));
            }
        } else if (wanted.startsWith("?") || wanted.startsWith("!")) {
            var asked = result.get("questions").findValuesAsString("field");
            var field = wanted.substring(1).replaceFirst("^L\\.", "legs.left.").replaceFirst("^R\\.", "legs.right.");
            if (wanted.startsWith("?")) {
                assertThat(asked).as(why).contains(field);
            } else {
                assertThat(asked).as(why).doesNotContain(field);
            }
        } else if (wanted.startsWith("rule+")) {
            assertThat(result.get("reasons").findValuesAsString("rule")).as(why).contains(wanted.substring(5));
        } else if (wanted.startsWith("work+") || wanted.startsWith("work-")) {
            var needed = result.get("workUp")
                    .valueStream()
                    .filter(item -> item.get("needed").asBoolean())
                    .map(item -> item.get("code").asString())
                    .toList();
            if (wanted.startsWith("work+")) {
                assertThat(needed).as(why).contains(wanted.substring(5));
            } else {
                assertThat(needed).as(why).doesNotContain(wanted.substring(5));
            }
        } else {
            var comparison = COMPARISON.matcher(wanted);
            if (!comparison.matches()) {
                throw new IllegalArgumentException("not an expectation: " + wanted);
            }
            var path = comparison
                    .group("path")
                    .replaceFirst("^L\\.", "legs.left.")
                    .replaceFirst("^R\\.", "legs.right.")
                    .replaceFirst("^tier$", "urgency.tier");
            var expected = comparison.group("value");
            var found = at(result, path);
            if (comparison.group("how").equals("~")) {
                assertThat(found.valueStream().map(Expectation::text))
                        .as(why + "\n" + path)
                        .contains(expected);
            } else if (comparison.group("how").equals(":")) {
                assertThat(text(found)).as(why + "\n" + path).isIn((Object[]) expected.split(",", -1));
            } else if (found.isNumber() && expected.matches("-?\\d+(\\.\\d+)?")) {
                assertThat(found.decimalValue()).as(why + "\n" + path).isEqualByComparingTo(expected);
            } else {
                assertThat(text(found)).as(why + "\n" + path).isEqualTo(expected);
            }
        }
    }

    private static JsonNode at(JsonNode result, String path) {
        if (path.startsWith("tasc") || path.startsWith("glass")) {
            return ofAnatomy(result, path.split("\\.", -1));
        }
        var here = result;
        for (var step : path.split("\\.", -1)) {
            here = here.isArray() ? here.path(Integer.parseInt(step)) : here.path(step);
        }
        return here;
    }

    private static JsonNode ofAnatomy(JsonNode result, String[] steps) {
        var ofRegion = steps[0].startsWith("tasc");
        if (steps.length != (ofRegion ? 3 : 2)) {
            throw new IllegalArgumentException("not an expectation of anatomy: " + String.join(".", steps));
        }
        var field = steps[0].equals("tascPossible") ? "possible" : steps[0];
        return result.get("anatomy")
                .valueStream()
                .filter(entry -> entry.get("side").asString().equals(steps[steps.length - 1]))
                .filter(entry -> ofRegion
                        ? entry.get("region").asString().equals(steps[1])
                        : !entry.get("region").asString().equals("aortoIliac"))
                .findFirst()
                .map(entry -> entry.path(field))
                .orElseGet(() -> MissingNode.getInstance());
    }

    private static String text(JsonNode node) {
        if (node.isMissingNode() || node.isNull()) {
            return "absent";
        }
        if (node.isArray()) {
            return node.isEmpty() || !node.get(0).isObject()
                    ? node.valueStream()
                            .map(Expectation::text)
                            .toList()
                            .toString()
                            .replace(" ", "")
                    : String.valueOf(node.size());
        }
        return node.asString();
    }
}
