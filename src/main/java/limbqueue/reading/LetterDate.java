package limbqueue.reading;

import java.time.LocalDate;
import java.util.Optional;
import java.util.regex.Pattern;

/** The day on which a letter was written: the date that stands by itself at its head, or one that is called so. */
final class LetterDate {

    private static final Pattern CALLED = Pattern.compile(
            "(?:^|\\b)(?:date(?: of (?:letter|referral|dictation|visit|consultation|clinic))?|dated|dictat(?:ed|ing)|typed|letter date|referral date|clinic date|seen on|clinic|discharged?|discharge date|date of discharge)(?: on)?(?: the)? ?:? ?$");
    private static final Pattern OTHER =
            Pattern.compile("\\b(?:dob|d o b|born|birth\\w*|received|rec'd|recd|stamp|scan|printed)\\b");
    private static final Pattern CLINICAL = Pattern.compile(
            "\\b(?:duplex|cta|mra|angiogram|abi|since|stent|bypass|ulcer|labs?|egfr|creatinine|radiograph|admitted|discharged|amputation|operation|mr|mrs|ms|miss|leaves|until)\\b");
    private static final int HEAD = 14;

    private LetterDate() {}

    static Optional<LocalDate> of(Page page) {
        for (var sentence : page.sentences) {
            for (var date : page.dates.in(sentence.plain)) {
                if (date.full()
                        && CALLED.matcher(sentence.plain.substring(0, date.start()))
                                .find()
                        && !OTHER.matcher(sentence.plain.substring(0, date.start()))
                                .find()) {
                    return date.date();
                }
            }
        }
        for (var sentence : page.sentences) {
            if (sentence.number >= HEAD) {
                break;
            }
            for (var date : page.dates.in(sentence.plain)) {
                var rest = sentence.plain.length() - (date.end() - date.start());
                var atTheEdge = date.start() <= 2 || sentence.plain.length() - date.end() <= 8;
                if (date.full()
                        && !OTHER.matcher(sentence.plain).find()
                        && !CLINICAL.matcher(sentence.plain).find()
                        && atTheEdge
                        && rest <= (sentence.number < 4 ? sentence.plain.length() - date.end() <= 1 ? 90 : 60 : 24)
                        && date.date().filter(day -> day.getYear() >= 1990).isPresent()) {
                    return date.date();
                }
            }
        }
        var last = page.sentences.size() - 4;
        for (var sentence : page.sentences) {
            if (sentence.number < last) {
                continue;
            }
            for (var date : page.dates.in(sentence.plain)) {
                if (date.full()
                        && date.date().filter(day -> day.getYear() >= 1990).isPresent()
                        && !OTHER.matcher(sentence.plain).find()
                        && sentence.plain.length() - (date.end() - date.start()) <= 16) {
                    return date.date();
                }
            }
        }
        return Optional.empty();
    }
}
