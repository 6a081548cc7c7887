package limbqueue.reading;

import java.util.List;
import java.util.Map;

/** Numbers, years and days that a letter says in words, brought to digits: "point six one", "the thirtieth of May nineteen forty-one". */
final class NumberWords {

    private static final Map<String, Integer> NUMBERS = Map.ofEntries(
            Map.entry("zero", 0),
            Map.entry("nought", 0),
            Map.entry("one", 1),
            Map.entry("two", 2),
            Map.entry("three", 3),
            Map.entry("four", 4),
            Map.entry("five", 5),
            Map.entry("six", 6),
            Map.entry("seven", 7),
            Map.entry("eight", 8),
            Map.entry("nine", 9),
            Map.entry("ten", 10),
            Map.entry("eleven", 11),
            Map.entry("twelve", 12),
            Map.entry("thirteen", 13),
            Map.entry("fourteen", 14),
            Map.entry("fifteen", 15),
            Map.entry("sixteen", 16),
            Map.entry("seventeen", 17),
            Map.entry("eighteen", 18),
            Map.entry("nineteen", 19),
            Map.entry("twenty", 20),
            Map.entry("thirty", 30),
            Map.entry("forty", 40),
            Map.entry("fourty", 40),
            Map.entry("fifty", 50),
            Map.entry("sixty", 60),
            Map.entry("seventy", 70),
            Map.entry("eighty", 80),
            Map.entry("ninety", 90),
            Map.entry("dozen", 12));

    private static final Map<String, Integer> ORDINALS = Map.ofEntries(
            Map.entry("first", 1),
            Map.entry("second", 2),
            Map.entry("third", 3),
            Map.entry("fourth", 4),
            Map.entry("fifth", 5),
            Map.entry("sixth", 6),
            Map.entry("seventh", 7),
            Map.entry("eighth", 8),
            Map.entry("ninth", 9),
            Map.entry("tenth", 10),
            Map.entry("eleventh", 11),
            Map.entry("twelfth", 12),
            Map.entry("thirteenth", 13),
            Map.entry("fourteenth", 14),
            Map.entry("fifteenth", 15),
            Map.entry("sixteenth", 16),
            Map.entry("seventeenth", 17),
            Map.entry("eighteenth", 18),
            Map.entry("nineteenth", 19),
            Map.entry("twentieth", 20),
            Map.entry("thirtieth", 30));

    private static final String MONTH =
            "jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?";

    private final List<Token> tokens;
    private final String folded;

    /** @param folded the letter as {@link Plain#fold} gives it */
    NumberWords(List<Token> tokens, String folded) {
        this.tokens = tokens;
        this.folded = folded;
    }

    void read() {
        for (var i = 0; i < tokens.size(); i++) {
            var word = tokens.get(i).text;
            if (word.equals("point") && i + 1 < tokens.size() && digit(i + 1)) {
                decimals(i);
            } else if (NUMBERS.containsKey(word) || word.equals("a") && hundredAt(i + 1)) {
                number(i);
            } else if (word.equals("couple") && i > 0) {
                couple(i);
            }
        }
        yearsInWords();
        scannedDates();
        for (var i = 0; i < tokens.size(); i++) {
            if (ORDINALS.containsKey(tokens.get(i).text)) {
                ordinal(i);
            } else if (Fit.matches(tokens.get(i).text, "o\\d")
                    && i + 1 < tokens.size()
                    && Fit.matches(tokens.get(i + 1).text, MONTH)) {
                Token.merge(tokens, i, i + 1, "0" + tokens.get(i).text.charAt(1));
            }
        }
    }

    /** "Nineteen forty-one", which is a year. */
    private void yearsInWords() {
        for (var i = 0; i + 1 < tokens.size(); i++) {
            if (Fit.matches(tokens.get(i).text, "19|20")
                    && Fit.matches(tokens.get(i + 1).text, "\\d\\d")
                    && Character.isLetter(folded.charAt(tokens.get(i).start))
                    && Character.isLetter(folded.charAt(tokens.get(i + 1).start))) {
                Token.merge(tokens, i, i + 2, tokens.get(i).text + tokens.get(i + 1).text);
            }
        }
    }

    /** "ll/16/1950", which is a date. */
    private void scannedDates() {
        for (var i = 0; i + 4 < tokens.size(); i++) {
            if (Fit.matches(tokens.get(i).text, "[lio]{1,2}")
                    && tokens.get(i + 1).text.equals("/")
                    && tokens.get(i + 2).isNumber()
                    && tokens.get(i + 3).text.equals("/")
                    && tokens.get(i + 4).isNumber()) {
                Token.merge(tokens, i, i + 1, Plain.digitsFor(tokens.get(i).text));
            }
        }
    }

    /** "The fourth of June": elsewhere a word such as "second" is no number. */
    private void ordinal(int i) {
        var month = i + 1 < tokens.size() && tokens.get(i + 1).text.equals("of") ? i + 2 : i + 1;
        if (month >= tokens.size() || !Fit.matches(tokens.get(month).text, MONTH)) {
            return;
        }
        var word = tokens.get(i).text;
        if (ORDINALS.containsKey(word)) {
            var tens = i > 1 && tokens.get(i - 1).text.equals("-") && Fit.matches(tokens.get(i - 2).text, "20|30")
                    ? i - 2
                    : i > 0 && Fit.matches(tokens.get(i - 1).text, "20|30") ? i - 1 : i;
            var value = ORDINALS.get(word) + (tens < i ? Integer.parseInt(tokens.get(tens).text) : 0);
            Token.merge(tokens, tens, i + 1, String.valueOf(value));
        }
    }

    private boolean hundredAt(int i) {
        return i < tokens.size()
                && (tokens.get(i).text.equals("hundred") || tokens.get(i).text.equals("dozen"));
    }

    private void couple(int i) {
        var end = i + 1 < tokens.size() && tokens.get(i + 1).text.equals("of") ? i + 2 : i + 1;
        var start = tokens.get(i - 1).text.equals("a") ? i - 1 : i;
        Token.merge(tokens, start, end, "2");
    }

    private boolean digit(int i) {
        return Fit.matches(tokens.get(i).text, "\\d")
                || NUMBERS.getOrDefault(tokens.get(i).text, 10) < 10
                || tokens.get(i).text.equals("oh");
    }

    /** "Point six one", and "nought point six one". */
    private void decimals(int i) {
        var number = new StringBuilder("0.");
        var end = i + 1;
        while (end < tokens.size() && end < i + 4 && digit(end)) {
            var word = tokens.get(end).text;
            number.append(
                    word.equals("oh")
                            ? "0"
                            : NUMBERS.getOrDefault(word, 0) > 0 || NUMBERS.containsKey(word)
                                    ? String.valueOf(NUMBERS.get(word))
                                    : word);
            end++;
        }
        var start = i;
        if (i > 0 && Fit.matches(tokens.get(i - 1).text, "0|1|zero|nought|oh|o|one")) {
            start = i - 1;
            if (Fit.matches(tokens.get(start).text, "1|one")) {
                number.replace(0, 1, "1");
            }
        }
        if (number.length() > 2) {
            Token.merge(tokens, start, end, number.toString());
        }
    }

    private void number(int first) {
        var total = 0;
        var part = 0;
        var end = first;
        var last = -1;
        while (end < tokens.size()) {
            var word = tokens.get(end).text;
            var value = NUMBERS.get(word);
            if (word.equals("-")
                    && end > first
                    && end + 1 < tokens.size()
                    && part >= 20
                    && NUMBERS.getOrDefault(tokens.get(end + 1).text, 99) < 10) {
                end++;
            } else if (value != null
                    && (end == first
                            || last >= 20 && last < 100 && value < 10 && value > 0
                            || last >= 100 && value < 100)) {
                part += value;
                last = value;
                end++;
            } else if (word.equals("a") && end == first) {
                part = 1;
                last = 1;
                end++;
            } else if (word.equals("dozen") && end > first) {
                part = Math.max(1, part) * 12;
                last = 1000;
                end++;
            } else if (word.equals("hundred") && end > first && part < 100) {
                part *= 100;
                last = 100;
                end++;
            } else if (word.equals("thousand") && end > first) {
                total += part * 1000;
                part = 0;
                last = 100;
                end++;
            } else if (word.equals("and")
                    && last >= 100
                    && end + 1 < tokens.size()
                    && NUMBERS.containsKey(tokens.get(end + 1).text)) {
                end++;
            } else {
                break;
            }
        }
        if (end < tokens.size() && tokens.get(end).text.equals("point") && end == first + 1) {
            return;
        }
        Token.merge(tokens, first, end, String.valueOf(total + part));
    }
}
