package limbqueue.referral;

/** Referral documents for tests, as text. All people in them are invented. */
public final class Arriving {

    /** Rest pain with a poor pressure in the left leg; everything that must be right is. */
    public static final String REST_PAIN = """
            {"received": "2026-01-12",
             "patient": {"given": "Zoë", "family": "Ångström-Łuczak", "born": "1951-05-03"},
             "referrer": {"name": "Dr Ines Farrow", "organisation": "Millbeck Surgery", "address": "12 Tannery Row, Millbeck"},
             "armPressures": {"left": 140, "right": 138},
             "legs": {"left": {"restPain": {"present": true, "sinceDays": 40}, "acute": {"present": false},
                               "pressures": {"dorsalisPedis": 46, "posteriorTibial": 40, "toe": 22}},
                      "right": {"claudication": {"present": false}, "restPain": {"present": false},
                                "wound": {"ulcer": "none", "gangrene": "none"}, "acute": {"present": false},
                                "pressures": {"dorsalisPedis": 132, "posteriorTibial": 130}}}}""";

    /** A leg that suddenly went cold and numb. */
    public static final String SUDDEN = """
            {"patient": {"given": "Bram", "family": "Tolliver", "born": "1944-11-20"},
             "legs": {"right": {"acute": {"present": true, "sensory": "beyondToes", "motor": "mild", "pain": true, "cold": true}}}}""";

    /** An index that cannot be right. */
    public static final String IMPOSSIBLE = """
            {"patient": {"family": "Quill"}, "legs": {"left": {"abi": 57}}}""";

    private Arriving() {}
}
