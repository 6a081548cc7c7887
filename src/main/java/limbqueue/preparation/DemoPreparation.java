package limbqueue.preparation;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import limbqueue.access.ActingAs;
import limbqueue.practice.DemoRequested;
import limbqueue.referral.Decision;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.Referrals;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Fills the demo's stock of covered stents and begins a few of its cases, as {@code preparation.json} tells. */
@Component
class DemoPreparation {

    private static final String FILE = "preparation.json";

    /** As the file gives it; days count from the day of loading. */
    record DemoFile(List<Stent> coveredStents, List<DemoCase> cases) {}

    record Stent(
            double diameterMm,
            double lengthMm,
            int sheathFrench,
            int expiresInDays,
            String lot,
            String where,
            int count) {}

    /** @param approve whether a physician approves it first */
    record DemoCase(
            String reference,
            Optional<Boolean> approve,
            int procedureInDays,
            LocalTime at,
            String room,
            List<DemoItem> items) {}

    /** Asked for, booked or in: one of the three is given. */
    record DemoItem(
            String code,
            Optional<String> askedOf,
            Optional<Integer> askedDaysAgo,
            Optional<Integer> chaseInDays,
            Optional<Integer> bookedInDays,
            Optional<String> where,
            Optional<Integer> cameDaysAgo) {

        Standing standing(LocalDate today) {
            if (askedOf.isPresent()) {
                return new Standing.Asked(
                        askedOf.get(), today.minusDays(askedDaysAgo.orElse(0)), today.plusDays(chaseInDays.orElse(0)));
            }
            return bookedInDays
                    .<Standing>map(days -> new Standing.Booked(today.plusDays(days), where.orElse("")))
                    .orElseGet(() -> new Standing.In(today.minusDays(cameDaysAgo.orElse(0))));
        }
    }

    private final Preparation preparation;
    private final StentStock stock;
    private final Referrals referrals;
    private final ActingAs actingAs;
    private final JsonMapper json;

    DemoPreparation(
            Preparation preparation, StentStock stock, Referrals referrals, ActingAs actingAs, JsonMapper json) {
        this.preparation = preparation;
        this.stock = stock;
        this.referrals = referrals;
        this.actingAs = actingAs;
        this.json = json;
    }

    /** After the referrals are there. */
    @EventListener
    @Order(2)
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(DemoRequested demo) {
        demo.read(FILE, DemoFile.class, json).ifPresent(given -> {
            given.coveredStents().forEach(this::add);
            var lines = referrals.worklist();
            given.cases().forEach(one -> begin(one, lines, demo.physician()));
        });
    }

    private void add(Stent stent) {
        done(
                stock.add(
                        stent.diameterMm(),
                        stent.lengthMm(),
                        stent.sheathFrench(),
                        preparation.today().plusDays(stent.expiresInDays()),
                        stent.lot(),
                        stent.where(),
                        stent.count()),
                stent.lot());
    }

    private void begin(DemoCase one, List<ReferralLine> lines, String physician) {
        var id = lines.stream()
                .filter(line -> line.reference().equals(one.reference()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(FILE + " names no referral: " + one.reference()))
                .id();
        if (one.approve().orElse(false)) {
            actingAs.person(
                    physician, () -> referrals.decide(id, referrals.get(id).version(), new Decision.Approve()));
        }
        var today = preparation.today();
        done(
                preparation.book(id, 0, today.plusDays(one.procedureInDays()).atTime(one.at()), one.room()),
                one.reference());
        one.items()
                .forEach(item -> done(
                        preparation.track(id, item.code(), 0, item.standing(today)),
                        one.reference() + ", " + item.code()));
    }

    private static void done(PreparationOutcome outcome, String what) {
        if (!(outcome instanceof PreparationOutcome.Done)) {
            throw new IllegalArgumentException(FILE + ": " + what + ": " + outcome);
        }
    }
}
