package limbqueue.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;
import limbqueue.access.ActingAs;
import limbqueue.referral.Referrals;
import limbqueue.samepatient.SamePatient;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

/**
 * Prints how long answers take among many referrals, beside what reading one referral by its id takes on the same machine in
 * the same run. Not part of the build: {@code ./mvnw -Dquick test -Dtest=SearchBenchmark -Dreferrals=100000}.
 */
@OnPostgres
class SearchBenchmark {

    private static final int REFERRALS = Integer.getInteger("referrals", 100_000);
    private static final int WARM_UP = 20;
    private static final int RUNS = 200;

    @Autowired
    private Search search;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private SamePatient samePatient;

    @Autowired
    private JdbcTemplate jdbc;

    @Test
    void answersAmongManyReferrals() {
        var many = new ManyReferrals(jdbc);
        var begun = System.nanoTime();
        many.add(REFERRALS);
        System.out.printf(
                Locale.ROOT,
                "%,d referrals with letters were put in within %d s.%n",
                REFERRALS,
                (System.nanoTime() - begun) / 1_000_000_000L);
        var kinds = new LinkedHashMap<String, IntFunction<String>>();
        kinds.put("family name", many::family);
        kinds.put("given and family name", n -> many.given(n) + " " + many.family(n));
        kinds.put("three letters of a name", n -> many.family(n).substring(0, 3));
        kinds.put("two letters", n -> many.family(n).substring(0, 2));
        kinds.put("reference", n -> "M-%06d".formatted(1 + n % REFERRALS));
        kinds.put("telephone", many::phone);
        kinds.put("rare word of letters", many::rareWordOfLetters);
        kinds.put("frequent word of letters", n -> many.wordOfLetters(n % 20));
        kinds.put("words of every letter", n -> "dear colleague");
        kinds.put("phrase of every letter", n -> "\"dear colleague\"");
        kinds.put("frequent word and a name", n -> "dear " + many.family(n));
        kinds.put("mistyped name", n -> many.family(n) + "x");
        actingAs.person("coordinator", () -> {
            var ids = jdbc.queryForList("select id from referral order by id limit 1000", Long.class);
            var look = measure(n -> referrals.get(ids.get(n % ids.size())));
            System.out.printf(Locale.ROOT, "%-28s %s%n", "one referral by its id", words(look, 0));
            var all = new ArrayList<Double>();
            kinds.forEach((kind, typed) -> {
                var times = measure(n -> search.find(typed.apply(n)));
                Arrays.stream(times).forEach(all::add);
                System.out.printf(Locale.ROOT, "%-28s %s%n", kind, words(times, look[RUNS / 2]));
            });
            var every = all.stream().mapToDouble(Double::doubleValue).sorted().toArray();
            System.out.printf(Locale.ROOT, "%-28s %s%n", "all of these", words(every, look[RUNS / 2]));
            System.out.printf(
                    Locale.ROOT,
                    "%-28s %s%n",
                    "who may be the same patient",
                    words(measure(n -> samePatient.alike(0, many.document(1 + n % REFERRALS))), look[RUNS / 2]));
            var begunPairs = System.nanoTime();
            var pairs = samePatient.pairs().size();
            System.out.printf(
                    Locale.ROOT,
                    "%-28s p50 %7.2f ms, once, %d pairs%n",
                    "the page of pairs",
                    (System.nanoTime() - begunPairs) / 1e6,
                    pairs);
        });
    }

    private interface Asking {
        Object ask(int n);
    }

    /** Milliseconds, sorted. */
    private static double[] measure(Asking asking) {
        for (var n = 0; n < WARM_UP; n++) {
            asking.ask(n * 13);
        }
        var times = new double[RUNS];
        for (var n = 0; n < RUNS; n++) {
            var begun = System.nanoTime();
            asking.ask(1 + n * 37);
            times[n] = (System.nanoTime() - begun) / 1e6;
        }
        Arrays.sort(times);
        return times;
    }

    private static String words(double[] sorted, double lookUp) {
        var parts = new ArrayList<String>();
        for (var percent : List.of(50, 95, 99)) {
            parts.add(String.format(
                    Locale.ROOT,
                    "p%d %7.2f ms",
                    percent,
                    sorted[Math.min(sorted.length - 1, sorted.length * percent / 100)]));
        }
        parts.add(String.format(Locale.ROOT, "most %7.2f ms", sorted[sorted.length - 1]));
        if (lookUp > 0) {
            parts.add(String.format(Locale.ROOT, "%6.1f look-ups", sorted[sorted.length / 2] / lookUp));
        }
        return String.join("   ", parts);
    }
}
