package limbqueue.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.document.Draft;
import limbqueue.intake.Proposal.Entry;
import limbqueue.intake.Proposal.Part;
import limbqueue.intake.Proposal.Standing;
import limbqueue.intake.Proposal.Words;
import limbqueue.reading.FoundField;
import limbqueue.reading.ReadLetter;
import tools.jackson.databind.JsonNode;

/**
 * What a letter proposes for a referral, beside what the referral says already.
 *
 * @param proposals in the order of the letter; what the referral says just so is not among them
 * @param letter what the letter says, field by field, as one may correct it
 * @param found the same as it was found
 * @param alreadyThere how many things the letter says that the referral says just so
 */
record LetterProposals(List<Proposal> proposals, Draft letter, Draft found, int alreadyThere) {

    private static final Pattern ENTRY = Pattern.compile("(.*?)\\[(\\d+)](?:\\.(.+))?");

    /** Fields by which an entry of a list is the same as another, where two with the same cannot both be. */
    private static final Map<String, Set<String>> KEYS = Map.of(
            "medicines", Set.of("name"),
            "allergies", Set.of("to"),
            "lesions", Set.of("side", "segment"));

    /** What a practice gives out itself, and the letter as a whole. */
    private static final Set<String> NEVER = Set.of("reference", "letterText");

    LetterProposals {
        proposals = List.copyOf(proposals);
    }

    static LetterProposals of(ReadLetter read, Draft referral) {
        var letter = Draft.empty();
        var words = new LinkedHashMap<String, List<Words>>();
        for (var found : read.found()) {
            if (!NEVER.contains(found.field())) {
                if (letter.get(found.field()).isEmpty()) {
                    letter.putBack(found.field(), Optional.of(found.value()));
                }
                words.computeIfAbsent(found.field(), _ -> new ArrayList<>()).add(wordsOf(found));
            }
        }
        var grouped = new LinkedHashMap<String, List<String>>();
        for (var path : words.keySet()) {
            var entry = ENTRY.matcher(path);
            grouped.computeIfAbsent(
                            entry.matches() ? entry.group(1) + "[" + entry.group(2) + "]" : path,
                            _ -> new ArrayList<>())
                    .add(path);
        }
        var proposals = new ArrayList<Proposal>();
        var alreadyThere = 0;
        for (var group : grouped.entrySet()) {
            var entry = ENTRY.matcher(group.getKey());
            var proposal = entry.matches()
                    ? entry(proposals.size(), entry.group(1), group, letter, words, referral)
                    : single(proposals.size(), group.getKey(), letter, words, referral);
            if (proposal.saysNothingNew()) {
                alreadyThere++;
            } else {
                proposals.add(proposal);
            }
        }
        return new LetterProposals(proposals, letter, Draft.of(letter.toJson()), alreadyThere);
    }

    private static Words wordsOf(FoundField found) {
        return new Words(found.start(), found.end());
    }

    private static Proposal single(
            int number, String path, Draft letter, Map<String, List<Words>> words, Draft referral) {
        return new Proposal(number, List.of(part(path, path, letter, words, referral)), Optional.empty());
    }

    private static Part part(String path, String target, Draft letter, Map<String, List<Words>> words, Draft referral) {
        var there = referral.get(target);
        var standing = there.map(known -> isSame(known, letter.get(path)) ? Standing.SAME : Standing.DIFFERENT)
                .orElse(Standing.NEW);
        return new Part(
                path, words.getOrDefault(path, List.of()), standing, there.filter(_ -> standing == Standing.DIFFERENT));
    }

    private static Proposal entry(
            int number,
            String list,
            Map.Entry<String, List<String>> group,
            Draft letter,
            Map<String, List<Words>> words,
            Draft referral) {
        var size = referral.sizeOf(list);
        if (size.isPresent() && size.get() == 0) {
            // The referral says that there is none.
            var parts = group.getValue().stream()
                    .map(path ->
                            new Part(path, words.getOrDefault(path, List.of()), Standing.DIFFERENT, referral.get(list)))
                    .toList();
            return new Proposal(number, parts, Optional.of(new Entry(list, Optional.empty())));
        }
        var best = Optional.<Proposal>empty();
        for (var index = 0; index < size.orElse(0); index++) {
            var beside = beside(number, list, index, group, letter, words, referral);
            if (beside.saysNothingNew()) {
                return beside;
            }
            if (best.isEmpty() && isThatEntry(list, index, group, letter, referral)) {
                best = Optional.of(beside);
            }
        }
        return best.orElseGet(() -> new Proposal(
                number,
                group.getValue().stream()
                        .map(path ->
                                new Part(path, words.getOrDefault(path, List.of()), Standing.NEW, Optional.empty()))
                        .toList(),
                Optional.of(new Entry(list, Optional.empty()))));
    }

    /** The entry that the letter tells of, beside entry {@code index} of the referral. */
    private static Proposal beside(
            int number,
            String list,
            int index,
            Map.Entry<String, List<String>> group,
            Draft letter,
            Map<String, List<Words>> words,
            Draft referral) {
        var parts = group.getValue().stream()
                .map(path ->
                        part(path, list + "[" + index + "]" + inner(group.getKey(), path), letter, words, referral))
                .toList();
        return new Proposal(number, parts, Optional.of(new Entry(list, Optional.of(index))));
    }

    private static boolean isThatEntry(
            String list, int index, Map.Entry<String, List<String>> group, Draft letter, Draft referral) {
        var keys = KEYS.getOrDefault(list, Set.of());
        return !keys.isEmpty()
                && keys.stream()
                        .allMatch(key -> referral.get(list + "[" + index + "]." + key)
                                .filter(known -> isSame(known, letter.get(group.getKey() + "." + key)))
                                .isPresent());
    }

    /** The path within the entry, with its dot; empty for an entry that is a single value. */
    static String inner(String entry, String path) {
        return path.substring(entry.length());
    }

    private static boolean isSame(JsonNode one, Optional<JsonNode> other) {
        return other.filter(known -> one.isNumber() && known.isNumber()
                        ? one.decimalValue().compareTo(known.decimalValue()) == 0
                        : one.isString() && known.isString()
                                ? one.stringValue()
                                        .strip()
                                        .equalsIgnoreCase(known.stringValue().strip())
                                : one.equals(known))
                .isPresent();
    }
}
