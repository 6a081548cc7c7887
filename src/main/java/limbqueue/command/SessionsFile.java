package limbqueue.command;

import java.io.IOException;
import java.io.InputStream;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ObjIntConsumer;
import limbqueue.booking.Capability;
import limbqueue.booking.CasePath;
import limbqueue.booking.CasePath.Known;
import limbqueue.booking.LeadDays;
import limbqueue.booking.Session;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;
import limbqueue.document.CheckedJson;
import limbqueue.document.LineFormat;
import limbqueue.document.Problem;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A file with the sessions of a practice, and with what it knows of its cases. It is read as a whole or not at all: a plan that
 * leaves out a session would promise places that others have.
 *
 * @param known by the reference of the referral
 * @param remarks what is worth knowing, and no mistake
 */
record SessionsFile(
        ZoneId zone,
        Map<StepKind, StepMinutes> minutes,
        LeadDays lead,
        List<Session> sessions,
        Map<String, Known> known,
        List<String> remarks) {

    /**
     * A file, or what is wrong with it.
     *
     * @param problems empty exactly when there is a file
     */
    record Result(Optional<SessionsFile> file, List<Problem> problems) {}

    /** @throws IOException if the stream cannot be read */
    static Result read(InputStream json) throws IOException {
        var checked = CheckedJson.sessions(json);
        return checked.node()
                .map(node -> new Reader(node).result())
                .orElseGet(() -> new Result(Optional.empty(), checked.problems()));
    }

    static void each(@Nullable JsonNode list, ObjIntConsumer<JsonNode> taker) {
        if (list != null) {
            for (var i = 0; i < list.size(); i++) {
                taker.accept(list.get(i), i);
            }
        }
    }

    static Set<Capability> capabilities(@Nullable JsonNode list) {
        var capabilities = EnumSet.noneOf(Capability.class);
        each(list, (node, _) -> capabilities.add(LineFormat.constant(Capability.class, node.stringValue())));
        return capabilities;
    }

    private static final class Reader {
        private final JsonNode root;
        private final List<Problem> problems = new ArrayList<>();
        private final List<String> remarks = new ArrayList<>();
        private final Map<String, Session> sessions = new LinkedHashMap<>();

        Reader(JsonNode root) {
            this.root = root;
        }

        Result result() {
            var zone = zone();
            var minutes = minutes();
            zone.ifPresent(at -> {
                var entries = new SessionEntries(root, at, problems);
                sessions.putAll(entries.sessions());
                remarks.addAll(entries.remarks());
            });
            var known = new HashMap<String, Known>();
            each(root.get("cases"), (node, i) -> known(node, "cases[" + i + "]", known));
            return problems.isEmpty() && zone.isPresent()
                    ? new Result(
                            Optional.of(new SessionsFile(
                                    zone.get(), minutes, lead(), List.copyOf(sessions.values()), known, remarks)),
                            List.of())
                    : new Result(Optional.empty(), problems);
        }

        private void problem(String path, String text) {
            problems.add(new Problem(path, text));
        }

        private Optional<ZoneId> zone() {
            var name = root.get("zone").stringValue();
            try {
                return Optional.of(ZoneId.of(name));
            } catch (DateTimeException unknown) {
                problem(
                        "zone",
                        "The time zone \"%s\" is not known. Write it as region and city, such as Europe/Vienna.%s"
                                .formatted(
                                        name,
                                        CheckedJson.didYouMean(
                                                name,
                                                ZoneId.getAvailableZoneIds().stream()
                                                        .sorted()
                                                        .toList())));
                return Optional.empty();
            }
        }

        private Map<StepKind, StepMinutes> minutes() {
            var minutes = new EnumMap<StepKind, StepMinutes>(CasePath.usualMinutes());
            var given = root.get("minutes");
            if (given == null) {
                return minutes;
            }
            for (var step : given.properties()) {
                var median = step.getValue().get("median").doubleValue();
                var ninety = step.getValue().get("ninety").doubleValue();
                if (ninety < median) {
                    problem(
                            "minutes.%s.ninety".formatted(step.getKey()),
                            "Nine of ten patients cannot take less than half of them do. Make it at least the median.");
                } else {
                    minutes.put(LineFormat.constant(StepKind.class, step.getKey()), new StepMinutes(median, ninety));
                }
            }
            return minutes;
        }

        private LeadDays lead() {
            var usual = LeadDays.usual();
            return new LeadDays(
                    days("notice", usual.notice()),
                    days("bloodTests", usual.bloodTests()),
                    days("duplexReport", usual.duplexReport()),
                    days("ctaReport", usual.ctaReport()),
                    days("outsideRecords", usual.outsideRecords()),
                    days("prescriber", usual.prescriber()));
        }

        private int days(String name, int usual) {
            var given = root.get("leadDays");
            var days = given == null ? null : given.get(name);
            return days == null ? usual : days.decimalValue().intValueExact();
        }

        private void known(JsonNode node, String path, Map<String, Known> known) {
            var reference = node.get("reference").stringValue();
            var told = new EnumMap<StepKind, String>(StepKind.class);
            each(node.get("told"), (appointment, i) -> told(appointment, "%s.told[%d]".formatted(path, i), told));
            var done = EnumSet.noneOf(StepKind.class);
            each(node.get("done"), (step, _) -> done.add(LineFormat.constant(StepKind.class, step.stringValue())));
            var of = new Known(capabilities(node.get("needs")), capabilities(node.get("procedureNeeds")), told, done);
            if (known.put(reference, of) != null) {
                problem(
                        path + ".reference",
                        "%s stands here twice. Say everything of it in one place.".formatted(reference));
            }
        }

        private void told(JsonNode node, String path, Map<StepKind, String> told) {
            var step = LineFormat.constant(StepKind.class, node.get("step").stringValue());
            var id = node.get("session").stringValue();
            var session = sessions.get(id);
            if (session == null) {
                problem(
                        path + ".session",
                        "There is no session %s.%s"
                                .formatted(id, CheckedJson.didYouMean(id, List.copyOf(sessions.keySet()))));
            } else if (session.kind() != step.session()) {
                problem(
                        path + ".session",
                        "Session %s is one of the %s; %s is done in the %s. Change one of them."
                                .formatted(
                                        id,
                                        session.kind().words(),
                                        step.words(),
                                        step.session().words()));
            } else if (told.put(step, id) != null) {
                problem(path + ".step", "The patient is told two times for one step. Keep one of them.");
            }
        }
    }
}
