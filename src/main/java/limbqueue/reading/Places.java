package limbqueue.reading;

import java.util.Optional;
import java.util.regex.Pattern;

/** Names of hospitals, as they stand in the letter. */
final class Places {

    private static final String KIND =
            "(?:Hospital|Hosp\\.?|Infirmary|General|Medical Cent(?:er|re)|Clinic|Memorial|Centre|Center|Royal|Health|HOSPITAL|INFIRMARY|Heart Institute|Institute|University Hospital|Imaging|Radiology)";
    /** A hospital that is named without a preposition: in brackets, or at the end of an item of a list. */
    private static final Pattern BARE = Pattern.compile(
            "(?:^|\\(|, |(?<=\\d) |(?<![A-Z][A-Za-z'\u2019-]{0,20})(?<=[a-z]) | [-/] )((?:(?:St\\.?|Saint)\\s+)?(?:[A-Z][A-Za-z'\u2019-]+\\s+){1,4}"
                    + KIND + "\\b|St\\.? [A-Z][a-z]+'s(?=[,)]))");

    private static final Pattern NAMED = Pattern.compile(
            "\\b(?:[Aa]t|[Bb]y|[Ff]rom|[Ii]n|[Oo]f|[Tt]o|@)\\s+(?:the\\s+)?((?:St\\.?|Saint|[A-Z][A-Za-z'\u2019-]+)(?:\\s+(?:of|the|and|&|on|upon)?\\s*(?:St\\.?\\s+)?[A-Z][A-Za-z'\u2019.-]+){0,5}(?:\\s+(?:hospital|infirmary|general|clinic)\\b)?)");
    private static final Pattern NOT_A_PLACE = Pattern.compile(
            "(?i)(?:dr|mr|mrs|ms|miss|january|february|march|april|may|june|july|august|september|october|november|december|monday|tuesday|wednesday|thursday|friday|saturday|sunday|christmas|easter|sfa|cfa|cia|eia|duplex|cta|mra|ct|mr|doppler|left|right|abi|l|r|i|he|she|his|her|their|the|accident|casualty|a&e|ed|er|clinic|theatre|outpatients?|rest|night|home|table|spring|summer|autumn|winter)(?:\\W.*)?");

    /** A place and the words that name it. */
    record Place(String name, Span words) {}

    private Places() {}

    /** The place named between {@code from} and {@code to}, such as "at Marrow Point General". */
    static Optional<Place> behind(Page page, Sentence sentence, int from, int to) {
        if (from >= to) {
            return Optional.empty();
        }
        var span = sentence.span(from, to);
        var text = page.original(span);
        var match = NAMED.matcher(text);
        while (match.find()) {
            var name = match.group(1).replaceAll("\\s+", " ").strip();
            if (NOT_A_PLACE.matcher(name).matches() || name.length() < 4) {
                continue;
            }
            var preposition = WordFile.lower(match.group().strip());
            var hospital =
                    Fit.of(KIND).matcher(name).find() || Fit.matches(name, "(?:St\\.?|Saint) [A-Z][a-z]+['\u2019]?s");
            if (!hospital
                    && !preposition.startsWith("at ")
                    && !preposition.startsWith("@")
                    && !(preposition.startsWith("by ") && name.contains(" "))) {
                continue;
            }
            name = name.endsWith(".") && !name.endsWith("Hosp.") ? name.substring(0, name.length() - 1) : name;
            return Optional.of(new Place(name, new Span(span.start() + match.start(1), span.start() + match.end(1))));
        }
        var bare = BARE.matcher(text);
        while (bare.find()) {
            var name = bare.group(1).replaceAll("\\s+", " ");
            if (!NOT_A_PLACE.matcher(name).matches()) {
                return Optional.of(new Place(name, new Span(span.start() + bare.start(1), span.start() + bare.end(1))));
            }
        }
        return Optional.empty();
    }
}
