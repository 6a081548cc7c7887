package limbqueue.referral.ui;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.function.Function;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Benefit;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.TriageResult.TbiBand;

/** Tiers, states, grades and dates in the words that the screens use. */
final class TierWords {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ENGLISH).withZone(ZoneId.systemDefault());
    private static final DateTimeFormatter MOMENT =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private TierWords() {}

    static String of(Tier tier) {
        return tier.words();
    }

    /** The tier as it stands within a sentence. */
    static String inSentence(Tier tier) {
        return of(tier).toLowerCase(Locale.ROOT);
    }

    /** What must be done at this tier, on the way to its date. */
    static String what(Tier tier, Optional<LocalDate> date) {
        return switch (tier) {
            case SAME_DAY -> "send to hospital now";
            case ADVICE_ONLY -> "letter with advice";
            default -> date.map(day -> "by " + date(day)).orElse("");
        };
    }

    /** The tiers that the unknowns still allow, most urgent first: {@code same day, or within 14 days to advice only}. */
    static String possible(List<Tier> possible) {
        return ranges(possible, List.of(Tier.values()), TierWords::inSentence, (_, _) -> true);
    }

    /** Whether the office may still change a referral in this state. */
    static boolean isOpen(ReferralState state) {
        return switch (state) {
            case DRAFT, QUEUED, INFORMATION_NEEDED -> true;
            case APPROVED, RETURNED, SENT_TO_HOSPITAL -> false;
        };
    }

    static String of(ReferralState state) {
        return switch (state) {
            case DRAFT -> "Being entered";
            case QUEUED -> "With the physician";
            case INFORMATION_NEEDED -> "Information needed";
            case APPROVED -> "Approved";
            case RETURNED -> "Returned to referrer";
            case SENT_TO_HOSPITAL -> "Sent to hospital";
        };
    }

    static String grades(List<Fontaine> possible) {
        return ranges(possible, List.of(Fontaine.values()), Fontaine::label, (_, _) -> true);
    }

    /** The category alone, as {@code 5} or {@code acute IIa}. */
    static String category(Rutherford category) {
        return switch (category.scale()) {
            case CHRONIC -> category.label();
            case ACUTE -> "acute " + category.label();
        };
    }

    static String categories(List<Rutherford> possible) {
        return ranges(
                possible,
                List.of(Rutherford.values()),
                TierWords::category,
                (one, next) -> one.scale() == next.scale());
    }

    static String of(Answer answer) {
        return switch (answer) {
            case YES -> "yes";
            case NO -> "no";
            case CANNOT_SAY -> "cannot say";
        };
    }

    static String answers(List<Answer> possible) {
        return String.join(" or ", possible.stream().map(TierWords::of).toList());
    }

    static String of(AbiBand band) {
        return switch (band) {
            case ABNORMAL -> "abnormal";
            case BORDERLINE -> "borderline";
            case NORMAL -> "normal";
            case NONCOMPRESSIBLE -> "not compressible";
        };
    }

    static String of(TbiBand band) {
        return switch (band) {
            case ABNORMAL -> "abnormal";
            case NORMAL -> "normal";
        };
    }

    static String of(Benefit benefit) {
        return switch (benefit) {
            case VERY_LOW -> "very low";
            case LOW -> "low";
            case MODERATE -> "moderate";
            case HIGH -> "high";
        };
    }

    /** Stages of WIfI that the unknowns still allow: {@code 3 or 4}. */
    static String stages(List<Integer> possible) {
        return ranges(possible, List.of(1, 2, 3, 4), String::valueOf, (_, _) -> true);
    }

    /** Types of TASC II that the unknowns still allow: {@code none or A to C}. */
    static String types(List<Tasc> possible) {
        return ranges(possible, List.of(Tasc.values()), Tasc::label, (one, _) -> one != Tasc.NONE);
    }

    /** Stages of GLASS that the unknowns still allow, 0 for none: {@code none, 1 or 2}. */
    static String anatomicStages(List<Integer> possible) {
        return ranges(
                possible,
                List.of(0, 1, 2, 3),
                stage -> stage == 0 ? "none" : String.valueOf(stage),
                (one, _) -> one != 0);
    }

    /** An index as printed, with two decimals. */
    static String index(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    static String date(LocalDate date) {
        return DATE.format(date);
    }

    /** A date in words where {@code iso} is one; else as it stands. */
    static String date(String iso) {
        try {
            return date(LocalDate.parse(iso));
        } catch (DateTimeParseException notADate) {
            return iso;
        }
    }

    /** The time of day, to the second. */
    static String time(Instant at) {
        return TIME.format(at);
    }

    /** Day and time, to the minute. */
    static String moment(Instant at) {
        return MOMENT.format(at);
    }

    /**
     * The values in their order, three or more that follow one another as a range: {@code I, IIb to IV}.
     *
     * @param all every value there is, in order
     * @param ofOneKind whether a value and the one after it may stand in one range
     */
    private static <T> String ranges(
            List<T> possible, List<T> all, Function<T, String> words, BiPredicate<T, T> ofOneKind) {
        var parts = new ArrayList<String>();
        for (var from = 0; from < all.size(); ) {
            if (!possible.contains(all.get(from))) {
                from++;
                continue;
            }
            var to = from;
            while (to + 1 < all.size()
                    && possible.contains(all.get(to + 1))
                    && ofOneKind.test(all.get(to), all.get(to + 1))) {
                to++;
            }
            if (to - from >= 2) {
                parts.add(words.apply(all.get(from)) + " to " + words.apply(all.get(to)));
            } else {
                all.subList(from, to + 1).forEach(one -> parts.add(words.apply(one)));
            }
            from = to + 1;
        }
        if (parts.size() < 2) {
            return String.join("", parts);
        }
        return String.join(", ", parts.subList(0, parts.size() - 1)) + " or " + parts.getLast();
    }
}
