package limbqueue.triage;

import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import limbqueue.triage.ReferralDocument.Segment;

/**
 * How a procedure may be done, as proposed: nothing in it is a decision. It names classes of instruments, never a
 * brand, and no dose of any drug. The components bear the names of the public format.
 *
 * <p>Every entry says why it is there and names a rule of the rule book with the source that the book gives for it.
 *
 * @param sides the legs that are treated, left first; where both are, being as urgent as each other,
 *     each has steps of its own
 * @param targets the lesions that are treated, inflow first
 * @param access ways in, for each leg in the order in which they are tried
 * @param bailOut ways in when those have failed
 * @param cautions what the operator has to think of, and what has to be settled before
 * @param expectedMinutes minutes in the room of half of such cases, rounded to whole ones
 * @param expectedMinutes90 minutes that nine of ten such cases do not exceed
 * @param minutesBasis what the minutes rest on
 */
public record ProcedurePlan(
        List<Side> sides,
        List<Target> targets,
        List<Access> access,
        List<BailOut> bailOut,
        List<Sheath> sheath,
        List<Advice> support,
        List<Advice> wires,
        List<Projection> projections,
        List<RoomItem> room,
        String sedation,
        int expectedMinutes,
        int expectedMinutes90,
        String minutesBasis,
        List<Caution> cautions) {

    private static final Set<String> ALWAYS = Set.of("plan-sedation", "plan-minutes");

    /** Ids of the rules that something in it names. */
    public Set<String> rules() {
        var rules = new TreeSet<>(ALWAYS);
        targets.forEach(target -> rules.add(target.rule()));
        access.forEach(step -> rules.add(step.rule()));
        bailOut.forEach(step -> rules.add(step.rule()));
        sheath.forEach(item -> rules.add(item.rule()));
        support.forEach(advice -> rules.add(advice.rule()));
        wires.forEach(advice -> rules.add(advice.rule()));
        projections.forEach(view -> rules.add(view.rule()));
        room.forEach(item -> rules.add(item.rule()));
        cautions.forEach(caution -> rules.add(caution.rule()));
        return rules;
    }

    /** Where a sheath goes in, with its side; those below the femoral artery and the profunda are punctured upwards. */
    public enum AccessSite {
        LEFT_FEMORAL(Side.LEFT, Place.FEMORAL),
        RIGHT_FEMORAL(Side.RIGHT, Place.FEMORAL),
        LEFT_BRACHIAL(Side.LEFT, Place.BRACHIAL),
        RIGHT_BRACHIAL(Side.RIGHT, Place.BRACHIAL),
        LEFT_RADIAL(Side.LEFT, Place.RADIAL),
        RIGHT_RADIAL(Side.RIGHT, Place.RADIAL),
        LEFT_PROFUNDA(Side.LEFT, Place.PROFUNDA),
        RIGHT_PROFUNDA(Side.RIGHT, Place.PROFUNDA),
        LEFT_SUPERFICIAL_FEMORAL(Side.LEFT, Place.SUPERFICIAL_FEMORAL),
        RIGHT_SUPERFICIAL_FEMORAL(Side.RIGHT, Place.SUPERFICIAL_FEMORAL),
        LEFT_POPLITEAL(Side.LEFT, Place.POPLITEAL),
        RIGHT_POPLITEAL(Side.RIGHT, Place.POPLITEAL),
        LEFT_TIBIAL(Side.LEFT, Place.TIBIAL),
        RIGHT_TIBIAL(Side.RIGHT, Place.TIBIAL);

        private static final Set<AccessSite> ALL = Collections.unmodifiableSet(EnumSet.allOf(AccessSite.class));

        private final Side side;
        private final Place place;

        AccessSite(Side side, Place place) {
            this.side = side;
            this.place = place;
        }

        public static AccessSite of(Side side, Place place) {
            for (var site : ALL) {
                if (site.side == side && site.place == place) {
                    return site;
                }
            }
            throw new IllegalStateException("no site for " + side + " " + place);
        }

        public Side side() {
            return side;
        }

        public Place place() {
            return place;
        }
    }

    /** Where a sheath goes in, whatever the side. */
    public enum Place {
        FEMORAL,
        BRACHIAL,
        RADIAL,
        PROFUNDA,
        SUPERFICIAL_FEMORAL,
        POPLITEAL,
        TIBIAL;

        /** Whether it is the artery of an arm. */
        public boolean ofArm() {
            return this == BRACHIAL || this == RADIAL;
        }

        /** Whether only a small system fits in. */
        public boolean small() {
            return !ofArm() && this != FEMORAL;
        }
    }

    /**
     * A lesion that is treated.
     *
     * @param order from 1, inflow first; lesions of one artery, of either side, share a place
     * @param lesion path of the lesion in the referral
     * @param side empty for the aorta
     * @param text artery, narrowing, length and calcification in words
     */
    public record Target(
            int order,
            String lesion,
            Optional<Side> side,
            Segment segment,
            String text,
            String why,
            String rule,
            String source) {}

    /**
     * One attempt.
     *
     * @param order from 1, for each leg by itself
     * @param sides the legs that are treated this way
     * @param sites used together
     */
    public record Access(int order, List<Side> sides, List<AccessSite> sites, String why, String rule, String source) {}

    /**
     * @param sides the legs that are treated this way
     * @param sites used together
     */
    public record BailOut(List<Side> sides, List<AccessSite> sites, String why, String rule, String source) {}

    /**
     * @param from where it goes in, in words
     * @param french size in French gauge
     * @param lengthCm in centimetres
     * @param fits what goes through it
     */
    public record Sheath(String from, int french, int lengthCm, String fits, String rule, String source) {}

    public record Advice(String text, String why, String rule, String source) {}

    /** @param target what it shows */
    public record Projection(String target, String view, String why, String rule, String source) {}

    /** @param mustBeInRoom whether the case does not start without it */
    public record RoomItem(String item, boolean mustBeInRoom, String why, String rule, String source) {}

    /** @param because paths of the fields on which it rests */
    public record Caution(String text, List<String> because, String rule, String source) {}
}
