package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;

/**
 * Shares out the values that follow a measure to the sides named with them: "R 0.61 L 0.92", "0.61 on the right and 0.92
 * on the left", "R/L 0.61/0.92". Where it cannot be told which is whose, none is shared out.
 */
final class SideValues {

    /** A value with its sides; {@code sides} is empty where none is named with it. */
    record Shared(int start, int end, String text, Set<Side> sides) {}

    private record Item(int start, int end, Set<Side> sides, Optional<String> value) {
        boolean side() {
            return value.isEmpty();
        }
    }

    private static final Pattern TRAILING = Pattern.compile(
            "^ ?(?:mmhg ?)?(?:systolic ?)?[(\\[-]? ?(?:(?:on|in|for|at|over)(?: the| his| her)? ?(?:(?:affected|symptomatic|asymptomatic|unaffected|bad|worse|good|better|painful|ulcerated) )?(?:(?:dorsum|tip|sole|top|foot|toe) (?:of (?:the )?)?)?)?$");
    private static final Pattern JOINED = Pattern.compile("^ ?(?:/|and|&|,|\\+|then|vs) ?$");
    private static final Pattern LEADS =
            Pattern.compile("^ ?(?:leg|foot|side|ankle|toe|arm|is|was|of|at|=|:|-|,|\\)|\\]| |mmhg)*$");

    /** A side of which nothing could be measured has no value to wait for. */
    private static final Pattern NOT_DONE = Pattern.compile(
            "^(?: (?:leg|foot|side|one))? ?[:=,]? ?(?:(?:could |was |is )?not(?: be)?"
                    + "|isn't|cannot be|couldn't be) (?:done|measured|recorded|taken|tested|obtained|possible|checked|compressible)");

    /** "Unrecordable on the right, 0.66 left". */
    private static final Pattern UNRECORDABLE = Pattern.compile(
            "\\b(?:un-?(?:recordable|measurable|obtainable|detectable)|not (?:recordable|measurable|obtainable|done|measured|recorded|detectable)|non compressible|no (?:signal|waveform|reading|value))(?: (?:on|in|for|at))?(?: the)? ?$");

    private static final Pattern OTHER = Pattern.compile("\\b(?:contralateral|other)(?: (?:leg|side|one|foot))?\\b");

    private static final Pattern NOW = Pattern.compile("\\b(?:now|currently|today|at present|this time)\\b");

    private SideValues() {}

    /**
     * @param from where the values may begin
     * @param to where the next measure begins
     * @param values finds one value
     * @param before the sides named just before the measure
     */
    static List<Shared> share(
            String plain, int from, int to, Pattern values, Predicate<String> plausible, Set<Side> before) {
        var items = items(plain, from, to, values, plausible);
        var shared = new ArrayList<Shared>();
        var numbers = items.stream().filter(item -> !item.side()).toList();
        if (numbers.isEmpty()) {
            return shared;
        }
        var sides = items.stream().filter(Item::side).toList();
        if (sides.isEmpty()) {
            var first = numbers.getFirst();
            if (numbers.size() == 1 || !before.isEmpty() && before.size() == 1) {
                shared.add(new Shared(first.start(), first.end(), first.value().orElseThrow(), before));
            }
            if (numbers.size() == 2
                    && NOW.matcher(plain.substring(first.end(), numbers.get(1).start()))
                            .find()) {
                var second = numbers.get(1);
                shared.add(
                        new Shared(second.start(), second.end(), second.value().orElseThrow(), before));
                return shared;
            }
            if (numbers.size() == 2
                    && Fit.matches(
                            plain.substring(
                                    first.end(),
                                    Math.min(plain.length(), numbers.get(1).end() + 30)),
                            "(?s).*\\b(?:exercise|treadmill|walking|marching)\\b.*")) {
                var second = numbers.get(1);
                shared.add(
                        new Shared(second.start(), second.end(), second.value().orElseThrow(), before));
            }
            return shared;
        }
        if (zipped(plain, items, shared)) {
            return shared;
        }
        if (isLedByItsSide(plain, items)) {
            var led = items.get(2);
            shared.add(new Shared(
                    items.get(1).start(),
                    led.end(),
                    led.value().orElseThrow(),
                    items.get(1).sides()));
            return shared;
        }
        if (items.getFirst().side() || sideFirst(plain, items, before)) {
            forwards(items, before, shared);
        } else {
            backwards(plain, items, shared);
        }
        return shared;
    }

    private static List<Item> items(String plain, int from, int to, Pattern values, Predicate<String> plausible) {
        var items = new ArrayList<Item>();
        var side = Fit.of("\\b(left|right|bilateral)\\b").matcher(plain).region(from, to);
        while (side.find()) {
            var word = side.group();
            if (UNRECORDABLE.matcher(plain.substring(from, side.start())).find()
                    || NOT_DONE.matcher(plain.substring(side.end(), Math.min(plain.length(), side.end() + 50)))
                            .find()) {
                continue;
            }
            items.add(new Item(
                    side.start(),
                    side.end(),
                    word.equals("bilateral") ? Side.both() : EnumSet.of(word.equals("left") ? Side.LEFT : Side.RIGHT),
                    Optional.empty()));
        }
        otherSide(plain, from, to, items);
        var value = values.matcher(plain).region(from, to).useTransparentBounds(true);
        while (value.find()) {
            if (plausible.test(value.group())) {
                items.add(new Item(value.start(), value.end(), Set.of(), Optional.of(value.group())));
            }
        }
        items.sort(java.util.Comparator.comparingInt(Item::start));
        return items;
    }

    /** "0.45 on the right and 0.98 in the other". */
    private static void otherSide(String plain, int from, int to, List<Item> items) {
        var other = OTHER.matcher(plain).region(from, to).useTransparentBounds(true);
        while (other.find()) {
            items.stream()
                    .filter(item -> item.end() <= other.start() && item.sides().size() == 1)
                    .reduce((_, last) -> last)
                    .ifPresent(last -> items.add(new Item(
                            other.start(),
                            other.end(),
                            EnumSet.of(last.sides().iterator().next().other()),
                            Optional.empty())));
        }
    }

    private static boolean zipped(String plain, List<Item> items, List<Shared> shared) {
        if (items.size() < 4) {
            return false;
        }
        var one = items.get(0);
        var two = items.get(1);
        var three = items.get(2);
        var four = items.get(3);
        if (one.side() != two.side() || three.side() != four.side() || one.side() == three.side()) {
            return false;
        }
        if (!JOINED.matcher(plain.substring(one.end(), two.start())).matches()
                || !JOINED.matcher(plain.substring(three.end(), four.start())
                                .replaceAll("(?:on the|in the|the|on|leg|mmhg)", " ")
                                .replaceAll(" +", " "))
                        .matches()) {
            return false;
        }
        var sides = one.side() ? List.of(one, two) : List.of(three, four);
        var values = one.side() ? List.of(three, four) : List.of(one, two);
        for (var i = 0; i < 2; i++) {
            var value = values.get(i);
            shared.add(new Shared(
                    Math.min(value.start(), values.getFirst().start()),
                    value.end(),
                    value.value().orElseThrow(),
                    sides.get(i).sides()));
        }
        return true;
    }

    /** "0.81 R 1.02": the side leads the second value; of which side the first one is, is not said. */
    private static boolean isLedByItsSide(String plain, List<Item> items) {
        return items.size() == 3
                && !items.get(0).side()
                && items.get(1).side()
                && !items.get(2).side()
                && Fit.matches(plain.substring(items.get(0).end(), items.get(1).start()), " ")
                && Fit.matches(plain.substring(items.get(1).end(), items.get(2).start()), " ?[:=]? ?");
    }

    /** Whether "right ABI 0.61, left 0.92" is meant, and not "ABI 0.61 right, 0.92 left". */
    private static boolean sideFirst(String plain, List<Item> items, Set<Side> before) {
        var firstSide = items.stream().filter(Item::side).findFirst().orElseThrow();
        var valueBefore = items.get(items.indexOf(firstSide) - 1);
        var between = plain.substring(valueBefore.end(), firstSide.start());
        if (!TRAILING.matcher(between).matches()) {
            return true;
        }
        return items.getLast().value().isPresent()
                && before.size() == 1
                && items.indexOf(firstSide) + 1 < items.size()
                && LEADS.matcher(plain.substring(
                                firstSide.end(),
                                items.get(items.indexOf(firstSide) + 1).start()))
                        .matches();
    }

    private static void forwards(List<Item> items, Set<Side> before, List<Shared> shared) {
        var sides = before;
        var start = -1;
        var used = items.getFirst().side();
        for (var item : items) {
            if (item.side()) {
                sides = item.sides();
                start = item.start();
                used = false;
            } else if (!used || start < 0) {
                if (start < 0 && used) {
                    continue;
                }
                shared.add(new Shared(
                        start < 0 ? item.start() : start,
                        item.end(),
                        item.value().orElseThrow(),
                        sides));
                used = true;
                if (start >= 0) {
                    start = item.start();
                }
            } else {
                shared.add(new Shared(item.start(), item.end(), item.value().orElseThrow(), sides));
            }
        }
    }

    private static void backwards(String plain, List<Item> items, List<Shared> shared) {
        var taken = -1;
        for (var i = 0; i < items.size(); i++) {
            var item = items.get(i);
            if (item.side()) {
                if (taken != i && i + 2 == items.size() && !items.get(i + 1).side()) {
                    var last = items.get(i + 1);
                    shared.add(new Shared(item.start(), last.end(), last.value().orElseThrow(), item.sides()));
                    return;
                }
                continue;
            }
            if (i + 1 < items.size() && items.get(i + 1).side()) {
                var side = items.get(i + 1);
                if (TRAILING.matcher(plain.substring(item.end(), side.start())).matches()) {
                    shared.add(new Shared(item.start(), side.end(), item.value().orElseThrow(), side.sides()));
                    taken = i + 1;
                }
            }
        }
    }
}
