package limbqueue.preparation;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.preparation.Readiness.Kind;
import limbqueue.preparation.Readiness.NotReady;
import limbqueue.preparation.Readiness.Obstacle;
import limbqueue.preparation.Readiness.Overridden;
import limbqueue.preparation.Readiness.Ready;
import limbqueue.preparation.Standing.Asked;
import limbqueue.preparation.Standing.Booked;
import limbqueue.preparation.Standing.In;
import limbqueue.preparation.Standing.NotNeeded;
import limbqueue.preparation.Standing.Wanted;
import limbqueue.referral.ReferralState;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Who;
import limbqueue.triage.TriageResult.WorkUpItem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The gate to the room: what keeps a case out of it. Common practice, no source. */
class ReadinessGateTest {

    private static final LocalDateTime STARTS = LocalDateTime.of(2026, 3, 9, 8, 30);
    private static final String OCCLUSION =
            "segment=externalIliac side=left stenosisPercent=100 lengthMm=40 diameterMm=8";

    /** What is known of the stent of a left external iliac occlusion 8 mm wide and 40 mm long, and what is missing. */
    static Stream<Arguments> stents() {
        var fits = Cases.stent(1, 8, 58, "2026-03-09", 1, 0);
        var promised = Cases.stent(2, 8, 58, "2027-01-01", 1, 1);
        var narrow = Cases.stent(3, 7, 58, "2027-01-01", 1, 0);
        var wide = Cases.stent(4, 10, 58, "2027-01-01", 1, 0);
        var brief = Cases.stent(5, 8, 38, "2027-01-01", 1, 0);
        var expired = Cases.stent(6, 8, 58, "2026-03-08", 1, 0);
        var gone = Cases.stent(7, 8, 58, "2027-01-01", 0, 0);
        return Stream.of(
                Arguments.of("confirmed", OCCLUSION, List.of(fits), Optional.of(fits), Optional.empty()),
                Arguments.of(
                        "in stock", OCCLUSION, List.of(fits), Optional.empty(), Optional.of(Kind.STENT_NOT_CONFIRMED)),
                Arguments.of("no stock", OCCLUSION, List.of(), Optional.empty(), Optional.of(Kind.NO_STENT_IN_STOCK)),
                Arguments.of(
                        "only others' or others",
                        OCCLUSION,
                        List.of(promised, narrow, wide, brief, expired, gone),
                        Optional.empty(),
                        Optional.of(Kind.NO_STENT_IN_STOCK)),
                Arguments.of(
                        "too narrow",
                        OCCLUSION,
                        List.of(narrow),
                        Optional.of(narrow),
                        Optional.of(Kind.STENT_DOES_NOT_FIT)),
                Arguments.of(
                        "too wide", OCCLUSION, List.of(wide), Optional.of(wide), Optional.of(Kind.STENT_DOES_NOT_FIT)),
                Arguments.of(
                        "too short",
                        OCCLUSION,
                        List.of(brief),
                        Optional.of(brief),
                        Optional.of(Kind.STENT_DOES_NOT_FIT)),
                Arguments.of(
                        "expired the day before",
                        OCCLUSION,
                        List.of(expired),
                        Optional.of(expired),
                        Optional.of(Kind.STENT_EXPIRED)),
                Arguments.of("used up", OCCLUSION, List.of(gone), Optional.of(gone), Optional.of(Kind.STENT_USED_UP)),
                Arguments.of(
                        "vessel not measured",
                        OCCLUSION.replace(" diameterMm=8", ""),
                        List.of(fits),
                        Optional.of(fits),
                        Optional.of(Kind.DIAMETER_NOT_KNOWN)),
                Arguments.of(
                        "side not said",
                        OCCLUSION.replace(" side=left", ""),
                        List.of(fits),
                        Optional.empty(),
                        Optional.of(Kind.SIDE_NOT_KNOWN)),
                Arguments.of(
                        "not an occlusion and not calcified",
                        OCCLUSION.replace("=100", "=70 calcification=none"),
                        List.of(),
                        Optional.empty(),
                        Optional.empty()));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("stents")
    void aCaseWaitsForItsCoveredStent(
            String name,
            String lesion,
            List<CoveredStent> stock,
            Optional<CoveredStent> confirmed,
            Optional<Kind> obstacle) {
        var readiness = ReadinessGate.readiness(
                ReferralState.APPROVED,
                Optional.of(STARTS),
                List.of(),
                Cases.needs(lesion),
                confirmed.stream()
                        .map(stent -> Cases.confirmed(Side.LEFT, Segment.EXTERNAL_ILIAC, stent))
                        .toList(),
                stock,
                Optional.empty());

        assertThat(readiness.obstacles())
                .extracting(Obstacle::kind)
                .isEqualTo(obstacle.stream().toList());
        assertThat(readiness.open()).isEqualTo(obstacle.isEmpty());
        assertThat(readiness.obstacles())
                .allSatisfy(reason -> assertThat(reason.remedy()).endsWith("."));
    }

    @Test
    void aStentConfirmedForTheOtherLegDoesNotCount() {
        var fits = Cases.stent(1, 8, 58, "2027-01-01", 1, 1);

        assertThat(ReadinessGate.readiness(
                                ReferralState.APPROVED,
                                Optional.of(STARTS),
                                List.of(),
                                Cases.needs(OCCLUSION),
                                List.of(
                                        Cases.confirmed(Side.RIGHT, Segment.EXTERNAL_ILIAC, fits),
                                        Cases.confirmed(Side.LEFT, Segment.COMMON_ILIAC, fits)),
                                List.of(fits),
                                Optional.empty())
                        .open())
                .isFalse();
    }

    @Test
    void whatNobodyHasSaidIsSaidBesideTheReason() {
        var readiness = ReadinessGate.readiness(
                ReferralState.APPROVED,
                Optional.of(STARTS),
                List.of(),
                Cases.needs("segment=commonIliac side=right stenosisPercent=80 diameterMm=9"),
                List.of(),
                List.of(),
                Optional.empty());

        assertThat(readiness.obstacles().getFirst().what())
                .isEqualTo(
                        "No covered stent in stock fits the right common iliac artery (9 to 10 mm wide, at least 50 mm"
                                + " long). Nobody has said whether it is calcified; that counts as the worse.");
    }

    static Stream<Arguments> items() {
        var before = LocalDate.of(2026, 3, 8);
        return Stream.of(
                Arguments.of("wanted", "kidney-function", true, Optional.empty(), new Wanted(), true),
                Arguments.of(
                        "asked for",
                        "kidney-function",
                        true,
                        Optional.empty(),
                        new Asked("the surgery", Cases.TODAY, Cases.TODAY),
                        true),
                Arguments.of("booked", "duplex", true, Optional.empty(), new Booked(Cases.TODAY, "here"), true),
                Arguments.of("in", "outside-report", true, Optional.empty(), new In(Cases.TODAY), false),
                Arguments.of(
                        "in, and an older one typed in",
                        "kidney-function",
                        true,
                        Optional.of(before),
                        new In(Cases.TODAY),
                        true),
                Arguments.of("not needed", "potassium", true, Optional.empty(), new NotNeeded("Known."), false),
                Arguments.of("held", "potassium", false, Optional.of(STARTS.toLocalDate()), new Wanted(), false),
                Arguments.of("no room waits for it", "statin", true, Optional.empty(), new Wanted(), false),
                Arguments.of("no room waits for it", "antiplatelet", true, Optional.empty(), new Wanted(), false),
                Arguments.of("no room waits for it", "smoking", true, Optional.empty(), new Wanted(), false),
                Arguments.of("no room waits for it", "exercise-therapy", true, Optional.empty(), new Wanted(), false),
                Arguments.of("no room waits for it", "hba1c", true, Optional.empty(), new Wanted(), false),
                Arguments.of(
                        "seen to by the stent", "covered-stent-stock", true, Optional.empty(), new Wanted(), false));
    }

    @ParameterizedTest(name = "{1} {0}")
    @MethodSource("items")
    void aCaseWaitsForItsWorkUp(
            String name, String code, boolean needed, Optional<LocalDate> validUntil, Standing standing, boolean red) {
        var readiness = with(ReferralState.APPROVED, Cases.item(code, needed, validUntil, standing));

        assertThat(readiness.obstacles()).extracting(Obstacle::kind).isEqualTo(red ? List.of(Kind.WORK_UP) : List.of());
    }

    @ParameterizedTest
    @CsvSource({"2026-03-08, true", "2026-03-09, false", "2026-03-10, false"})
    void aResultCountsToItsLastDay(LocalDate validUntil, boolean needed) {
        var proposed = new WorkUpItem(
                "potassium",
                "Potassium. The one held counts until then",
                "Why.",
                !needed,
                Optional.of(validUntil),
                "source",
                Who.LABORATORY,
                Optional.empty(),
                false,
                List.of(),
                List.of());

        assertThat(CaseItem.of(proposed, Optional.empty(), Optional.of(STARTS.toLocalDate()))
                        .needed())
                .isEqualTo(needed);
        assertThat(CaseItem.of(proposed, Optional.empty(), Optional.empty()).needed())
                .as("no date: as proposed")
                .isEqualTo(!needed);
        assertThat(CaseItem.of(proposed, Optional.empty(), Optional.empty()).what())
                .as("its name alone; how long what is held counts is said beside it")
                .isEqualTo("Potassium");
    }

    @ParameterizedTest
    @EnumSource(ReferralState.class)
    void withoutAnApprovalNothingGoesToTheRoom(ReferralState state) {
        var readiness = with(state);

        assertThat(readiness).isInstanceOf(state == ReferralState.APPROVED ? Ready.class : NotReady.class);
        assertThat(ReadinessGate.overridable(readiness.obstacles())).isEqualTo(state == ReferralState.APPROVED);
    }

    @Test
    void withoutADateNothingGoesToTheRoomNotEvenByOverride() {
        var open = ReadinessGate.readiness(
                ReferralState.APPROVED, Optional.empty(), List.of(), List.of(), List.of(), List.of(), Optional.empty());
        var given = Cases.override(ReadinessGate.facts(open.obstacles(), Optional.empty()));

        assertThat(open.obstacles()).extracting(Obstacle::kind).containsExactly(Kind.NO_DATE);
        assertThat(ReadinessGate.readiness(
                        ReferralState.APPROVED,
                        Optional.empty(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        Optional.of(given)))
                .isInstanceOf(NotReady.class);
    }

    @Test
    void anOverrideHoldsForTheFactsItWasGivenForAndFallsWithThem() {
        var wanted = Cases.item("potassium", true, Optional.empty(), new Wanted());
        var another = Cases.item("duplex", true, Optional.empty(), new Wanted());
        var given = Cases.override(
                ReadinessGate.facts(with(ReferralState.APPROVED, wanted).obstacles(), Optional.of(STARTS)));

        assertThat(overridden(given, STARTS, wanted)).isInstanceOf(Overridden.class);
        assertThat(overridden(given, STARTS, wanted).open()).isTrue();
        assertThat(overridden(given, STARTS, wanted, another))
                .as("one more reason")
                .isInstanceOf(NotReady.class);
        assertThat(overridden(given, STARTS, another)).as("another reason").isInstanceOf(NotReady.class);
        assertThat(overridden(given, STARTS.plusDays(1), wanted))
                .as("another day")
                .isInstanceOf(NotReady.class);
        assertThat(overridden(given, STARTS)).as("nothing left to override").isInstanceOf(Ready.class);
    }

    private static Readiness overridden(ReadinessOverride given, LocalDateTime starts, CaseItem... items) {
        return ReadinessGate.readiness(
                ReferralState.APPROVED,
                Optional.of(starts),
                List.of(items),
                List.of(),
                List.of(),
                List.of(),
                Optional.of(given));
    }

    private static Readiness with(ReferralState state, CaseItem... items) {
        return ReadinessGate.readiness(
                state, Optional.of(STARTS), List.of(items), List.of(), List.of(), List.of(), Optional.empty());
    }
}
