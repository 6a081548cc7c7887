package limbqueue.letter;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.TriageResult;

/**
 * Looks in words that a person added to a letter for what no letter may say: suspicions, what triage wrote for the clinician,
 * what people noted for the record, and the names of others. What stood in the letter before was looked at when it was
 * written.
 */
final class Confidential {

    /** Of triage, shorter sentences than this are two words of an item, which a letter may ask for in the same words. */
    private static final int SHORTEST_SENTENCE = 25;

    /** So many words in the same order are copied, not said by chance; common practice, no source. */
    private static final int COPIED = 6;

    private static final Pattern MARKS = Pattern.compile("\\p{M}+");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}]+");

    private final String before;
    private final String after;
    private final Set<String> found = new LinkedHashSet<>();

    private Confidential(String before, String after) {
        this.before = folded(before);
        this.after = folded(after);
    }

    /**
     * @param notes what people of the practice noted for the record
     * @param staff the names of those who work there
     * @param patients the names of other patients that stand in the letter
     */
    record Sources(
            ReferralDocument document,
            TriageResult proposal,
            List<String> notes,
            List<String> staff,
            List<String> patients) {}

    /**
     * What must not be added, in words for the office; nothing if nothing speaks against it.
     *
     * @param before the whole letter
     * @param after the whole letter with what was added
     */
    static List<String> in(String before, String after, String language, Sources sources) {
        var search = new Confidential(before, after);
        search.suspicions(language);
        search.sentences(sources.proposal());
        search.notes(sources);
        search.names(sources);
        return List.copyOf(search.found);
    }

    private void suspicions(String language) {
        Stream.of(language, "en-GB")
                .distinct()
                .flatMap(tag -> Vocabulary.of(tag).list("suspicion").stream())
                .filter(this::added)
                .forEach(word -> found.add(
                        "“%s” says a suspicion. On paper it harms the patient and the colleague: take it out, and telephone."
                                .formatted(word)));
    }

    private void sentences(TriageResult proposal) {
        Stream.of(
                        proposal.redFlags().stream().flatMap(flag -> Stream.of(flag.text(), flag.code())),
                        proposal.reasons().stream().map(TriageResult.Reason::text),
                        proposal.workUp().stream().flatMap(item -> Stream.of(item.text(), item.why())))
                .flatMap(all -> all)
                .filter(sentence -> sentence.length() > SHORTEST_SENTENCE)
                .filter(this::added)
                .forEach(sentence ->
                        found.add("“%s” was written for the physician. Say it in other words, or leave it out."
                                .formatted(shortened(sentence))));
    }

    private void notes(Sources sources) {
        Stream.concat(sources.notes().stream(), typed(sources.document()))
                .map(this::copied)
                .flatMap(Optional::stream)
                .forEach(words -> found.add(
                        "“%s” is copied from a note that is kept for the record. Leave it out.".formatted(words)));
    }

    /** What others wrote into the referral, which no letter repeats. */
    private static Stream<String> typed(ReferralDocument document) {
        return Stream.of(
                        document.asked().reason().stream(),
                        document.deferredElsewhere().reason().stream(),
                        document.procedures().stream().flatMap(List::stream).flatMap(one -> one.reason().stream()),
                        document.imaging().stream().flatMap(List::stream).flatMap(one -> one.findings().stream()))
                .flatMap(all -> all);
    }

    /** The first words of a note that the letter repeats; all of a note that is shorter than what counts as copied. */
    private Optional<String> copied(String note) {
        var words = new ArrayList<String>();
        for (var word : folded(note).strip().split(" ", -1)) {
            words.add(word);
        }
        var run = Math.min(COPIED, words.size());
        if (run < 2) {
            return Optional.empty();
        }
        for (var at = 0; at + run <= words.size(); at++) {
            var piece = String.join(" ", words.subList(at, at + run));
            if (added(piece)) {
                return Optional.of(piece);
            }
        }
        return Optional.empty();
    }

    private void names(Sources sources) {
        sources.staff().stream()
                .filter(name -> name.strip().contains(" "))
                .filter(name -> added(name) || added("Dr " + name.substring(name.lastIndexOf(' ') + 1)))
                .forEach(name -> found.add(
                        "%s works here, and a letter names nobody but who decided and who signs.".formatted(name)
                                + " Write “a physician of this practice”."));
        sources.patients().stream()
                .filter(this::added)
                .forEach(name -> found.add("“%s” is the name of another patient. Take it out.".formatted(name)));
    }

    /** Whether these words stand in the letter now, and did not before. */
    private boolean added(String words) {
        var looked = folded(words);
        return !looked.isBlank() && after.contains(looked) && !before.contains(looked);
    }

    /** Lower case without marks, one blank between words, and one before and behind all. */
    private static String folded(String text) {
        var plain = MARKS.matcher(Normalizer.normalize(text, Normalizer.Form.NFKD))
                .replaceAll("")
                .toLowerCase(Locale.ROOT);
        return " " + BETWEEN_WORDS.matcher(plain).replaceAll(" ").strip() + " ";
    }

    private static String shortened(String sentence) {
        return sentence.length() > 80 ? sentence.substring(0, 80) + "…" : sentence;
    }
}
