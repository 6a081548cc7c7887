package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * What is known about one thing, as phrases. A finding without a phrase is unknown as a whole; a single phrase may say
 * that a detail is not known.
 */
record Finding(List<Phrase> phrases) {

    /** How a phrase is to be read at a glance. */
    enum Weight {
        /** Something is wrong. */
        PRESENT,
        /** It was looked for and is not there. */
        ABSENT,
        /** A detail. */
        PLAIN,
        /** Nobody has said. */
        NOT_KNOWN
    }

    record Phrase(String text, Weight weight) {}

    Finding {
        phrases = List.copyOf(phrases);
    }

    static Finding notKnown() {
        return new Finding(List.of());
    }

    static Finding plain(String text) {
        return new Finding(List.of(new Phrase(text, Weight.PLAIN)));
    }

    boolean known() {
        return !phrases.isEmpty();
    }

    /** The phrases in one sentence, as a screen reader says them. */
    String sentence() {
        return known() ? String.join(", ", phrases.stream().map(Phrase::text).toList()) : "not known";
    }

    /** Gathers phrases in order. */
    static final class Gathering {

        private final List<Phrase> phrases = new ArrayList<>();

        Gathering present(String text) {
            phrases.add(new Phrase(text, Weight.PRESENT));
            return this;
        }

        Gathering absent(String text) {
            phrases.add(new Phrase(text, Weight.ABSENT));
            return this;
        }

        Gathering plain(String text) {
            phrases.add(new Phrase(text, Weight.PLAIN));
            return this;
        }

        /** Goes on with the phrase before, if there is one. */
        Gathering onwards(String text) {
            if (phrases.isEmpty()) {
                return plain(text);
            }
            var before = phrases.removeLast();
            phrases.add(new Phrase(before.text() + " " + text, before.weight()));
            return this;
        }

        /** A detail that matters so much that its absence is said. */
        Gathering notKnown(String what) {
            phrases.add(new Phrase(what + " not known", Weight.NOT_KNOWN));
            return this;
        }

        /** Says {@code yes} or {@code no} where the answer is known. */
        Gathering answer(Optional<Boolean> answer, String yes, String no) {
            answer.ifPresent(is -> {
                if (is) {
                    present(yes);
                } else {
                    absent(no);
                }
            });
            return this;
        }

        <T> Gathering detail(Optional<T> value, Function<T, String> words) {
            value.map(words).ifPresent(this::plain);
            return this;
        }

        boolean isEmpty() {
            return phrases.isEmpty();
        }

        Finding finding() {
            return new Finding(phrases);
        }
    }
}
