package limbqueue.governance;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.IntStream;

/**
 * Who waits how long: the waits that ended in one half of a calendar year, by groups of patients. What is shown of a group
 * is decided by {@link Suppression}, for each list of groups beside the one total that all lists share; a group whose count
 * is held back shows no figure at all, and referrers of few patients are one group. Halves of calendar years never overlap, so the figures of one cannot be taken
 * from those of another.
 *
 * @param half the half year
 * @param all every wait that ended in it; empty where there are too few
 */
public record Equity(Period half, Optional<Figures> all, List<Grouping> groupings) {

    /**
     * One list of groups that together are all waits.
     *
     * @param title what it groups by
     */
    public record Grouping(String title, List<Group> groups) {}

    /**
     * One group.
     *
     * @param none whether it is shown that there is nobody in it
     * @param figures empty where there is nobody, or what there is is held back
     */
    public record Group(String words, boolean none, Optional<Figures> figures) {}

    /**
     * The figures of a group that is shown.
     *
     * @param days waited
     * @param ofAllowed the wait as part of the days from its beginning to the target date, 1 being just in time; empty where
     *     no wait of the group had a day to spare
     */
    public record Figures(int count, Spread days, Optional<Spread> ofAllowed) {}

    /** Common practice, no source. */
    private static final List<String> AGES =
            List.of("Age not told", "Under 50", "50 to 59", "60 to 69", "70 to 79", "80 and over");

    /** Those who are few stand beside those who are many, so that the few take one group with them and not two. */
    private static final List<String> SEXES = List.of("Female", "Other", "Male", "Sex not told");

    private static final List<String> HASTE = List.of("Haste asked for", "Haste not asked for, or not told");

    private static final String NO_REFERRER = "Referrer not told";
    private static final String OTHER_REFERRERS = "All others";

    /** @param period the half year is the last whole one within it or before */
    public static Equity of(List<Course> courses, Period period) {
        var half = period.lastHalfYear();
        var ended = courses.stream().filter(course -> course.endedIn(half)).toList();
        return new Equity(
                half,
                ended.size() < Suppression.FEWEST ? Optional.empty() : Optional.of(figures(ended)),
                List.of(
                        grouping("Age", AGES, ended, Equity::age),
                        grouping("Sex", SEXES, ended, Equity::sex),
                        grouping("Haste", HASTE, ended, course -> HASTE.get(course.haste() == Haste.ASKED ? 0 : 1)),
                        referrers(ended)));
    }

    private static Grouping grouping(
            String title, List<String> names, List<Course> ended, Function<Course, String> group) {
        var groups = names.stream()
                .map(name -> ended.stream()
                        .filter(course -> group.apply(course).equals(name))
                        .toList())
                .toList();
        var shown = Suppression.of(groups.stream().map(List::size).toList()).counts();
        return new Grouping(
                title,
                IntStream.range(0, names.size())
                        .mapToObj(at -> new Group(
                                names.get(at),
                                shown.get(at).filter(count -> count == 0).isPresent(),
                                shown.get(at).filter(count -> count > 0).map(_ -> figures(groups.get(at)))))
                        .toList());
    }

    /**
     * Whoever referred ten or more has a name here, the others are one group without names, of at least two and of at
     * least ten patients: who or how many they are is not told.
     */
    private static Grouping referrers(List<Course> ended) {
        var named = new TreeMap<String, List<Course>>();
        ended.forEach(course -> named.computeIfAbsent(course.referrer().orElse(NO_REFERRER), _ -> new ArrayList<>())
                .add(course));
        var others = new ArrayList<Course>();
        var pooled = 0;
        for (var name : List.copyOf(named.keySet())) {
            var few = named.getOrDefault(name, List.of());
            if (few.size() < Suppression.FEWEST) {
                others.addAll(few);
                named.remove(name);
                pooled++;
            }
        }
        while (pooled > 0 && !named.isEmpty() && (pooled < 2 || others.size() < Suppression.FEWEST)) {
            others.addAll(named.pollFirstEntry().getValue());
            pooled++;
        }
        var groups = new ArrayList<Group>();
        named.forEach((name, theirs) -> groups.add(new Group(name, false, Optional.of(figures(theirs)))));
        if (pooled > 0) {
            groups.add(new Group(
                    OTHER_REFERRERS,
                    false,
                    others.size() < Suppression.FEWEST ? Optional.empty() : Optional.of(figures(others))));
        }
        return new Grouping("Referrer", groups);
    }

    private static Figures figures(List<Course> courses) {
        return new Figures(
                courses.size(),
                Spread.of(courses.stream()
                                .flatMap(course -> course.days().stream())
                                .toList())
                        .orElseThrow(),
                Spread.of(courses.stream()
                        .flatMap(course -> ofAllowed(course).stream())
                        .toList()));
    }

    private static Optional<Double> ofAllowed(Course course) {
        return course.target()
                .map(target -> ChronoUnit.DAYS.between(course.since(), target))
                .filter(allowed -> allowed > 0)
                .flatMap(allowed -> course.days().map(days -> (double) days / allowed));
    }

    private static String age(Course course) {
        return course.born()
                .map(born -> ChronoUnit.YEARS.between(born, course.received()))
                .filter(age -> age >= 0)
                .map(age -> AGES.get(age < 50 ? 1 : (int) Math.min(5, age / 10 - 3)))
                .orElse(AGES.getFirst());
    }

    private static String sex(Course course) {
        return switch (course.sex().orElse("")) {
            case "FEMALE" -> "Female";
            case "MALE" -> "Male";
            case "OTHER" -> "Other";
            default -> "Sex not told";
        };
    }
}
