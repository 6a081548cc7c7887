package limbqueue.triage.finding;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Predicate;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.grade.LegTopics;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Fact;
import limbqueue.triage.question.Topic;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * What earlier treatment and lesions say of a leg. Where no side is recorded, both legs are concerned. A size or a degree
 * of narrowing that is not known is acted on as the most serious; an event that nobody mentions is not invented.
 *
 * @param largePoplitealAneurysm a popliteal aneurysm large enough to be dealt with
 * @param earlierRepairOccluded an earlier stent or bypass of this leg is occluded
 * @param abandonedProcedure an earlier procedure on this leg was incomplete or failed
 */
public record Background(
        Fact<Boolean> largePoplitealAneurysm, Fact<Boolean> earlierRepairOccluded, Fact<Boolean> abandonedProcedure) {

    public List<Fact<Boolean>> facts() {
        return List.of(largePoplitealAneurysm, earlierRepairOccluded, abandonedProcedure);
    }

    public static Background of(Side side, ReferralDocument document, Limits limits) {
        var leg = document.legs().of(side);
        var footGone =
                leg.amputation().map(ReferralDocument.Amputation::aboveAnkle).orElse(false);
        var words = side.leg();
        return new Background(
                settledWithoutFoot(largePoplitealAneurysm(side, document, limits, words), footGone),
                settledWithoutFoot(earlierRepairOccluded(side, document, words), footGone),
                settledWithoutFoot(abandonedProcedure(side, document, words), footGone));
    }

    /** About a leg without a foot nothing is asked. */
    private static Fact<Boolean> settledWithoutFoot(Fact<Boolean> fact, boolean footGone) {
        return footGone && !fact.known() ? Fact.known(fact.topic(), false) : fact;
    }

    private static Fact<Boolean> largePoplitealAneurysm(
            Side side, ReferralDocument document, Limits limits, String words) {
        var lesions = document.lesions().orElse(List.of());
        Predicate<Lesion> here = lesion -> poplitealAneurysm(lesion) && Case.concerns(lesion.side(), side);
        Predicate<Lesion> large = lesion -> lesion.diameterMm()
                .map(diameter -> diameter.value() >= limits.of(Limit.POPLITEAL_ANEURYSM_AT_LEAST))
                .orElse(false);
        if (Entries.any(lesions, here.and(large))) {
            return Fact.known(LegTopics.LARGE_POPLITEAL_ANEURYSM, true);
        }
        var unmeasured = first(lesions, here.and(lesion -> lesion.diameterMm().isEmpty()));
        if (unmeasured.isPresent()) {
            return mostSerious(
                    LegTopics.LARGE_POPLITEAL_ANEURYSM,
                    "lesions[" + unmeasured.getAsInt() + "].diameterMm",
                    "How many millimetres wide is the popliteal aneurysm of the " + words + "?");
        }
        if (Entries.any(lesions, Background::poplitealAneurysm)) {
            return Fact.known(LegTopics.LARGE_POPLITEAL_ANEURYSM, false);
        }
        var history = document.history().poplitealAneurysm();
        return history.orElse(false)
                ? mostSerious(
                        LegTopics.LARGE_POPLITEAL_ANEURYSM,
                        "lesions",
                        "Behind which knee is the popliteal aneurysm, and how wide is it?")
                : Fact.yesOrNo(
                        LegTopics.LARGE_POPLITEAL_ANEURYSM,
                        "history.poplitealAneurysm",
                        history,
                        "Is an aneurysm behind a knee known?");
    }

    private static boolean poplitealAneurysm(Lesion lesion) {
        return lesion.aneurysm().orElse(false) && lesion.segment().equals(Optional.of(Segment.POPLITEAL));
    }

    private static Fact<Boolean> earlierRepairOccluded(Side side, ReferralDocument document, String words) {
        var lesions = document.lesions().orElse(List.of());
        Predicate<Lesion> inStent = lesion -> lesion.inStent().orElse(false) && Case.concerns(lesion.side(), side);
        Predicate<Lesion> closed = lesion ->
                lesion.stenosisPercent().map(percent -> percent.value() >= 100).orElse(false);
        var occluded = Entries.any(lesions, inStent.and(closed))
                || Entries.any(
                        document.procedures().orElse(List.of()),
                        procedure -> Case.concerns(procedure.side(), side) && bypassOccluded(procedure));
        if (occluded) {
            return Fact.known(LegTopics.EARLIER_REPAIR_OCCLUDED, true);
        }
        var unmeasured =
                first(lesions, inStent.and(lesion -> lesion.stenosisPercent().isEmpty()));
        return unmeasured.isPresent()
                ? mostSerious(
                        LegTopics.EARLIER_REPAIR_OCCLUDED,
                        "lesions[" + unmeasured.getAsInt() + "].stenosisPercent",
                        "Is the earlier stent of the " + words + " still open?")
                : Fact.known(LegTopics.EARLIER_REPAIR_OCCLUDED, false);
    }

    private static boolean bypassOccluded(Procedure procedure) {
        return procedure.kind().equals(Optional.of(ProcedureKind.BYPASS))
                && procedure.complication().equals(Optional.of(Complication.THROMBOSIS));
    }

    private static Fact<Boolean> abandonedProcedure(Side side, ReferralDocument document, String words) {
        if (document.procedures().isEmpty()) {
            return Fact.yesOrNo(
                    LegTopics.ABANDONED_PROCEDURE,
                    "procedures",
                    Optional.empty(),
                    "Was a procedure on the arteries of the " + words
                            + " ever begun and broken off, or without success?");
        }
        var procedures = document.procedures().get();
        Predicate<Procedure> here = procedure -> Case.concerns(procedure.side(), side);
        if (Entries.any(procedures, here.and(Background::abandoned))) {
            return Fact.known(LegTopics.ABANDONED_PROCEDURE, true);
        }
        var untold = first(
                procedures, here.and(procedure -> procedure.outcome().orElse(Outcome.UNKNOWN) == Outcome.UNKNOWN));
        return untold.isPresent()
                ? Fact.yesOrNo(
                        LegTopics.ABANDONED_PROCEDURE,
                        "procedures[" + untold.getAsInt() + "].outcome",
                        Optional.empty(),
                        "Was the earlier procedure on the " + words + " completed, broken off, or without success?")
                : Fact.known(LegTopics.ABANDONED_PROCEDURE, false);
    }

    private static boolean abandoned(Procedure procedure) {
        return procedure
                .outcome()
                .map(outcome -> outcome == Outcome.INCOMPLETE || outcome == Outcome.FAILED)
                .orElse(false);
    }

    private static <T> OptionalInt first(List<T> entries, Predicate<T> condition) {
        for (var i = 0; i < entries.size(); i++) {
            if (condition.test(entries.get(i))) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    private static Fact<Boolean> mostSerious(Topic<Boolean> topic, String path, String ask) {
        return Fact.of(topic, path, Optional.empty(), true, topic.answers(), ask);
    }
}
