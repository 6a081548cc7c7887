package limbqueue.referral;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.practice.DemoRequested;
import limbqueue.triage.Tier;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Fills an empty practice with the demo referrals, as if the last of them had come today: most of them before the
 * physician, some still being entered, some decided.
 */
@Component
class DemoReferrals {

    private static final String FILES = "*.referral.json";
    private static final int DRAFTS = 3;
    private static final Pattern DATE = Pattern.compile("\\d{4}-\\d{2}-\\d{2}(T.*)?");

    /** A demo patient keeps the date of birth that a letter beside it may quote. */
    private static final String BORN = "born";

    private final Referrals referrals;
    private final ActingAs actingAs;
    private final JsonMapper json;

    DemoReferrals(Referrals referrals, ActingAs actingAs, JsonMapper json) {
        this.referrals = referrals;
        this.actingAs = actingAs;
        this.json = json;
    }

    private record Arrival(String document, LocalDate received, boolean right, Tier tier) {

        /** Something typed cannot be right, so the office has to mend it first. */
        boolean needsMending() {
            return !right;
        }

        boolean sameDay() {
            return tier == Tier.SAME_DAY;
        }
    }

    /** Before what others add to them. */
    @EventListener
    @Order(1)
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(DemoRequested demo) {
        var arrivals = arrivals(read(demo.folder()));
        var ready = arrivals.stream()
                .filter(arrival -> !arrival.needsMending() && !arrival.sameDay())
                .toList();
        var decided = ready.stream().limit(3).toList();
        var drafts = ready.subList(Math.max(decided.size(), ready.size() - DRAFTS), ready.size());
        for (var arrival : arrivals) {
            var referral = referrals.enter(arrival.document());
            if (arrival.needsMending() || drafts.contains(arrival)) {
                continue;
            }
            if (referrals.submit(referral.id(), referral.version()) instanceof SubmitOutcome.Submitted(var queued)
                    && decided.contains(arrival)) {
                actingAs.person(demo.physician(), () -> decide(queued, decided.indexOf(arrival)));
            }
        }
    }

    private void decide(Referral queued, int place) {
        referrals.decide(
                queued.id(),
                queued.version(),
                place == 2
                        ? new Decision.AskForInformation(
                                "Please send the wound's photograph and the latest blood results.")
                        : new Decision.Approve());
    }

    private List<Arrival> arrivals(List<ObjectNode> documents) {
        var today = referrals.today();
        var latest = documents.stream()
                .map(document -> document.path("received"))
                .filter(JsonNode::isString)
                .map(received -> LocalDate.parse(received.stringValue()))
                .max(Comparator.naturalOrder())
                .orElse(today);
        var days = ChronoUnit.DAYS.between(latest, today);
        return documents.stream()
                .map(document -> {
                    var text = json.writeValueAsString(moved(document, days));
                    var reading = Draft.of(text).read(today);
                    return new Arrival(
                            text,
                            reading.document().received().orElse(today),
                            reading.complete(),
                            referrals.propose(reading).urgency().tier());
                })
                .sorted(Comparator.comparing(Arrival::received))
                .toList();
    }

    /** {@code node} with every date in it {@code days} later. */
    private static JsonNode moved(JsonNode node, long days) {
        return switch (node) {
            case ObjectNode object -> {
                var copy = JsonNodeFactory.instance.objectNode();
                object.forEachEntry((name, value) -> copy.set(name, name.equals(BORN) ? value : moved(value, days)));
                yield copy;
            }
            case ArrayNode list -> {
                var copy = JsonNodeFactory.instance.arrayNode();
                list.forEach(value -> copy.add(moved(value, days)));
                yield copy;
            }
            default ->
                node.isString() && DATE.matcher(node.stringValue()).matches()
                        ? JsonNodeFactory.instance.stringNode(moved(node.stringValue(), days))
                        : node;
        };
    }

    private static String moved(String date, long days) {
        return LocalDate.parse(date.substring(0, 10)).plusDays(days) + date.substring(10);
    }

    private List<ObjectNode> read(Path folder) {
        var documents = new ArrayList<ObjectNode>();
        try (var files = Files.newDirectoryStream(folder, FILES)) {
            var inOrder = new ArrayList<Path>();
            files.forEach(inOrder::add);
            inOrder.sort(Comparator.comparing(file -> file.getFileName().toString()));
            for (var file : inOrder) {
                switch (json.readTree(Files.readString(file))) {
                    case ObjectNode one -> documents.add(one);
                    case ArrayNode several -> several.forEach(entry -> documents.add((ObjectNode) entry));
                    default -> throw new IllegalArgumentException(file + " holds no referral");
                }
            }
        } catch (IOException unreadable) {
            throw new UncheckedIOException("the demo referrals cannot be read", unreadable);
        }
        return documents;
    }
}
