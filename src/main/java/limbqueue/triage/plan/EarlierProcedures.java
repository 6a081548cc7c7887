package limbqueue.triage.plan;

import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.ProcedurePlan.Place;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.ReferralDocument.Outcome;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.ReferralDocument.ProcedureKind;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.finding.Case;

/** What earlier procedures mean for the way in. */
final class EarlierProcedures {

    private static final Set<Segment> ABOVE_GROIN =
            EnumSet.of(Segment.INFRARENAL_AORTA, Segment.COMMON_ILIAC, Segment.EXTERNAL_ILIAC, Segment.INTERNAL_ILIAC);

    /** What can have happened where the sheath went in. */
    private static final Set<Complication> AT_THE_PUNCTURE =
            EnumSet.of(Complication.BLEEDING, Complication.THROMBOSIS, Complication.DISSECTION, Complication.OTHER);

    /** Common practice: words by which a site is named, the more exact before the less exact. */
    private enum Words {
        PROFUNDA(Place.PROFUNDA, "profunda|deep femoral"),
        SUPERFICIAL(Place.SUPERFICIAL_FEMORAL, "superficial femoral|sfa"),
        POPLITEAL(Place.POPLITEAL, "popliteal"),
        TIBIAL(Place.TIBIAL, "tibial|pedal|peroneal"),
        RADIAL(Place.RADIAL, "radial|wrist"),
        BRACHIAL(Place.BRACHIAL, "brachial|arm"),
        FEMORAL(Place.FEMORAL, "groin|femoral|cfa|antegrade|crossover|cross-over");

        private final Place place;
        private final Pattern pattern;

        Words(Place place, String words) {
            this.place = place;
            this.pattern = Pattern.compile("\\b(" + words + ")\\b");
        }
    }

    private static final Pattern LEFT = Pattern.compile("\\bleft\\b");
    private static final Pattern RIGHT = Pattern.compile("\\bright\\b");
    private static final Pattern OPPOSITE = Pattern.compile("\\b(opposite|contralateral|crossover|cross-over)\\b");
    private static final Pattern SAME = Pattern.compile("\\b(same|ipsilateral|antegrade)\\b");

    /** What speaks against a site. */
    enum Objection {
        FAILED("plan-failed-access", "an earlier attempt from there failed"),
        COMPLICATED("plan-complicated-access", "an earlier puncture there had a complication");

        private final String rule;
        private final String words;

        Objection(String rule, String words) {
            this.rule = rule;
            this.words = words;
        }

        String rule() {
            return rule;
        }

        String words() {
            return words;
        }
    }

    private final Optional<List<Procedure>> procedures;
    private final PlanAnswers answers;

    EarlierProcedures(ReferralDocument document, PlanAnswers answers) {
        this.procedures = document.procedures();
        this.answers = answers;
    }

    private List<Procedure> all() {
        return procedures.orElse(List.of());
    }

    private static String path(int index, String field) {
        return "procedures[" + index + "]." + field;
    }

    /** Whether an attempt on one of the legs was broken off or without success. */
    boolean failed(Set<Side> legs) {
        if (procedures.isEmpty()) {
            return answers.of(PlanFact.yesOrNo(
                    "procedures",
                    Optional.empty(),
                    "Was a procedure on the arteries of the "
                            + (legs.size() == 1 ? legs.iterator().next().leg() : "legs")
                            + " ever begun and broken off, or without success?"));
        }
        var failed = false;
        for (var side : legs) {
            for (var i = 0; i < all().size(); i++) {
                failed |= failed(i, side);
            }
        }
        return failed;
    }

    private boolean failed(int index, Side leg) {
        var procedure = all().get(index);
        if (!Case.concerns(procedure.side(), leg) || procedure.kind().equals(Optional.of(ProcedureKind.AMPUTATION))) {
            return false;
        }
        return answers.of(PlanFact.yesOrNo(
                path(index, "outcome"),
                procedure
                        .outcome()
                        .filter(outcome -> outcome != Outcome.UNKNOWN)
                        .map(outcome -> outcome != Outcome.COMPLETED),
                "Was the earlier procedure on the "
                        + procedure.side().map(Side::leg).orElse("legs")
                        + " completed, broken off, or without success?"));
    }

    /** What speaks against going in at {@code site} to treat {@code leg}. */
    Optional<Objection> against(AccessSite site, Side leg) {
        var failed = false;
        for (var i = 0; i < all().size(); i++) {
            var complicated =
                    all().get(i).complication().map(AT_THE_PUNCTURE::contains).orElse(false);
            if (complicated && from(i, site)) {
                return Optional.of(Objection.COMPLICATED);
            }
            failed |= failed(i, leg) && from(i, site);
        }
        return failed ? Optional.of(Objection.FAILED) : Optional.empty();
    }

    private boolean from(int index, AccessSite site) {
        var procedure = all().get(index);
        var earlier = procedure.accessSite().isPresent()
                ? site(procedure.accessSite().get(), procedure.side())
                : answers.of(PlanFact.untold(
                        path(index, "accessSite"),
                        List.of(
                                AccessSite.LEFT_FEMORAL,
                                AccessSite.RIGHT_FEMORAL,
                                AccessSite.LEFT_BRACHIAL,
                                AccessSite.RIGHT_BRACHIAL),
                        "From which groin or arm was the earlier procedure on the "
                                + procedure.side().map(Side::leg).orElse("legs") + " done?"));
        return earlier.filter(there -> there.side() == site.side()
                        && (there.place() == site.place()
                                || (there.place().ofArm() && site.place().ofArm())))
                .isPresent();
    }

    /** The site that a text names, as in {@code right groin} or {@code crossover}; empty where it names none. */
    static Optional<AccessSite> site(String text, Optional<Side> treated) {
        var words = text.toLowerCase(Locale.ROOT);
        var left = LEFT.matcher(words).find();
        var right = RIGHT.matcher(words).find();
        Optional<Side> side;
        if (left != right) {
            side = Optional.of(left ? Side.LEFT : Side.RIGHT);
        } else if (left) {
            return Optional.empty();
        } else if (OPPOSITE.matcher(words).find()) {
            side = treated.map(Side::opposite);
        } else {
            side = treated.filter(known -> SAME.matcher(words).find());
        }
        for (var place : Words.values()) {
            if (place.pattern.matcher(words).find()) {
                return side.map(known -> AccessSite.of(known, place.place));
            }
        }
        return Optional.empty();
    }

    /**
     * Whether the aortic bifurcation may be that of a graft: after a bypass or the repair of an aneurysm above the
     * groin.
     */
    boolean graft() {
        var graft = false;
        for (var i = 0; i < all().size(); i++) {
            var kind = all().get(i).kind();
            var repair = kind.equals(Optional.of(ProcedureKind.ANEURYSM_REPAIR));
            graft |= (repair || kind.equals(Optional.of(ProcedureKind.BYPASS))) && aboveGroin(i, repair);
        }
        return graft;
    }

    private boolean aboveGroin(int index, boolean repair) {
        return ABOVE_GROIN.contains(answers.of(new PlanFact<>(
                path(index, "segment"),
                all().get(index).segment(),
                Segment.INFRARENAL_AORTA,
                List.of(Segment.INFRARENAL_AORTA, Segment.SUPERFICIAL_FEMORAL),
                "On which artery was the earlier " + (repair ? "repair of an aneurysm" : "bypass") + " done?")));
    }
}
