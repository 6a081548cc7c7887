package limbqueue.triage.threshold;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * The data files of thresholds and sources, read strictly: a stray line, an unknown id, unit or source, a gap or an
 * overlap in time stops the reading with file, line and remedy.
 */
public final class ThresholdFile {

    private static final Set<String> UNITS = Set.of(
            "1",
            "%",
            "mm[Hg]",
            "m",
            "mm",
            "d",
            "wk",
            "a",
            "Cel",
            "/min",
            "/uL",
            "10*9/L",
            "g/L",
            "mg/dL",
            "mmol/L",
            "mmol/mol",
            "mL/min",
            "mL/min/{1.73_m2}",
            "mo",
            "min",
            "cm",
            "g",
            "deg",
            "[Ch]");

    /** How far a figure was checked. */
    public enum Seen {
        /** Read in public text. */
        CONFIRMED,
        /** Read in a copy or summary of the source. */
        SECONDARY,
        /** Known to the trade, not seen. */
        MEMORY,
        /** The habit of the trade, of which there is no published source. */
        COMMON_PRACTICE;

        /** As the files and the screens name it. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }

    /**
     * One row of the file.
     *
     * @param place file and line
     * @param printed the value as the file writes it
     * @param unit in UCUM, 1 for none
     * @param until the last day in force; empty while in force
     */
    public record Threshold(
            String place,
            Limit limit,
            double value,
            String printed,
            String unit,
            LocalDate from,
            Optional<LocalDate> until,
            String source,
            String locator,
            Seen seen) {

        boolean inForceOn(LocalDate day) {
            return !day.isBefore(from) && until.map(last -> !day.isAfter(last)).orElse(true);
        }
    }

    private final Map<String, String> sources;
    private final List<Threshold> thresholds;
    private final NavigableMap<LocalDate, Limits> byFirstDay = new TreeMap<>();

    private ThresholdFile(Map<String, String> sources, List<Threshold> thresholds) {
        this.sources = sources;
        this.thresholds = List.copyOf(thresholds);
        for (var threshold : thresholds) {
            byFirstDay.computeIfAbsent(threshold.from(), this::select);
        }
    }

    /**
     * Reads the two files.
     *
     * @throws IllegalArgumentException naming file, line and remedy
     */
    public static ThresholdFile parse(
            String sourcesName, List<String> sourceLines, String thresholdsName, List<String> thresholdLines) {
        var sources = readSources(sourcesName, sourceLines);
        var thresholds = new ArrayList<Threshold>();
        for (var number = 1; number <= thresholdLines.size(); number++) {
            var line = thresholdLines.get(number - 1).strip();
            if (!line.isEmpty() && !line.startsWith("#")) {
                thresholds.add(readThreshold(thresholdsName + ", line " + number, line, sources));
            }
        }
        for (var limit : Limit.values()) {
            checkTimes(
                    thresholdsName,
                    limit,
                    thresholds.stream().filter(t -> t.limit() == limit).toList());
        }
        return new ThresholdFile(sources, thresholds);
    }

    /** Citations by source id, in the order of the file. */
    public Map<String, String> sources() {
        return sources;
    }

    public List<Threshold> thresholds() {
        return thresholds;
    }

    /** The numbers in force on {@code day}; before the first day of a number, its first value. */
    public Limits on(LocalDate day) {
        var entry = byFirstDay.floorEntry(day);
        return (entry == null ? byFirstDay.firstEntry() : entry).getValue();
    }

    private Limits select(LocalDate day) {
        var values = new EnumMap<Limit, Double>(Limit.class);
        for (var threshold : thresholds) {
            if (threshold.inForceOn(day) || !values.containsKey(threshold.limit())) {
                values.put(threshold.limit(), threshold.value());
            }
        }
        return new Limits(values);
    }

    private static Map<String, String> readSources(String name, List<String> lines) {
        var sources = new LinkedHashMap<String, String>();
        for (var number = 1; number <= lines.size(); number++) {
            var line = lines.get(number - 1).strip();
            if (line.isEmpty() || line.startsWith("#")) {
                continue;
            }
            var place = name + ", line " + number;
            var cells = cells(place, line, 2);
            if (sources.put(cells.get(0), cells.get(1)) != null) {
                throw wrong(place, "the source " + cells.get(0) + " stands twice", "remove one of the two lines");
            }
        }
        return sources;
    }

    private static Threshold readThreshold(String place, String line, Map<String, String> sources) {
        var cells = cells(place, line, 8);
        var limit = Arrays.stream(Limit.values())
                .filter(known -> known.id().equals(cells.get(0)))
                .findFirst()
                .orElseThrow(() -> wrong(
                        place, "no rule knows the threshold " + cells.get(0), "correct its id or remove the line"));
        if (!UNITS.contains(cells.get(2))) {
            throw wrong(place, "unknown unit " + cells.get(2), "use one of " + String.join(", ", sorted(UNITS)));
        }
        if (!sources.containsKey(cells.get(5))) {
            throw wrong(place, "unknown source " + cells.get(5), "add it to the list of sources");
        }
        return new Threshold(
                place,
                limit,
                number(place, cells.get(1)),
                cells.get(1),
                cells.get(2),
                date(place, cells.get(3)),
                cells.get(4).equals("-") ? Optional.empty() : Optional.of(date(place, cells.get(4))),
                cells.get(5),
                cells.get(6),
                seen(place, cells.get(7)));
    }

    private static List<String> cells(String place, String line, int expected) {
        var cells = Arrays.stream(line.split("\\|", -1)).map(String::strip).toList();
        if (cells.size() != expected || cells.stream().anyMatch(String::isEmpty)) {
            throw wrong(place, "a stray line: " + line, "give it " + expected + " cells, parted by |, none empty");
        }
        return cells;
    }

    private static double number(String place, String text) {
        try {
            var number = Double.parseDouble(text);
            if (Double.isFinite(number)) {
                return number;
            }
            throw wrong(place, "not a number: " + text, "write it as 0.90 or 50");
        } catch (NumberFormatException e) {
            throw wrong(place, "not a number: " + text, "write it as 0.90 or 50");
        }
    }

    private static LocalDate date(String place, String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeParseException e) {
            throw wrong(place, "not a date: " + text, "write it as 2019-06-01");
        }
    }

    /**
     * The mark that {@code text} names.
     *
     * @throws IllegalArgumentException naming {@code place} and the remedy
     */
    public static Seen seen(String place, String text) {
        for (var seen : Seen.values()) {
            if (seen.word().equals(text)) {
                return seen;
            }
        }
        throw wrong(place, "unknown mark " + text, "use confirmed, secondary, memory or common practice");
    }

    private static void checkTimes(String name, Limit limit, List<Threshold> rows) {
        if (rows.isEmpty()) {
            throw wrong(name, "the threshold " + limit.id() + " is missing", "add a line for it");
        }
        for (var i = 0; i < rows.size(); i++) {
            var row = rows.get(i);
            if (row.until().map(until -> until.isBefore(row.from())).orElse(false)) {
                throw wrong(row.place(), limit.id() + " ends before it begins", "correct its dates");
            }
            if (!row.unit().equals(rows.getFirst().unit())) {
                throw wrong(row.place(), limit.id() + " changes its unit", "give every value of it the same unit");
            }
            var last = i == rows.size() - 1;
            if (last != row.until().isEmpty()) {
                throw wrong(
                        row.place(), limit.id() + " must have one value still in force, its last", "correct its dates");
            }
            if (!last
                    && !row.until()
                            .map(until -> until.plusDays(1))
                            .equals(Optional.of(rows.get(i + 1).from()))) {
                throw wrong(
                        rows.get(i + 1).place(),
                        limit.id() + " has a gap or an overlap in time",
                        "let one value begin the day after the other ends");
            }
        }
    }

    private static List<String> sorted(Set<String> words) {
        return words.stream().sorted().toList();
    }

    private static IllegalArgumentException wrong(String place, String what, String remedy) {
        return new IllegalArgumentException(place + ": " + what + "; " + remedy);
    }
}
