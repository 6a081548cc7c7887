package limbqueue.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import limbqueue.triage.Tier;
import limbqueue.triage.urgency.LegUrgency.Rule;
import org.drools.model.codegen.ExecutableModelProject;
import org.kie.api.io.ResourceType;
import org.kie.api.runtime.KieSession;
import org.kie.internal.utils.KieHelper;

/** The rules of urgency written for Drools: compiled once, in one session that is used for referral after referral. */
final class DroolsUrgency implements AutoCloseable {

    /** The rule that calls for the tier of each leg. */
    record Concluded(Rule left, Rule right) {
        Tier tier() {
            return left.tier().orMoreUrgent(right.tier());
        }
    }

    private static final Path RULES = Path.of("src/bench/urgency.drl");

    private final KieSession session;

    DroolsUrgency() {
        try {
            session = new KieHelper()
                    .addContent(Files.readString(RULES), ResourceType.DRL)
                    .build(ExecutableModelProject.class)
                    .newKieSession();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What the rules conclude of a referral. The session holds nothing before and nothing after. */
    Concluded conclude(UrgencyLeg left, UrgencyLeg right) {
        session.insert(left);
        session.insert(right);
        session.fireAllRules();
        return new Concluded(left.takeConclusion(), right.takeConclusion());
    }

    /** How many facts the session holds. */
    long held() {
        return session.getFactCount();
    }

    @Override
    public void close() {
        session.dispose();
    }
}
