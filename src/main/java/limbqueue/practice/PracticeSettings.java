package limbqueue.practice;

import limbqueue.triage.Policy;
import org.springframework.stereotype.Service;

/** What the practice has set for itself. */
@Service
public class PracticeSettings {

    public Practice practice() {
        throw new IllegalStateException("being built");
    }

    /** The policy in force. */
    public Policy policy() {
        return Policy.standard();
    }
}
