package limbqueue.search;

import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.jdbc.core.JdbcTemplate;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * Any number of invented referrals with letters, put straight into the database: names of syllables, words as frequent as
 * words are, a few of them in every letter and most of them in hardly any. The same number gives the same referrals.
 */
final class ManyReferrals {

    private static final int BATCH = 500;
    private static final int WORDS_OF_A_LETTER = 130;
    private static final List<String> SYLLABLES = List.of(
            "ar", "bel", "cor", "dun", "el", "fen", "gar", "hol", "ing", "jor", "kel", "lin", "mar", "nor", "os", "pel",
            "quin", "ros", "sel", "tor", "ul", "vin", "wex", "yar", "zel", "brom", "clay", "drew", "stan", "thorn");

    private final JdbcTemplate jdbc;
    private final Random random = new Random(20_000);
    private final List<String> vocabulary;

    ManyReferrals(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
        vocabulary = IntStream.range(0, 20_000)
                .mapToObj(i -> word(2 + i % 3))
                .distinct()
                .toList();
    }

    void add(int count) {
        for (var first = 1; first <= count; first += BATCH) {
            var rows = IntStream.range(first, Math.min(first + BATCH, count + 1))
                    .mapToObj(n -> new Object[] {"M-%06d".formatted(n), document(n)})
                    .toList();
            jdbc.batchUpdate("""
                    insert into referral (reference, state, received, document, saved_by, saved_at)
                    values (?, 'DRAFT', date '2026-01-12', cast(? as json), 'Wren Halloway', now())
                    """, rows);
        }
        jdbc.execute("vacuum analyze searchable");
        jdbc.execute("analyze referral");
    }

    /** A family name that some of them have. */
    String family(int n) {
        return name(new Random(n % 6_000L), 3);
    }

    String given(int n) {
        return name(new Random(n % 700L + 1_000_000), 2);
    }

    String phone(int n) {
        return "01632 %06d".formatted(n * 17 % 1_000_000);
    }

    /** A word of letters; the lower the number, the more have it. */
    String wordOfLetters(int rank) {
        return vocabulary.get(rank);
    }

    /** A word that few letters have. */
    String rareWordOfLetters(int n) {
        return vocabulary.get(vocabulary.size() - 1 - n % (vocabulary.size() / 4));
    }

    /** The document of referral {@code n}, with a letter of other words each time. */
    String document(int n) {
        var nodes = JsonNodeFactory.instance;
        var document = nodes.objectNode();
        document.putObject("patient")
                .put("given", given(n))
                .put("family", family(n))
                .put(
                        "born",
                        java.time.LocalDate.of(1930, 1, 1)
                                .plusDays(n * 31L % 25_000)
                                .toString())
                .put("phone", phone(n))
                .putArray("identifiers")
                .addObject()
                .put("system", "urn:arven:patient")
                .put("value", "AV-%05d".formatted(n));
        document.putObject("referrer")
                .put("name", "Dr " + name(new Random(n % 300L + 2_000_000), 3))
                .put("organisation", name(new Random(n % 90L + 3_000_000), 2) + " Surgery");
        document.put(
                "letterText",
                "Dear colleague, "
                        + Stream.generate(this::frequent)
                                .limit(WORDS_OF_A_LETTER)
                                .collect(Collectors.joining(" ")) + ".");
        return document.toString();
    }

    /** A word drawn as words are: the second half as often as the first, the third a third as often. */
    private String frequent() {
        var rank = (int) Math.pow(vocabulary.size(), random.nextDouble()) - 1;
        return vocabulary.get(Math.min(rank, vocabulary.size() - 1));
    }

    private String word(int syllables) {
        return Stream.generate(() -> SYLLABLES.get(random.nextInt(SYLLABLES.size())))
                .limit(syllables)
                .collect(Collectors.joining());
    }

    private static String name(Random of, int syllables) {
        var name = Stream.generate(() -> SYLLABLES.get(of.nextInt(SYLLABLES.size())))
                .limit(syllables)
                .collect(Collectors.joining());
        return name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1);
    }
}
