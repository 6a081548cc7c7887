package limbqueue.search;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/**
 * What somebody typed into the search, taken apart. All of it must be there, in any order.
 *
 * @param terms in the order in which they were typed
 */
record Sought(List<Term> terms) {

    /** At most so many characters are read, and so many terms sought; nobody types more. */
    private static final int LONGEST = 200;

    private static final int MOST_TERMS = 12;

    /** What stands in quotes, straight or curled, or a run without a space. A quote that is never closed ends with the text. */
    private static final Pattern TERM = Pattern.compile("[\"“”„«»]([^\"“”„«»]*)(?:[\"“”„«»]|$)|[^\\s\"“”„«»]+");

    private static final Pattern PART_OF_NUMBER = Pattern.compile("\\+?[0-9()/.-]*[0-9)]");

    /** Fewer digits than this are a word as any other: a year, a house. */
    private static final int SHORTEST_TELEPHONE = 7;

    sealed interface Term {

        /** Words that stand together, the last of which may go on. */
        record Beginning(String words) implements Term {}

        /** Exactly these words, one after the other. */
        record Phrase(String words) implements Term {}

        /** A telephone number or the like, however it was set: its digits alone. */
        record Digits(String digits) implements Term {}
    }

    Sought {
        terms = List.copyOf(terms);
    }

    static Sought of(String typed) {
        var terms = new ArrayList<Term>();
        var number = new ArrayList<String>();
        var found = TERM.matcher(typed.length() > LONGEST ? typed.substring(0, LONGEST) : typed);
        while (found.find() && terms.size() + number.size() < MOST_TERMS) {
            var phrase = found.group(1);
            if (phrase == null && PART_OF_NUMBER.matcher(found.group()).matches()) {
                number.add(found.group());
                continue;
            }
            addNumber(number, terms);
            if (phrase == null) {
                add(new Term.Beginning(found.group()), terms);
            } else {
                add(new Term.Phrase(phrase), terms);
            }
        }
        addNumber(number, terms);
        return new Sought(terms);
    }

    private static void add(Term term, List<Term> terms) {
        if (!words(term).isEmpty()) {
            terms.add(term);
        }
    }

    /** Digits in groups are one telephone number if there are enough of them, and words each if not. */
    private static void addNumber(List<String> groups, List<Term> terms) {
        var digits = String.join("", groups).replaceAll("[^0-9]", "");
        if (digits.length() >= SHORTEST_TELEPHONE) {
            terms.add(new Term.Digits(digits));
        } else {
            groups.forEach(group -> add(new Term.Beginning(group), terms));
        }
        groups.clear();
    }

    private static String words(Term term) {
        return switch (term) {
            case Term.Beginning(var words) -> Folded.text(words);
            case Term.Phrase(var words) -> Folded.text(words);
            case Term.Digits(var digits) -> digits;
        };
    }

    /** Whether this says too little to look for: nothing, or a single letter of an alphabet. */
    boolean tooShort() {
        return terms.stream()
                .map(Sought::words)
                .allMatch(words -> words.length() < 2 && words.chars().allMatch(c -> c < 128));
    }

    /** Whether the folded {@code word} of a text is one of those sought. */
    boolean has(String word) {
        return terms.stream().anyMatch(term -> switch (term) {
            case Term.Beginning(var typed) -> {
                var parts = Folded.text(typed).split(" ");
                var last = parts[parts.length - 1];
                yield word.startsWith(last)
                        || List.of(parts).subList(0, parts.length - 1).contains(word);
            }
            case Term.Phrase(var typed) ->
                List.of(Folded.text(typed).split(" ")).contains(word);
            case Term.Digits(var digits) ->
                word.length() >= 3
                        && word.chars().allMatch(Character::isDigit)
                        && digits.contains(word.replaceFirst("^0+", ""));
        });
    }
}
