package limbqueue.preparation;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.preparation.NextThing.Group;
import limbqueue.preparation.Readiness.Kind;
import limbqueue.preparation.Readiness.NotReady;
import limbqueue.preparation.Readiness.Obstacle;
import limbqueue.preparation.Readiness.Overridden;
import limbqueue.preparation.Readiness.Ready;
import limbqueue.preparation.Standing.Asked;
import limbqueue.preparation.Standing.Booked;
import limbqueue.preparation.Standing.In;
import limbqueue.preparation.Standing.Wanted;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** The one thing to do next: of two that could be done, the one that stands higher in this list. */
class NextThingTest {

    private static final LocalDate TODAY = Cases.TODAY;
    private static final Instant AT = Instant.parse("2026-03-01T09:00:00Z");

    private static final CaseItem WANTED = item("potassium", new Wanted());
    private static final CaseItem ALSO_WANTED = item("duplex", new Wanted());
    private static final CaseItem CHASED =
            item("inr", new Asked("the surgery", TODAY.minusDays(4), TODAY.minusDays(1)));
    private static final CaseItem DUE = item("duplex", new Asked("the surgery", TODAY.minusDays(4), TODAY));
    private static final CaseItem WAITED_FOR = item("inr", new Asked("the surgery", TODAY, TODAY.plusDays(1)));
    private static final CaseItem BOOKED = item("cta-or-mra", new Booked(TODAY, "here"));
    private static final CaseItem MISSED = item("cta-or-mra", new Booked(TODAY.minusDays(1), "here"));
    private static final CaseItem NOT_TYPED = Cases.item("inr", true, Optional.of(TODAY), new In(TODAY));

    static Stream<Arguments> cases() {
        var ready = new Ready();
        var noDate = new NotReady(List.of(new Obstacle(Kind.NO_DATE, "No date is booked.", "Book.")));
        var noStent = new NotReady(List.of(
                new Obstacle(Kind.WORK_UP, "Item inr: not in.", "Ask."),
                new Obstacle(Kind.STENT_NOT_CONFIRMED, "No stent is confirmed.", "Confirm.")));
        var overridden = new Overridden(List.of(), Cases.override("x"));
        return Stream.of(
                Arguments.of(
                        List.of(WANTED, CHASED, DUE), noDate, Group.CHASE, "Chase: Item inr, asked of the surgery"),
                Arguments.of(List.of(WANTED, DUE), noDate, Group.CHASE, "Chase: Item duplex"),
                Arguments.of(List.of(WANTED, MISSED), noDate, Group.CHASE, "Booked and not in: Item cta-or-mra"),
                Arguments.of(List.of(WANTED, NOT_TYPED), noDate, Group.ASK, "Type in: Item inr"),
                Arguments.of(List.of(WANTED, WAITED_FOR), noDate, Group.ASK, "Ask for: Item potassium"),
                Arguments.of(List.of(WANTED, ALSO_WANTED), noDate, Group.ASK, "Ask for: Item potassium, and 1 more"),
                Arguments.of(List.of(WAITED_FOR), noDate, Group.DATE_AND_STENT, "Book a date and a room"),
                Arguments.of(List.of(WAITED_FOR), noStent, Group.DATE_AND_STENT, "No stent is confirmed."),
                Arguments.of(List.of(BOOKED, WAITED_FOR), ready, Group.WAIT, "Waiting for: Item inr, from the surgery"),
                Arguments.of(List.of(BOOKED), ready, Group.BOOKED, "Item cta-or-mra, here"),
                Arguments.of(List.of(), overridden, Group.READY, "Goes ahead by word of Dr Imogen Tarrant"),
                Arguments.of(List.of(), ready, Group.READY, "Ready for the room"));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void theFirstThatAppliesIsDoneNext(List<CaseItem> items, Readiness readiness, Group group, String what) {
        var next = NextThing.of(prepared(ReferralState.APPROVED, items, readiness, false), TODAY);

        assertThat(next.group()).isEqualTo(group);
        assertThat(next.what()).startsWith(what);
    }

    static Stream<Arguments> states() {
        var notApproved = new NotReady(List.of(new Obstacle(Kind.NOT_APPROVED, "No approval stands.", "Wait.")));
        return Stream.of(
                Arguments.of(ReferralState.QUEUED, List.of(), notApproved, false, Group.PHYSICIAN),
                Arguments.of(ReferralState.QUEUED, List.of(WANTED), notApproved, false, Group.ASK),
                Arguments.of(ReferralState.QUEUED, List.of(WAITED_FOR), notApproved, false, Group.WAIT),
                Arguments.of(ReferralState.INFORMATION_NEEDED, List.of(WAITED_FOR), notApproved, false, Group.ASK),
                Arguments.of(ReferralState.APPROVED, List.of(WANTED), notApproved, true, Group.IN_ROOM));
    }

    @ParameterizedTest
    @MethodSource("states")
    void whereTheReferralStandsCounts(
            ReferralState state, List<CaseItem> items, Readiness readiness, boolean inRoom, Group group) {
        assertThat(NextThing.of(prepared(state, items, readiness, inRoom), TODAY)
                        .group())
                .isEqualTo(group);
    }

    private static CaseItem item(String code, Standing standing) {
        return Cases.item(code, true, Optional.empty(), standing);
    }

    private static PreparationCase prepared(
            ReferralState state, List<CaseItem> items, Readiness readiness, boolean inRoom) {
        var document = Draft.empty().read(TODAY).document();
        return new PreparationCase(
                new ProposedCase(
                        new Referral(1, 1, "D-1", state, TODAY, "{}", "Wren Halloway", AT, Optional.of(AT)),
                        document,
                        Triage.triage(document, Policy.standard(), TODAY),
                        Optional.empty(),
                        Optional.empty()),
                List.of(),
                items,
                inRoom
                        ? Optional.of(new ProcedureBooking(
                                1,
                                2,
                                LocalDateTime.of(2026, 3, 2, 8, 0),
                                "Room 2",
                                Optional.of(AT),
                                Optional.of("Wren Halloway"),
                                "Wren Halloway",
                                AT))
                        : Optional.empty(),
                List.of(),
                List.of(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                readiness);
    }
}
