package limbqueue.reading;

/** How names of people are written, as pieces of patterns. */
final class Person {

    private static final String LETTER = "[a-z\u00c0-\u024f]";

    /** A first name or a surname: Anwen, O'Dell, Oyelaran-Fisk. */
    static final String PART =
            "(?:(?:Mc|Mac|O['\u2019]|D['\u2019])?[A-Z]" + LETTER + "+(?:['\u2019-][A-Z]?" + LETTER + "{1,30}+){0,3})";

    static final String INITIAL = "(?:[A-Z]\\.?)";

    /** The title of a doctor or nurse. */
    static final String TITLE =
            "(?:[Dd]r|DR|Doctor|Prof(?:essor)?|Staff Nurse|Sister|Nurse(?![ \\t]+(?:Practitioner|Specialist|Consultant|Manager|Lead|Clinician))|Sr|Matron)\\b\\.?";

    /** The title of a surgeon, or of anybody. */
    static final String PLAIN_TITLE = "(?:Mr|Mrs|Ms|Miss|Mx)\\b\\.?";

    /** First names or initials, and a surname. */
    static final String NAME =
            "(?<![A-Za-z.])(?!(?:Consulting|Attending|Ordering|Referring|Requesting|Primary|Supervising|Treating|Accepting|Admitting|Authorizing|Signed|Dictated|Electronically)\\b)(?:"
                    + PART + "|(?:[A-Z]\\.){2,3}|" + INITIAL + ")(?:[ \\t](?!Fax|Tel|Phone|Date|Dear|Ref\\b)(?:" + PART
                    + "|" + INITIAL + "(?![A-Za-z]))){0,3}";

    private static final String CAPITALS = "[A-Z][A-Z'\u2019-]{2,20}(?![a-z])";

    /** A name whose surname, or all of it, is in capitals: "V. QUIST", "VERA QUIST". */
    static final String NAME_IN_CAPITALS = "(?:(?:(?:" + INITIAL + "[ \\t]+){1,3}|" + PART + "[ \\t]+)?" + CAPITALS
            + "(?![ \\t]+[A-Z])|" + CAPITALS + "[ \\t]+" + CAPITALS + "(?=[ \\t]*(?:,|$)))";

    private static final String ONE_DEGREE =
            "(?:M\\.?D\\.?|D\\.?O\\.?|N\\.?P\\.?|P\\.?A\\.?(?:-C)?|R\\.?N\\.?|F?NP(?:-C|-BC)?|APRN|CNM|DPM|MBBS|MBChB|MBBCh|MB[ ]?BCh|MBBChir|BMBS|MD,? CCFP|CCFP|CFNP|FRCEM|FRCS|FRCP|MRCP"
                    + "|MRCGP|CNP|CRNP|ARNP|DNP|PhD|BSc|RVT|RVS|CWS|CWOCN|LPN|MPH|MSN|BSN|MSc|MRCS|FRCGP|FRCPE|FRCSI|FRCR|FRACGP|FRACS|FACS|FACP|FACC|FACE|FACEP|FASN|FAAFP|FACFAS|F\\.A\\.C\\.[CSP]\\.?|TVN|RGN)\\b\\.?";

    /** Degrees behind a name: "MD, FACS". */
    static final String DEGREES = ",?[ \\t]+" + ONE_DEGREE + "(?:,?[ \\t]+" + ONE_DEGREE + "){0,5}";

    /** What somebody is, behind the name or under it. */
    static final String ROLE =
            "(?:(?:senior|nurse|primary|practice|staff|district|community|clinical|consultant|vascular|general|specialist|advanced|lead|charge|specialty"
                    + "|family|tissue|viability|orthopaedic|locum|foot|wound|care)[ -])*"
                    + "(?:surgeon|physician|nurse|podiatrist|chiropodist|practitioner|registrar|scientist|sonographer|technologist|carer"
                    + "|specialist|partner|gp|consultant|therapist|radiologist|resident|manager|matron|secretary)s?";

    private Person() {}
}
