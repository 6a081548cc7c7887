package limbqueue.practice;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import limbqueue.document.PolicyFormat;
import limbqueue.practice.jdbc.PolicyStore;
import limbqueue.practice.jdbc.PolicyStore.Kept;
import limbqueue.triage.Policy;
import org.springframework.stereotype.Component;

/** The policy that counts today, for the application itself; people ask {@link Policies}. */
@Component
public class PolicyInForce {

    private final PolicyStore store;
    private final Clock clock;

    /** Policies by their text, since every proposal asks for one. */
    private final Map<String, Policy> read = new ConcurrentHashMap<>();

    PolicyInForce(PolicyStore store, Clock clock) {
        this.store = store;
        this.clock = clock;
    }

    /** The latest version whose first day has come. */
    public PolicyVersion version() {
        return on(today());
    }

    /** The version that counts on {@code day}, as far as versions are published by now. */
    public PolicyVersion on(LocalDate day) {
        return version(store.inForceOn(day));
    }

    /** The version with this id, in force or not. */
    public Optional<PolicyVersion> find(String policyId) {
        return store.find(policyId).map(this::version);
    }

    PolicyVersion version(Kept kept) {
        return new PolicyVersion(
                kept.version(),
                read.computeIfAbsent(kept.content(), PolicyInForce::policy),
                kept.validFrom(),
                kept.who(),
                kept.reason(),
                kept.secondLook(),
                kept.at());
    }

    LocalDate today() {
        return LocalDate.now(clock);
    }

    private static Policy policy(String content) {
        var reading = PolicyFormat.parse(new ByteArrayInputStream(content.getBytes(StandardCharsets.UTF_8)));
        return reading.policy()
                .orElseThrow(() -> new IllegalStateException("a policy kept cannot be read: " + reading.problems()));
    }
}
