package limbqueue.command;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import limbqueue.booking.DoubleUse;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.SessionTime;
import limbqueue.document.CheckedJson;
import limbqueue.document.LineFormat;
import limbqueue.document.Problem;
import tools.jackson.databind.JsonNode;

/**
 * The sessions that a file has: each that is repeated on every day of its rule, and those of closed days and bank holidays closed,
 * with the reason.
 */
final class SessionEntries {

    private static final int MOST = 5_000;

    /** Days on which nobody can be treated: everywhere, or at one place or with one operator. */
    private record Closure(
            LocalDate from, LocalDate to, String reason, Optional<String> place, Optional<String> operator) {

        boolean closes(Session session) {
            return !session.date().isBefore(from)
                    && !session.date().isAfter(to)
                    && place.map(session.place()::equals).orElse(true)
                    && operator.map(session.operator()::equals).orElse(true);
        }
    }

    /** A session and where it stands in the file. */
    private record Entry(Session session, String path, boolean onHolidays) {

        Entry closedFor(String reason) {
            return new Entry(session.closedFor(reason), path, onHolidays);
        }
    }

    private final JsonNode root;
    private final ZoneId zone;
    private final List<Problem> problems;
    private final List<String> remarks = new ArrayList<>();
    private final Map<String, Entry> entries = new LinkedHashMap<>();

    /** @param problems is given what is wrong */
    SessionEntries(JsonNode root, ZoneId zone, List<Problem> problems) {
        this.root = root;
        this.zone = zone;
        this.problems = problems;
        SessionsFile.each(root.get("sessions"), (node, i) -> entry(node, "sessions[" + i + "]"));
        SessionsFile.each(root.get("closed"), (node, i) -> close(node, "closed[" + i + "]"));
        closeBankHolidays();
        tellDoubleUse();
        if (entries.size() > MOST) {
            problem(
                    "sessions",
                    "They are %d with all their days, and at most %d are planned. Let their rules end sooner."
                            .formatted(entries.size(), MOST));
        }
    }

    /** By name, in the order of the file. */
    Map<String, Session> sessions() {
        var sessions = new LinkedHashMap<String, Session>();
        entries.forEach((name, entry) -> sessions.put(name, entry.session()));
        return sessions;
    }

    /** What is worth knowing of them, and no mistake. */
    List<String> remarks() {
        return remarks;
    }

    private void problem(String path, String text) {
        problems.add(new Problem(path, text));
    }

    private void entry(JsonNode node, String path) {
        var name = node.get("id").stringValue();
        var first = LocalDate.parse(node.get("date").stringValue());
        var rule = node.get("repeats");
        if (rule == null) {
            session(node, path, name, first);
            return;
        }
        switch (RecurrenceRule.days(first, rule.stringValue())) {
            case RecurrenceRule.Refused(var text) -> problem(path + ".repeats", text);
            case RecurrenceRule.Days(var dates) -> dates.forEach(date -> session(node, path, name + "-" + date, date));
        }
    }

    private void session(JsonNode node, String path, String name, LocalDate date) {
        if (entries.containsKey(name)) {
            problem(path + ".id", "Another session is named %s already. Give each a name of its own.".formatted(name));
            return;
        }
        var time = SessionTime.of(
                date,
                LocalTime.parse(node.get("start").stringValue()),
                LocalTime.parse(node.get("end").stringValue()),
                zone);
        switch (time) {
            case SessionTime.Impossible(var end, var text) -> {
                var problem = new Problem(path + (end ? ".end" : ".start"), text);
                // What is wrong on every day of a rule is told once.
                if (!problems.contains(problem)) {
                    problems.add(problem);
                }
            }
            case SessionTime.Possible(var start, var end, var minutes, var remark) -> {
                var session = new Session(
                                name,
                                LineFormat.constant(
                                        SessionKind.class, node.get("kind").stringValue()),
                                start,
                                end,
                                minutes,
                                node.get("place").stringValue(),
                                node.get("operator").stringValue(),
                                SessionsFile.capabilities(node.get("capabilities")),
                                isTrue(node, "closed"))
                        .holding(held(node, path, minutes));
                entries.put(name, new Entry(session, path, isTrue(node, "onHolidays")));
                remark.ifPresent(text -> remarks.add("Session %s: %s".formatted(name, text)));
            }
        }
    }

    /** Nothing where more is to be held than there is, which is a problem of the file. */
    private HeldTime held(JsonNode node, String path, int minutes) {
        var held = number(node, "held").orElse(0);
        if (held > minutes) {
            var problem = new Problem(
                    path + ".held",
                    "%d minutes are to be held, and the session has %d. Hold at most those.".formatted(held, minutes));
            if (!problems.contains(problem)) {
                problems.add(problem);
            }
            return HeldTime.NONE;
        }
        return new HeldTime(held, number(node, "releaseDays").orElse(HeldTime.USUAL_RELEASE_DAYS));
    }

    private static Optional<Integer> number(JsonNode node, String field) {
        return Optional.ofNullable(node.get(field))
                .map(value -> value.decimalValue().intValueExact());
    }

    private static boolean isTrue(JsonNode node, String field) {
        var value = node.get(field);
        return value != null && value.booleanValue();
    }

    private static Optional<String> text(JsonNode node, String field) {
        return Optional.ofNullable(node.get(field)).map(JsonNode::stringValue);
    }

    private void close(JsonNode node, String path) {
        var from = LocalDate.parse(node.get("from").stringValue());
        var to = text(node, "to").map(LocalDate::parse).orElse(from);
        if (to.isBefore(from)) {
            problem(
                    path + ".to",
                    "The closure ends on %s, before it begins on %s. Change one of them.".formatted(to, from));
            return;
        }
        var closure = new Closure(
                from,
                to,
                node.get("reason").stringValue(),
                known(node, path, "place", Session::place),
                known(node, path, "operator", Session::operator));
        entries.replaceAll((_, entry) -> !entry.session().closed() && closure.closes(entry.session())
                ? entry.closedFor(closure.reason())
                : entry);
    }

    /** A place or operator of which no session is would close nothing. */
    private Optional<String> known(JsonNode node, String path, String field, Function<Session, String> of) {
        var given = text(node, field);
        var names = entries.values().stream()
                .map(entry -> of.apply(entry.session()))
                .distinct()
                .sorted()
                .toList();
        given.filter(name -> !names.contains(name))
                .ifPresent(name -> problem(
                        "%s.%s".formatted(path, field),
                        "No session has the %s \"%s\".%s".formatted(field, name, CheckedJson.didYouMean(name, names))));
        return given;
    }

    private void closeBankHolidays() {
        var code = text(root, "holidays");
        if (code.isEmpty()) {
            return;
        }
        switch (BankHolidays.of(code.get())) {
            case BankHolidays.Unknown(var text) -> problem("holidays", text);
            case BankHolidays.Known(var holidays) -> closeOn(holidays);
        }
    }

    private void closeOn(BankHolidays holidays) {
        var names = new HashMap<LocalDate, Optional<String>>();
        var closed = new TreeMap<LocalDate, List<String>>();
        entries.replaceAll((name, entry) -> {
            var session = entry.session();
            var holiday = names.computeIfAbsent(session.date(), holidays::on);
            if (holiday.isEmpty() || session.closed() || entry.onHolidays()) {
                return entry;
            }
            closed.computeIfAbsent(session.date(), _ -> new ArrayList<>()).add(name);
            return entry.closedFor(holiday.get());
        });
        closed.forEach((date, sessions) -> remarks.add(
                "%s is a bank holiday (%s), so these are closed: %s. Write \"onHolidays\": true where one takes place all the same."
                        .formatted(
                                date,
                                names.getOrDefault(date, Optional.empty()).orElseThrow(),
                                String.join(", ", sessions))));
    }

    private void tellDoubleUse() {
        var told = new HashSet<List<String>>();
        for (var use : DoubleUse.among(List.copyOf(sessions().values()))) {
            var path = pathOf(use.session());
            // Two rules that meet every week are told once.
            if (told.add(List.of(path, pathOf(use.other())))) {
                problem(path, use.text());
            }
        }
    }

    private String pathOf(Session session) {
        return Optional.ofNullable(entries.get(session.id())).map(Entry::path).orElse("sessions");
    }
}
