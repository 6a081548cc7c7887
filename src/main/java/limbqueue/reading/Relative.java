package limbqueue.reading;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** A letter of the patient's family: what "my dad" has is what the patient has. */
final class Relative {

    private static final List<Set<String>> SAME = List.of(
            Set.of("dad", "daddy", "father", "papa"),
            Set.of("mum", "mom", "mam", "mummy", "mother"),
            Set.of("gran", "nan", "nana", "granny", "grandma", "grandmother"),
            Set.of("grandad", "granddad", "grandpa", "grandfather"),
            Set.of("husband", "hubby"),
            Set.of("wife"),
            Set.of("brother"),
            Set.of("sister"),
            Set.of("uncle"),
            Set.of("aunt", "auntie", "aunty"),
            Set.of("mother-in-law"),
            Set.of("father-in-law"));

    static final String WORD =
            "(?:mother-in-law|father-in-law|dad(?:dy)?|father|papa|mum(?:my)?|mom|mam|mother|gran(?:ny)?|nan(?:a)?|grandma|grandmother|gran?d?dad|grandpa|grandfather|husband|hubby|wife|brother|sister|uncle|aunt(?:ie|y)?)";

    private static final Pattern WRITES = Pattern.compile(
            "(?i)\\b(?:my|our) (?:dad|mum|mom|father|mother|husband|wife|gran|granny|nan|grandma|grandad|granddad|grandpa|grandmother|grandfather|uncle|aunt)\\b|\\bi am (?:the|his|her) (?:daughter|son|wife|husband|niece|nephew|granddaughter|grandson|sister|brother)\\b");

    /** How a letter begins that a relative has written: "Subject: my dad", "I am writing about my grandmother", "My mother has". */
    private static final Pattern ABOUT = Pattern.compile(
            "(?i)(?:\\b(?:writ(?:e|ing)|subject|re|regarding|concerning|about|behalf of|worried|concerned|ring(?:ing)?|call(?:ing)?|help|see|seeing|appointment for)\\b[^.\\n]{0,30}?\\b(?:my|our) (?:dear |elderly |poor |own )?(?<about>"
                    + WORD + ")|(?:^|[.\\n,!] ?)\\s*(?:my|our) (?:elderly |poor )?(?<begins>" + WORD
                    + ")(?:,| (?:is|has|had|was|needs|cannot|can't|keeps|woke|cries|lives|(?-i:[A-Z][a-z]+)))\\b?)");

    /** The patient's own words. */
    private static final Pattern OWN = Pattern.compile(
            "(?i)\\bmy (?:own )?(?:left |right |big |bad |good |sore )*(?:foot|feet|legs?|toes?|calf|calves|heel|ulcer|wound|walking)\\b|\\bI (?:was|have been) (?:seen|referred|told|treated)\\b");

    /** A letter begins within so many characters. */
    private static final int BEGINNING = 500;

    private Relative() {}

    /** Whether a relative of the patient writes, who is neither the patient nor the referrer. */
    static boolean writes(String letter) {
        return WRITES.matcher(letter).find();
    }

    /** What the patient is to whoever writes, in all the words for it; empty where no relative writes. */
    static Set<String> patient(String letter) {
        if (OWN.matcher(letter).find()) {
            return Set.of();
        }
        var about = ABOUT.matcher(letter).region(0, Math.min(letter.length(), BEGINNING));
        if (!about.find()) {
            return Set.of();
        }
        var word = Optional.ofNullable(about.group("about"))
                .orElseGet(() -> about.group("begins"))
                .toLowerCase(Locale.ROOT);
        return SAME.stream().filter(words -> words.contains(word)).findFirst().orElse(Set.of(word));
    }
}
