package limbqueue.chasing;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.document.Draft;
import limbqueue.practice.DemoRequested;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.Referrals;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Asks for records and notes calls for a few of the demo's referrals, as {@code chasing.json} tells. */
@Component
class DemoChasing {

    private static final String FILE = "chasing.json";

    /** As the file gives it; days count from the day of loading. */
    record DemoFile(List<DemoRequest> requests, List<DemoCall> calls) {}

    /** Asks for the first record that is missing. */
    record DemoRequest(
            String reference, int askedDaysAgo, int dueInDays, String address, boolean report, boolean images) {}

    /** @param outcome of a safety call */
    record DemoCall(String reference, Optional<Outcome> outcome, int daysAgo, String spokeWith, String said) {}

    private final Chasing chasing;
    private final Referrals referrals;
    private final JsonMapper json;

    DemoChasing(Chasing chasing, Referrals referrals, JsonMapper json) {
        this.chasing = chasing;
        this.referrals = referrals;
        this.json = json;
    }

    /** After the referrals and their preparation are there. */
    @EventListener
    @Order(3)
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(DemoRequested demo) {
        demo.read(FILE, DemoFile.class, json).ifPresent(given -> {
            var ids =
                    referrals.worklist().stream().collect(Collectors.toMap(ReferralLine::reference, ReferralLine::id));
            given.requests().forEach(request -> ask(request, id(ids, request.reference())));
            given.calls().forEach(call -> note(call, id(ids, call.reference())));
        });
    }

    private static long id(Map<String, Long> ids, String reference) {
        return Optional.ofNullable(ids.get(reference))
                .orElseThrow(() -> new IllegalArgumentException(FILE + " names no referral: " + reference));
    }

    private void ask(DemoRequest request, long id) {
        var today = chasing.today();
        var document = Draft.of(referrals.get(id).document()).read(today).document();
        var record = OutsideRecord.missing(document).stream()
                .findFirst()
                .orElseThrow(
                        () -> new IllegalArgumentException(FILE + ": nothing is missing in " + request.reference()));
        done(
                chasing.request(
                        id,
                        record.hospital(),
                        request.address(),
                        record.about(),
                        Optional.of(record.entry()),
                        request.report(),
                        request.images(),
                        today.minusDays(request.askedDaysAgo()),
                        today.plusDays(request.dueInDays())),
                request.reference());
    }

    private void note(DemoCall call, long id) {
        done(
                chasing.noteCall(
                        id,
                        call.outcome().isPresent() ? Kind.SAFETY : Kind.OTHER,
                        Optional.empty(),
                        call.outcome(),
                        chasing.today().minusDays(call.daysAgo()),
                        call.spokeWith(),
                        call.said(),
                        Optional.empty()),
                call.reference());
    }

    private static void done(ChasingOutcome outcome, String what) {
        if (!(outcome instanceof ChasingOutcome.Done)) {
            throw new IllegalArgumentException(FILE + ": " + what + ": " + outcome);
        }
    }
}
