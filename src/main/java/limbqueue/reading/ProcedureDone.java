package limbqueue.reading;

import java.util.regex.Pattern;

/** What shows that a procedure was done: when, where, how it went, or a word such as "underwent". One that is only spoken of was not. */
final class ProcedureDone {

    private static final Pattern WHEN = Pattern.compile(
            "\\b(?:19|20)\\d\\d\\b|\\b(?:yesterday|today|ago|earlier this|recently|(?:last|this) (?:year|month|week|spring|summer|autumn|fall|winter|christmas|january|february|march|april|may|june|july|august|september|october|november|december))\\b"
                    + "|\\b\\d{1,2}[/.-]\\d{1,2}\\b|'\\d\\d\\b|\\b(?:january|february|march|april|june|july|august|september|october|november|december)\\b");

    private static final Pattern BEFORE = Pattern.compile(
            "\\b(?:had|has had|having had|underwent|undergone|undergoing|status post|s/p|post|previous(?:ly)?|prior|old|earlier|after|since|following|history|hx|pmh|psh|pshx|pmhx|"
                    + "perform\\w*|did|done|received|given|attempt\\w*|tried|failed|failure of|unsuccessful|successful|took|taken|brought|came (?:for|to)|went|known|existing|treated (?:with|by)|managed (?:with|by)|"
                    + "past|surgical|procedures?|interventions?|operations?|vascular|first|1st|second|2nd|last|original|initial|emergency|got|lost|carr\\w+ out|undertook|put in|placed)\\b[^.;]{0,120}$|^[^a-z]*$");

    private static final Pattern AFTER = Pattern.compile(
            "^s?\\b[^.;]{0,90}\\b(?:was|were|has been|done|perform\\w*|carried out|placed|put in|inserted|show\\w*|reveal\\w*|demonstrat\\w*|found|confirm\\w*|via|through|approach|access|groin|complicat\\w*|uneventful\\w*|"
                    + "fail\\w*|attempt\\w*|abandon\\w*|abort\\w*|unsuccessful\\w*|successful\\w*|patent|occluded|blocked|thrombosed|at|by|there|elsewhere|since|which|report|images|x ?[234]|healed|in situ|after|cross\\w*|wire)\\b");

    /** "Procedure requested: right leg angiogram." */
    private static final Pattern REQUESTED = Pattern.compile(
            "\\b(?:procedures?|examinations?|tests?|investigations?|services?|treatments?|interventions?) (?:\\w+ )?(?:requested|required|wanted|proposed|planned|needed|sought)(?: by \\w+)? ?[:-][^.;:]*$");

    private ProcedureDone() {}

    static boolean said(Sentence sentence, int start, int end) {
        var plain = sentence.plain;
        if (REQUESTED.matcher(plain.substring(0, start)).find()) {
            return false;
        }
        return WHEN.matcher(plain).find()
                || BEFORE.matcher(plain.substring(0, start)).find()
                || AFTER.matcher(plain.substring(end)).find();
    }
}
