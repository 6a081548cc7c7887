package limbqueue.policy;

import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.policy.PolicyPreview.Line;
import limbqueue.policy.PolicyPreview.WorkUp;
import limbqueue.practice.Policies;
import limbqueue.referral.Placing;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument.Patient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What a policy would move before it is published. Approved referrals keep the tier and the date that were decided. */
@Service
public class PolicyPreviews {

    private static final Comparator<Line> MOVING_FIRST = Comparator.comparing((Line line) -> !line.moves())
            .thenComparing(line -> !line.workUpChanges())
            .thenComparing(line -> line.after().tier())
            .thenComparing(line -> line.after().targetDate().orElse(LocalDate.MAX))
            .thenComparing(Line::id);

    private final ProposedCases cases;
    private final Policies policies;

    PolicyPreviews(ProposedCases cases, Policies policies) {
        this.cases = cases;
        this.policies = policies;
    }

    /** What {@code policy} does to every referral that is still to be decided, on the day from which it counts. */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional(readOnly = true)
    public PolicyPreview of(Policy policy, LocalDate validFrom) {
        var without = policies.on(validFrom).policy();
        var before = cases.open(without, validFrom).stream()
                .collect(Collectors.toMap(open -> open.referral().id(), Function.identity()));
        var lines = new ArrayList<Line>();
        for (var after : cases.open(policy, validFrom)) {
            // One that was submitted or decided between the two readings is in the next preview.
            Optional.ofNullable(before.get(after.referral().id())).ifPresent(known -> lines.add(line(known, after)));
        }
        lines.sort(MOVING_FIRST);
        return new PolicyPreview(validFrom, without.id(), lines);
    }

    private static Line line(ProposedCase before, ProposedCase after) {
        return new Line(
                after.referral().id(),
                after.referral().reference(),
                name(after.document().patient()),
                after.referral().state(),
                Placing.of(before.proposal()),
                Placing.of(after.proposal()),
                WorkUp.of(before.proposal()),
                WorkUp.of(after.proposal()));
    }

    private static String name(Patient patient) {
        return String.join(
                ", ",
                Stream.of(patient.family(), patient.given())
                        .flatMap(Optional::stream)
                        .filter(part -> !part.isBlank())
                        .toList());
    }
}
