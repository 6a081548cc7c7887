package limbqueue.command;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.stream.Stream;

/**
 * The days of a recurrence rule as RFC 5545 says them (section 3.3.10, table of page 44), found by leafing through a calendar day
 * by day; it shares no code with what it judges. Rules by numbers of weeks and days of the year are none of it.
 */
final class CalendarLeafed {

    private final LocalDate first;
    private final Map<String, String> parts = new HashMap<>();

    CalendarLeafed(LocalDate first, String rule) {
        this.first = first;
        for (var part : rule.split(";", -1)) {
            parts.put(part.split("=", -1)[0], part.split("=", -1)[1]);
        }
    }

    /** Those from the first day until {@code last}. */
    List<LocalDate> until(LocalDate last) {
        var periods = new TreeMap<LocalDate, List<LocalDate>>();
        for (var day = period(first); !day.isAfter(last.plusYears(1)); day = day.plusDays(1)) {
            if (takesPart(day) && fits(day)) {
                periods.computeIfAbsent(period(day), _ -> new ArrayList<>()).add(day);
            }
        }
        return periods.values().stream()
                .flatMap(this::chosen)
                .distinct()
                .sorted()
                .filter(day -> !day.isBefore(first) && !day.isAfter(last))
                .toList();
    }

    private String often() {
        return parts.getOrDefault("FREQ", "");
    }

    /** The first day of the day, week, month or year in which {@code day} is. */
    private LocalDate period(LocalDate day) {
        return switch (often()) {
            case "DAILY" -> day;
            case "WEEKLY" -> day.with(TemporalAdjusters.previousOrSame(weekday(parts.getOrDefault("WKST", "MO"))));
            case "MONTHLY" -> day.withDayOfMonth(1);
            default -> day.withDayOfYear(1);
        };
    }

    private boolean takesPart(LocalDate day) {
        var unit = switch (often()) {
            case "DAILY" -> ChronoUnit.DAYS;
            case "WEEKLY" -> ChronoUnit.WEEKS;
            case "MONTHLY" -> ChronoUnit.MONTHS;
            default -> ChronoUnit.YEARS;
        };
        return unit.between(period(first), period(day)) % Integer.parseInt(parts.getOrDefault("INTERVAL", "1")) == 0;
    }

    private boolean fits(LocalDate day) {
        var byDay = parts.containsKey("BYDAY");
        var byMonthDay = parts.containsKey("BYMONTHDAY");
        var byMonth = parts.containsKey("BYMONTH");
        var monthly = often().equals("MONTHLY") || often().equals("YEARLY");
        if (byMonth && numbers("BYMONTH").noneMatch(month -> month == day.getMonthValue())) {
            return false;
        }
        if (byMonthDay
                && numbers("BYMONTHDAY")
                        .noneMatch(number -> number == day.getDayOfMonth()
                                || number == day.getDayOfMonth() - day.lengthOfMonth() - 1)) {
            return false;
        }
        if (byDay) {
            return Arrays.stream(parts.getOrDefault("BYDAY", "").split(",", -1)).anyMatch(entry -> isThe(entry, day));
        }
        if (byMonthDay) {
            return true;
        }
        if (monthly && day.getDayOfMonth() != first.getDayOfMonth()) {
            return false;
        }
        return switch (often()) {
            case "WEEKLY" -> day.getDayOfWeek() == first.getDayOfWeek();
            case "YEARLY" -> byMonth || day.getMonth() == first.getMonth();
            default -> true;
        };
    }

    private boolean isThe(String entry, LocalDate day) {
        if (day.getDayOfWeek() != weekday(entry.substring(entry.length() - 2))) {
            return false;
        }
        if (entry.length() == 2) {
            return true;
        }
        var number = Integer.parseInt(entry.substring(0, entry.length() - 2));
        var ofMonth = often().equals("MONTHLY") || parts.containsKey("BYMONTH");
        var place = ofMonth ? day.getDayOfMonth() : day.getDayOfYear();
        var length = ofMonth ? day.lengthOfMonth() : day.lengthOfYear();
        return number == (place - 1) / 7 + 1 || number == -((length - place) / 7 + 1);
    }

    private Stream<LocalDate> chosen(List<LocalDate> days) {
        return parts.containsKey("BYSETPOS")
                ? numbers("BYSETPOS")
                        .map(position -> position > 0 ? position - 1 : days.size() + position)
                        .filter(place -> place >= 0 && place < days.size())
                        .map(days::get)
                : days.stream();
    }

    private Stream<Integer> numbers(String name) {
        return Arrays.stream(parts.getOrDefault(name, "").split(",", -1)).map(Integer::valueOf);
    }

    private static DayOfWeek weekday(String letters) {
        return Arrays.stream(DayOfWeek.values())
                .filter(day -> day.name().startsWith(letters))
                .findFirst()
                .orElseThrow();
    }

    /** A rule as somebody might write it, without an end. */
    static String anyRule(Random random) {
        var often = List.of("DAILY", "WEEKLY", "MONTHLY", "YEARLY").get(random.nextInt(4));
        var monthly = often.equals("MONTHLY") || often.equals("YEARLY");
        var rule = new StringBuilder("FREQ=").append(often);
        if (random.nextBoolean()) {
            rule.append(";INTERVAL=").append(1 + random.nextInt(3));
        }
        if (random.nextInt(3) == 0) {
            rule.append(";BYMONTH=").append(several(random, () -> 1 + random.nextInt(12)));
        }
        var days = random.nextInt(3);
        if (days == 1) {
            var numbered = monthly && random.nextBoolean();
            rule.append(";BYDAY=")
                    .append(several(
                            random,
                            () -> (numbered ? List.of("1", "2", "3", "-1", "-2").get(random.nextInt(5)) : "")
                                    + DayOfWeek.of(1 + random.nextInt(7)).name().substring(0, 2)));
        }
        if (days == 2 && !often.equals("WEEKLY")) {
            rule.append(";BYMONTHDAY=")
                    .append(several(
                            random, () -> random.nextInt(4) == 0 ? -1 - random.nextInt(5) : 1 + random.nextInt(31)));
        }
        if (days > 0 && monthly && random.nextInt(4) == 0) {
            rule.append(";BYSETPOS=").append(random.nextBoolean() ? 1 : -1);
        }
        if (random.nextInt(4) == 0) {
            rule.append(";WKST=SU");
        }
        return rule.toString();
    }

    private static String several(Random random, Supplier<Object> one) {
        return Stream.generate(one)
                .limit(1 + random.nextInt(3))
                .distinct()
                .map(Object::toString)
                .reduce((some, more) -> some + "," + more)
                .orElseThrow();
    }
}
