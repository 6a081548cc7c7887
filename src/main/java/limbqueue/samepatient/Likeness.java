package limbqueue.samepatient;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import limbqueue.search.Folded;

/**
 * How likely two referrals are of one person, and why. The points are common practice, no source: they order what a person
 * looks at, and decide nothing.
 *
 * @param points 0 to 100
 * @param reasons what speaks for it and against it, the heaviest first
 */
public record Likeness(int points, List<String> reasons) {

    /** From here on a pair is worth a look. */
    public static final int WORTH_A_LOOK = 40;

    private static final int LIKELY = 60;
    private static final int ALMOST_CERTAIN = 80;

    private static final DateTimeFormatter DIGITS = DateTimeFormatter.ofPattern("uuuuMMdd");

    private static final double SIMILAR = 0.9;

    /** @param weight for it if positive, against it if negative */
    private record Reason(int weight, String words) {}

    public Likeness {
        reasons = List.copyOf(reasons);
    }

    public boolean worthALook() {
        return points >= WORTH_A_LOOK;
    }

    /** How likely, in a word. */
    public String words() {
        return points >= ALMOST_CERTAIN ? "almost certainly" : points >= LIKELY ? "likely" : "possibly";
    }

    static Likeness of(PersonFacts one, PersonFacts other) {
        var reasons = new ArrayList<Reason>();
        name(one, other, reasons);
        born(one, other, reasons);
        phone(one, other, reasons);
        identifiers(one, other, reasons);
        reasons.sort((first, second) -> Integer.compare(Math.abs(second.weight()), Math.abs(first.weight())));
        var points = reasons.stream().mapToInt(Reason::weight).sum();
        return new Likeness(
                Math.clamp(points, 0, 100), reasons.stream().map(Reason::words).toList());
    }

    private static void name(PersonFacts one, PersonFacts other, List<Reason> reasons) {
        var given = Folded.text(one.given());
        var family = Folded.text(one.family());
        var otherGiven = Folded.text(other.given());
        var otherFamily = Folded.text(other.family());
        if ((given + family).isEmpty() || (otherGiven + otherFamily).isEmpty()) {
            return;
        }
        if (given.equals(otherGiven) && family.equals(otherFamily)) {
            if (given.isEmpty() || family.isEmpty()) {
                reasons.add(new Reason(20, "same name, of which only a part is known"));
            } else {
                var exactly = one.given().equals(other.given()) && one.family().equals(other.family());
                reasons.add(new Reason(40, exactly ? "same name" : "same name but for accents, signs or capitals"));
            }
        } else if (given.equals(otherFamily) && family.equals(otherGiven)) {
            reasons.add(new Reason(38, "given and family name swapped"));
        } else if (sorted(given, family).equals(sorted(otherGiven, otherFamily))) {
            reasons.add(new Reason(36, "same names in another order"));
        } else if (given.isEmpty() || family.isEmpty() || otherGiven.isEmpty() || otherFamily.isEmpty()) {
            reasons.add(
                    family.equals(otherFamily) && !family.isEmpty()
                            ? new Reason(20, "same family name, the given name not known to both")
                            : new Reason(0, "names not known to both"));
        } else {
            reasons.add(differentNames(given, family, otherGiven, otherFamily));
        }
    }

    private static Reason differentNames(String given, String family, String otherGiven, String otherFamily) {
        if (given.equals(otherGiven) && share(family, otherFamily)) {
            return new Reason(32, "same given name, part of a double name the same");
        }
        if (family.equals(otherFamily) && share(given, otherGiven)) {
            return new Reason(34, "same family name, one of the given names the same");
        }
        if (family.equals(otherFamily) && isInitial(given, otherGiven)) {
            return new Reason(30, "same family name, the initial fits");
        }
        var straight = errors(given, family, otherGiven, otherFamily);
        var swapped = errors(given, family, otherFamily, otherGiven);
        var errors = Math.min(straight, swapped);
        var shortest = Math.min((given + family).length(), (otherGiven + otherFamily).length());
        var order = swapped < straight ? "given and family name swapped and " : "name ";
        if (errors == 1 && shortest >= 5) {
            return new Reason(32, order + "one letter apart");
        }
        if (errors == 2 && shortest >= 8) {
            return new Reason(24, order + "two letters apart");
        }
        if (NameComparison.jaroWinkler(given, otherGiven) >= SIMILAR
                && NameComparison.jaroWinkler(family, otherFamily) >= SIMILAR) {
            return new Reason(20, "similar name");
        }
        if (given.equals(otherGiven)) {
            return new Reason(10, "same given name, another family name");
        }
        if (family.equals(otherFamily)) {
            return new Reason(5, "same family name, another given name");
        }
        return new Reason(-30, "different names");
    }

    private static int errors(String given, String family, String otherGiven, String otherFamily) {
        return NameComparison.errors(given, otherGiven) + NameComparison.errors(family, otherFamily);
    }

    private static List<String> sorted(String given, String family) {
        var words = (given + " " + family).strip().split(" ");
        Arrays.sort(words);
        return List.of(words);
    }

    private static boolean share(String names, String others) {
        var both = new HashSet<>(List.of(names.split(" ")));
        both.retainAll(List.of(others.split(" ")));
        // A "de" or "van" that both have is no name.
        both.removeIf(word -> word.length() < 4);
        return !both.isEmpty();
    }

    private static boolean isInitial(String given, String otherGiven) {
        return (given.length() == 1 || otherGiven.length() == 1) && given.charAt(0) == otherGiven.charAt(0);
    }

    private static void born(PersonFacts one, PersonFacts other, List<Reason> reasons) {
        if (one.born().isEmpty() || other.born().isEmpty()) {
            return;
        }
        var day = one.born().get();
        var otherDay = other.born().get();
        if (day.equals(otherDay)) {
            reasons.add(new Reason(30, "same birth date"));
        } else if (day.getYear() == otherDay.getYear()
                && day.getDayOfMonth() == otherDay.getMonthValue()
                && day.getMonthValue() == otherDay.getDayOfMonth()) {
            reasons.add(new Reason(22, "birth date with day and month swapped"));
        } else if (NameComparison.errors(DIGITS.format(day), DIGITS.format(otherDay)) == 1) {
            reasons.add(new Reason(18, "birth date one digit apart"));
        } else {
            reasons.add(new Reason(-25, "different birth dates"));
        }
    }

    private static void phone(PersonFacts one, PersonFacts other, List<Reason> reasons) {
        var end = one.phoneEnd();
        var otherEnd = other.phoneEnd();
        if (end.isEmpty() || otherEnd.isEmpty()) {
            return;
        }
        if (end.equals(otherEnd)) {
            reasons.add(new Reason(20, "same telephone number"));
        } else if (NameComparison.errors(end, otherEnd) == 1) {
            reasons.add(new Reason(8, "telephone number one digit apart"));
        }
    }

    private static void identifiers(PersonFacts one, PersonFacts other, List<Reason> reasons) {
        var best = 0;
        var words = "";
        for (var mine : one.identifiers()) {
            for (var theirs : other.identifiers()) {
                var same = compact(mine.value()).equals(compact(theirs.value()));
                var system = Folded.text(mine.system()).equals(Folded.text(theirs.system()));
                var known = !mine.system().isEmpty() && !theirs.system().isEmpty();
                if (same && system && known) {
                    best = 60;
                    words = "same number " + mine.value() + " of " + mine.system();
                } else if (same && !(known && !system) && best < 45) {
                    best = 45;
                    words = "same number " + mine.value();
                } else if (!same && system && known && best == 0) {
                    best = -20;
                    words = "different numbers of " + mine.system();
                }
            }
        }
        if (best != 0) {
            reasons.add(new Reason(best, words));
        }
    }

    private static String compact(String number) {
        return Folded.text(number).replace(" ", "");
    }

    /** Days for which this one may have been mistyped: itself, day and month swapped, one digit another, two neighbours swapped. */
    static Set<LocalDate> mistyped(LocalDate day) {
        var days = new LinkedHashSet<LocalDate>();
        days.add(day);
        if (day.getDayOfMonth() <= 12) {
            days.add(LocalDate.of(day.getYear(), day.getDayOfMonth(), day.getMonthValue()));
        }
        var digits = DIGITS.format(day);
        for (var i = 0; i < digits.length(); i++) {
            for (var digit = '0'; digit <= '9'; digit++) {
                add(digits.substring(0, i) + digit + digits.substring(i + 1), days);
            }
            if (i > 0) {
                add(
                        digits.substring(0, i - 1) + digits.charAt(i) + digits.charAt(i - 1) + digits.substring(i + 1),
                        days);
            }
        }
        return days;
    }

    private static void add(String digits, Set<LocalDate> days) {
        try {
            days.add(LocalDate.of(
                    Integer.parseInt(digits.substring(0, 4)),
                    Integer.parseInt(digits.substring(4, 6)),
                    Integer.parseInt(digits.substring(6))));
        } catch (DateTimeException noDay) {
            return;
        }
    }
}
