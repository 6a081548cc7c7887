package limbqueue.reading;

import java.util.regex.Pattern;

/** Headings that say of whom or of what the lines under them speak. */
final class Headings {

    private static final Pattern HEADING =
            Pattern.compile("^(?:[*\\-#] ?|\\d{1,2}[.)] ?)?([a-z][a-z /&'-]{1,40}?) ?(?::|-(?= )|\\.?$)");
    private static final Pattern MEDICINES = Pattern.compile(
            "(?:current |regular |present |repeat |usual |home |drug |active )*(?:medication|drugs?|rx|drug history|dh|dhx|prescriptions?|medication list|treatment|drug list)(?: list| history| on admission)?");
    private static final Pattern ALLERGIES = Pattern.compile(
            "(?:drug |known )*allergy(?: status| band| alert| label)?|allergic to|adverse reactions?|sensitivities|allergy /? ?(?:intolerances?|reactions?)?");
    private static final Pattern FAMILY =
            Pattern.compile("family(?: history| hx)?|fh|fhx|f/h|f/hx|fam(?:ily)? hx|relatives(?: with)?");
    private static final Pattern PLAN = Pattern.compile(
            "plan|plans|a ?/ ?p|a ?& ?p|assessment (?:and|&|/) plan|recommendations?|options|action|requested|planned(?: here)?|tests? to be \\w+|to be (?:scheduled|done|arranged|booked)|investigations? (?:requested|planned|to follow)|reason for (?:the )?referral|question|questions|to do");
    private static final Pattern OTHER = Pattern.compile(
            "(?:past |medical |surgical |social |clinical |vascular )*(?:history|hx)|pmh|pmhx|pshx?|psh|sh|shx|o/e|on examination|examination|exam|findings|investigations|"
                    + "(?:presenting )?complaint|pc|hpc|hpi|diagnosis|diagnoses|re|labs?|bloods?|imaging|vitals|obs|observations|smoking|social|impression|assessment|"
                    + "right leg|left leg|right|left|right foot|left foot|summary|background|problems?|problem list|comorbidities|co-morbidities|risk factors|abi|pulses|symptoms?|wound|perfusion");

    /** What is said of medicines behind the allergies in the same line: "Allergy: latex. Takes warfarin 5 mg." */
    private static final Pattern TAKES = Pattern.compile(
            "^(?:(?:he|she|patient|pt|currently|now|also|is) )*+(?:takes|taking|on|uses|current|regular|meds|medication)\\b");

    private Headings() {}

    static boolean isHeading(String plain) {
        return HEADING.matcher(plain).find();
    }

    static Sentence.Section sectionAfter(Sentence.Section section, String plain) {
        var heading = HEADING.matcher(plain);
        if (!heading.find()) {
            return section == Sentence.Section.ALLERGIES && TAKES.matcher(plain).find()
                    ? Sentence.Section.NONE
                    : section;
        }
        var words = heading.group(1).strip();
        if (FAMILY.matcher(words).matches()) {
            return Sentence.Section.FAMILY;
        }
        if (MEDICINES.matcher(words).matches()) {
            return Sentence.Section.MEDICINES;
        }
        if (ALLERGIES.matcher(words).matches()) {
            return Sentence.Section.ALLERGIES;
        }
        if (PLAN.matcher(words).matches()) {
            return Sentence.Section.PLAN;
        }
        if (OTHER.matcher(words).matches()) {
            return Sentence.Section.NONE;
        }
        return plain.contains(":") && plain.indexOf(':') < 30 && section == Sentence.Section.FAMILY
                ? Sentence.Section.NONE
                : section;
    }
}
