package limbqueue.referral.ui;

import java.util.List;

/** The place on the form of one value of the document. */
interface Place {

    String path();

    /** Shows at this place what is wrong with its value, and what does not go together with it. */
    void tell(List<String> problems, List<String> contradictions);

    /** Brings the place into sight and puts the cursor there. */
    void goTo();
}
