package limbqueue.referral.ui;

import java.util.Locale;

/** The words for an answer chosen from a list. */
final class ChoiceWords {

    private ChoiceWords() {}

    static String of(Enum<?> choice) {
        return choice.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
