package limbqueue.command;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.fortuna.ical4j.model.Recur;

/**
 * A rule by which something is repeated on days, as RFC 5545 writes it (section 3.3.10), read strictly: what that forbids is told
 * in words. How often it is repeated is worked out for at most {@value #MOST_YEARS} years and {@value #MOST_DAYS} days.
 */
final class RecurrenceRule {

    /** What comes of a rule. */
    sealed interface Outcome {}

    /** @param dates in order, each once, beginning with the first day */
    record Days(List<LocalDate> dates) implements Outcome {}

    /** @param text what is wrong with the rule and what to do */
    record Refused(String text) implements Outcome {}

    private static final int MOST_YEARS = 10;
    private static final int MOST_DAYS = 1_000;

    private static final String FREQ = "FREQ";
    private static final String COUNT = "COUNT";
    private static final String UNTIL = "UNTIL";
    private static final String BYDAY = "BYDAY";
    private static final String BYMONTH = "BYMONTH";
    private static final String WKST = "WKST";
    private static final String BYMONTHDAY = "BYMONTHDAY";
    private static final String BYWEEKNO = "BYWEEKNO";
    private static final String BYYEARDAY = "BYYEARDAY";
    private static final String BYSETPOS = "BYSETPOS";
    private static final Set<String> FINER_THAN_DAYS = Set.of("BYHOUR", "BYMINUTE", "BYSECOND");

    private static final String DAY = "(MO|TU|WE|TH|FR|SA|SU)";
    private static final String MONTH_DAY = "[+-]?([1-9]|[12][0-9]|3[01])";
    private static final String YEAR_DAY = "[+-]?([1-9]|[1-9][0-9]|[12][0-9][0-9]|3[0-5][0-9]|36[0-6])";
    private static final String WEEK = "[+-]?([1-9]|[1-4][0-9]|5[0-3])";

    /** Each part that is known, and the form of its value. */
    private static final Map<String, Pattern> FORMS = forms();

    private static Map<String, Pattern> forms() {
        var forms = new LinkedHashMap<String, Pattern>();
        forms.put(FREQ, Pattern.compile("DAILY|WEEKLY|MONTHLY|YEARLY"));
        forms.put("INTERVAL", Pattern.compile("[1-9][0-9]{0,3}"));
        forms.put(COUNT, Pattern.compile("[1-9][0-9]{0,5}"));
        forms.put(UNTIL, Pattern.compile("[0-9]{8}"));
        forms.put(BYDAY, list("(" + WEEK + ")?" + DAY));
        forms.put(BYMONTHDAY, list(MONTH_DAY));
        forms.put(BYYEARDAY, list(YEAR_DAY));
        forms.put(BYWEEKNO, list(WEEK));
        forms.put(BYMONTH, list("([1-9]|1[0-2])"));
        forms.put(BYSETPOS, list(YEAR_DAY));
        forms.put(WKST, Pattern.compile(DAY));
        return forms;
    }

    private static Pattern list(String entry) {
        return Pattern.compile("%s(,%s)*".formatted(entry, entry));
    }

    private final LocalDate first;
    private final Map<String, String> parts = new LinkedHashMap<>();

    private RecurrenceRule(LocalDate first) {
        this.first = first;
    }

    /** The days on which what takes place on {@code first} is repeated by {@code rule}, that day among them. */
    static Outcome days(LocalDate first, String rule) {
        var read = new RecurrenceRule(first);
        return read.wrongPart(rule)
                .or(read::forbidden)
                .or(read::endless)
                .<Outcome>map(Refused::new)
                .orElseGet(read::days);
    }

    private Optional<String> wrongPart(String rule) {
        for (var part : rule.strip().toUpperCase(Locale.ROOT).split(";", -1)) {
            var equals = part.indexOf('=');
            var name = equals < 0 ? part : part.substring(0, equals);
            var value = equals < 0 ? "" : part.substring(equals + 1);
            var form = FORMS.get(name);
            if (FINER_THAN_DAYS.contains(name)
                    || name.equals(FREQ)
                            && Set.of("HOURLY", "MINUTELY", "SECONDLY").contains(value)) {
                return Optional.of(
                        "%s repeats within a day, and sessions are repeated by days. Enter each as one of its own."
                                .formatted(part));
            }
            if (form == null) {
                return Optional.of("There is no part \"%s\" in a rule. The parts are %s."
                        .formatted(name, String.join(", ", FORMS.keySet())));
            }
            if (!form.matcher(value).matches()) {
                return Optional.of("\"%s\" is not possible in a rule. Write %s.".formatted(part, example(name)));
            }
            if (parts.put(name, value) != null) {
                return Optional.of("%s stands in the rule twice. Keep one of them.".formatted(name));
            }
        }
        return parts.containsKey(FREQ)
                ? Optional.empty()
                : Optional.of("The rule does not say how often. Begin it with FREQ=WEEKLY or the like.");
    }

    private static String example(String name) {
        return switch (name) {
            case FREQ -> "FREQ=DAILY, FREQ=WEEKLY, FREQ=MONTHLY or FREQ=YEARLY";
            case UNTIL -> "the last day without a time, such as UNTIL=20261231";
            case BYDAY ->
                "two letters a day, such as BYDAY=MO,TH, in a month with its number, such as BYDAY=1MO or BYDAY=-1FR";
            case WKST -> "two letters of a day, such as WKST=MO";
            case "INTERVAL", COUNT -> "a whole number above 0, such as %s=2".formatted(name);
            case BYMONTHDAY -> "days of the month, such as BYMONTHDAY=1,15 or BYMONTHDAY=-1 for the last";
            case BYMONTH -> "months from 1 to 12, such as BYMONTH=1,7";
            default -> "whole numbers, such as %s=1 or %s=-1 for the last".formatted(name, name);
        };
    }

    /** What the standard says must not stand together. */
    private Optional<String> forbidden() {
        var often = parts.get(FREQ);
        if (parts.containsKey(COUNT) && parts.containsKey(UNTIL)) {
            return Optional.of("The rule has both COUNT and UNTIL. Keep one of them.");
        }
        if (parts.containsKey(BYMONTHDAY) && "WEEKLY".equals(often)) {
            return Optional.of("A weekly rule has no days of the month. Take BYMONTHDAY out, or repeat it monthly.");
        }
        for (var yearly : List.of(BYWEEKNO, BYYEARDAY)) {
            if (parts.containsKey(yearly) && !"YEARLY".equals(often)) {
                return Optional.of("%s belongs to a yearly rule only. Take it out.".formatted(yearly));
            }
        }
        var numbered = parts.getOrDefault(BYDAY, "").matches(".*[0-9].*");
        if (numbered && (parts.containsKey(BYWEEKNO) || "DAILY".equals(often) || "WEEKLY".equals(often))) {
            return Optional.of(
                    "A day with a number, as in BYDAY=%s, belongs to a monthly or yearly rule without weeks. Take the number out."
                            .formatted(parts.get(BYDAY)));
        }
        if (Stream.of(BYWEEKNO, BYYEARDAY).anyMatch(parts::containsKey)
                && Stream.of(BYMONTH, BYMONTHDAY).anyMatch(parts::containsKey)) {
            return Optional.of(
                    "Weeks or days of the year are not read together with months or days of the month. Keep one of them.");
        }
        if (parts.containsKey(BYSETPOS) && parts.containsKey(BYMONTH) && "WEEKLY".equals(often)) {
            return Optional.of("BYSETPOS is not read in a weekly rule with months. Take one of them out.");
        }
        if (parts.containsKey(BYSETPOS)
                && parts.keySet().stream().noneMatch(name -> name.startsWith("BY") && !name.equals(BYSETPOS))) {
            return Optional.of("BYSETPOS chooses among the days of another part, such as BYDAY. Add one.");
        }
        return Optional.empty();
    }

    private Optional<String> endless() {
        if (parts.containsKey(COUNT)) {
            return Optional.empty();
        }
        if (!parts.containsKey(UNTIL)) {
            return Optional.of("The rule never ends. Add its last day, such as ;UNTIL=%s."
                    .formatted(first.plusMonths(3).format(DateTimeFormatter.BASIC_ISO_DATE)));
        }
        try {
            var until = until();
            if (until.isBefore(first)) {
                return Optional.of(
                        "The rule ends on %s, before the first day %s. Change one of them.".formatted(until, first));
            }
            return until.isAfter(first.plusYears(MOST_YEARS))
                    ? Optional.of("The rule ends on %s, more than %d years after the first day. Let it end sooner."
                            .formatted(until, MOST_YEARS))
                    : Optional.empty();
        } catch (DateTimeException noDay) {
            return Optional.of(
                    "UNTIL=%s is not a date of the calendar. Write %s.".formatted(parts.get(UNTIL), example(UNTIL)));
        }
    }

    private LocalDate until() {
        return parts.containsKey(UNTIL)
                ? LocalDate.parse(parts.getOrDefault(UNTIL, ""), DateTimeFormatter.BASIC_ISO_DATE)
                : first.plusYears(MOST_YEARS);
    }

    private Outcome days() {
        var dates = dates();
        if (dates.isEmpty()) {
            return new Refused("The rule has no day from %s on. Change it.".formatted(first));
        }
        if (!dates.getFirst().equals(first)) {
            return new Refused(
                    "The session is on %s, and the first day of its rule from then on is %s. Change one of them."
                            .formatted(first, dates.getFirst()));
        }
        var count = Optional.ofNullable(parts.get(COUNT)).map(Integer::parseInt);
        if (count.isPresent() && count.get() > dates.size()) {
            return new Refused("The rule has %d days within %d years, and COUNT asks for %d. Lower it."
                    .formatted(dates.size(), MOST_YEARS, count.get()));
        }
        var taken = count.map(most -> dates.subList(0, most)).orElse(dates);
        return taken.size() > MOST_DAYS
                ? new Refused("The rule has %d days, and at most %d are taken. Let it end sooner."
                        .formatted(taken.size(), MOST_DAYS))
                : new Days(List.copyOf(taken));
    }

    /** The library works out a rule without an end within a stretch of time; COUNT and UNTIL are counted here. */
    private List<LocalDate> dates() {
        var begin = begin();
        return new Recur<LocalDate>(forTheLibrary())
                .getDates(begin, begin, until()).stream()
                        .filter(date -> !date.isBefore(first) && !date.isAfter(until()))
                        .filter(date -> !weekly() || inItsMonths(date))
                        .distinct()
                        .sorted()
                        .toList();
    }

    /** The same rule with what the standard leaves unsaid said, and without what the library gets wrong in weeks: the months. */
    private String forTheLibrary() {
        var said = new LinkedHashMap<>(parts);
        said.keySet().removeAll(Set.of(COUNT, UNTIL));
        said.putIfAbsent(WKST, "MO");
        if (weekly()) {
            said.remove(BYMONTH);
        }
        if (parts.containsKey(BYMONTHDAY) && "YEARLY".equals(parts.get(FREQ))) {
            said.putIfAbsent(BYMONTH, "1,2,3,4,5,6,7,8,9,10,11,12");
        }
        return said.entrySet().stream()
                .map(part -> part.getKey() + "=" + part.getValue())
                .collect(Collectors.joining(";"));
    }

    private boolean weekly() {
        return "WEEKLY".equals(parts.get(FREQ));
    }

    private boolean inItsMonths(LocalDate date) {
        return !parts.containsKey(BYMONTH)
                || List.of(parts.getOrDefault(BYMONTH, "").split(",", -1))
                        .contains(Integer.toString(date.getMonthValue()));
    }

    /**
     * Where days of the month are named, the library is begun at the first of the month or of the year: from a day late in a
     * month it leaves out every month that is shorter.
     */
    private LocalDate begin() {
        if (Stream.of(BYDAY, BYMONTHDAY, BYYEARDAY).noneMatch(parts::containsKey) || parts.containsKey(BYWEEKNO)) {
            return first;
        }
        return switch (parts.getOrDefault(FREQ, "")) {
            case "MONTHLY" -> first.withDayOfMonth(1);
            case "YEARLY" -> first.withDayOfYear(1);
            default -> first;
        };
    }
}
