package limbqueue.reading;

import java.util.List;

/** A word, a number or a sign of a letter, and where it stands. */
final class Token {
    final int start;
    final int end;
    final String text;
    final boolean blankBefore;

    Token(int start, int end, String text, boolean blankBefore) {
        this.start = start;
        this.end = end;
        this.text = text;
        this.blankBefore = blankBefore;
    }

    boolean isNumber() {
        return !text.isEmpty()
                && Plain.isDigit(text.charAt(0))
                && !text.contains("/")
                && !Plain.isLetter(text.charAt(text.length() - 1));
    }

    /** Makes one token of those from {@code first} up to {@code end}. */
    static void merge(List<Token> tokens, int first, int end, String text) {
        var merged = new Token(tokens.get(first).start, tokens.get(end - 1).end, text, tokens.get(first).blankBefore);
        tokens.subList(first, end).clear();
        tokens.add(first, merged);
    }
}
