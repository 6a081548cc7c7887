package limbqueue.booking.solver;

import ai.timefold.solver.core.api.domain.common.PlanningId;
import ai.timefold.solver.core.api.domain.entity.PlanningEntity;
import ai.timefold.solver.core.api.domain.valuerange.ValueRangeProvider;
import ai.timefold.solver.core.api.domain.variable.PlanningVariable;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Lateness;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.Step;
import limbqueue.booking.WaitingCase;
import org.jspecify.annotations.Nullable;

/** A step of a case and the session it is given, if any: what the solver moves. */
@PlanningEntity
public class Appointment {

    private WaitingCase waiting;
    private Step step;
    private boolean last;
    private int caseNumber;
    private int index;
    private int number;
    private Range range;
    private long target;
    private long expected;
    private long variance;
    private Level level;
    private boolean told;
    private @Nullable Slot toldSlot;
    private @Nullable String kept;
    private @Nullable Slot keptSlot;
    private long keptLatePoints;
    /** What it adds to the lateness of its case where it has no place. */
    private long lateWithout;

    private boolean runsOut;
    private int[] ofOtherCases = {};

    private @Nullable Slot slot;
    /** What it adds to the lateness of its case where it is: asked for far more often than it is moved. */
    private long late;

    /** For the solver, which makes copies. */
    @SuppressWarnings("NullAway.Init")
    public Appointment() {}

    /**
     * @param number its place among all appointments, from 0
     * @param caseNumber the place of its case among all cases, from 0
     * @param index of the step in its case, from 0
     * @param range the sessions that can take it as far as it alone is concerned
     * @param lastDay the last day that is planned for
     */
    Appointment(int number, WaitingCase waiting, int caseNumber, int index, List<Slot> range, LocalDate lastDay) {
        this.number = number;
        this.waiting = waiting;
        this.step = waiting.steps().get(index);
        this.last = index == waiting.steps().size() - 1;
        this.caseNumber = caseNumber;
        this.index = index;
        this.range = new Range(range);
        this.target = waiting.target().toEpochDay();
        this.expected = step.minutes().expected();
        this.variance = step.minutes().variance();
        this.level = Lateness.levelOf(waiting.tier());
        this.lateWithout = last
                ? Lateness.unplaced(waiting.tier(), waiting.target(), lastDay)
                : Lateness.unprepared(waiting.tier());
        this.told = step.told().isPresent();
        for (var possible : range) {
            if (step.told().filter(possible.session().id()::equals).isPresent()) {
                this.toldSlot = possible;
            }
        }
        this.runsOut = (last ? waiting.steps() : List.of(step))
                .stream().anyMatch(each -> each.countsDays().isPresent());
        this.late = latePoints(slot);
    }

    /**
     * Says where it is in the plan that is kept.
     *
     * @param session its name
     * @param on the day of that session, if it is known
     * @param stillPossible the session, if it can stay there: then it does, unless it is moved
     */
    void keep(String session, Optional<LocalDate> on, @Nullable Slot stillPossible) {
        this.kept = session;
        this.keptLatePoints = on.map(day -> latePointsOn(day.toEpochDay())).orElse(0L);
        this.keptSlot = stillPossible;
        setSlot(stillPossible);
    }

    @PlanningId
    public int getNumber() {
        return number;
    }

    @ValueRangeProvider
    public List<Slot> getRange() {
        return range.slots();
    }

    Range range() {
        return range;
    }

    /** The place in its range of the first session behind {@code before}, the session of the step before it if there is one. */
    int firstAfter(@Nullable Slot before) {
        if (before == null) {
            return 0;
        }
        var first = range.placeOf(before.number() + 1);
        while (first < range.size() && !Fit.inOrder(step, range.get(first), before)) {
            first++;
        }
        return first;
    }

    @PlanningVariable(allowsUnassigned = true)
    public @Nullable Slot getSlot() {
        return slot;
    }

    public void setSlot(@Nullable Slot slot) {
        this.slot = slot;
        this.late = latePoints(slot);
    }

    WaitingCase waiting() {
        return waiting;
    }

    Step step() {
        return step;
    }

    int caseNumber() {
        return caseNumber;
    }

    int index() {
        return index;
    }

    int previousIndex() {
        return index - 1;
    }

    boolean last() {
        return last;
    }

    String patient() {
        return waiting.patient();
    }

    long expected() {
        return expected;
    }

    long variance() {
        return variance;
    }

    /** Whether time is held for cases like this one. */
    boolean urgent() {
        return HeldTime.isFor(waiting.tier());
    }

    /** The level at which it is late. */
    Level level() {
        return level;
    }

    /** Whether the patient has been told of {@code place}, in which it can be. */
    boolean toldOf(Slot place) {
        return place == toldSlot;
    }

    /** Its minutes where no time is held for it, else 0. */
    long expectedOfOthers() {
        return urgent() ? 0 : expected;
    }

    /** The same, and 0 in {@code place} where its patient has been told of that, or a plan that is kept has it there. */
    long expectedUntoldIn(Slot place) {
        return toldOf(place) || place == keptSlot ? 0 : expectedOfOthers();
    }

    /** The same where it is. */
    long expectedUntold() {
        return expectedUntoldIn(at());
    }

    /** The session, where there is one. */
    Optional<Slot> placed() {
        return Optional.ofNullable(slot);
    }

    /** The session of an appointment that is known to have one. */
    Slot at() {
        var at = slot;
        if (at == null) {
            throw new IllegalStateException(this + " has no session");
        }
        return at;
    }

    /** What it adds to the lateness of its case. */
    long latePoints() {
        return late;
    }

    /** The same in {@code place}, or with none. */
    long latePoints(@Nullable Slot place) {
        return place == null ? lateWithout : latePointsOn(place.epochDay());
    }

    /** The last day, counted as {@link Slot#epochDay}, on which it is no later than in {@code place}, or with none. */
    long lastDayAsLate(@Nullable Slot place) {
        return last && place != null ? Math.max(target, place.epochDay()) : Long.MAX_VALUE;
    }

    private long latePointsOn(long epochDay) {
        return last ? Lateness.points(waiting.tier(), Math.max(0, epochDay - target)) : 0;
    }

    /** What it adds to the lateness of its case beyond what the plan that is kept added; 0 if it had no place there. */
    long latePointsAdded() {
        return latePointsAdded(slot);
    }

    /** The same in {@code place}, or with none. */
    long latePointsAdded(@Nullable Slot place) {
        return kept == null ? 0 : Math.max(0, latePoints(place) - keptLatePoints);
    }

    /** Whether the patient has been told of another time than this. */
    boolean movesTold() {
        return movesTold(slot);
    }

    /** The same in {@code place}, or with none. */
    boolean movesTold(@Nullable Slot place) {
        return told && (place == null || place != toldSlot);
    }

    /** Whether it is where a person has put it, so that nothing of it is judged anew. */
    boolean stays() {
        return slot != null && staysIn(slot);
    }

    /** The same in {@code place}. */
    boolean staysIn(Slot place) {
        return place == keptSlot;
    }

    /** Whether its result runs out, or, if it is the last step of its case, one it may rest on. */
    boolean runsOut() {
        return runsOut;
    }

    /** The numbers of those of the same patient for other cases. */
    int[] ofOtherCases() {
        return ofOtherCases;
    }

    /** Says which those are. */
    void besides(int[] ofOtherCases) {
        this.ofOtherCases = ofOtherCases;
    }

    /** Whether nothing of it differs from the plan that is kept. */
    boolean asKept(@Nullable Slot at) {
        return kept == null ? at == null : at != null && at == keptSlot;
    }

    /** Whether it had a place in the plan that is kept, and is not in it. */
    boolean leavesKept() {
        return leavesKept(slot);
    }

    /** The same in {@code place}, or with none. */
    boolean leavesKept(@Nullable Slot place) {
        return kept != null && (place == null || place != keptSlot);
    }

    /** The name of the session in which it is kept. */
    Optional<String> kept() {
        return Optional.ofNullable(kept);
    }

    @Nullable
    Slot keptSlot() {
        return keptSlot;
    }

    /** Whether it is away from where it should rather be in {@code place}, or with none. */
    boolean away(@Nullable Slot place) {
        return kept == null ? movesTold(place) : leavesKept(place);
    }

    /** Where it should rather be, if it can be there. */
    @Nullable
    Slot home() {
        return kept == null ? toldSlot : keptSlot;
    }

    @Override
    public String toString() {
        return waiting.reference() + " " + step.kind();
    }
}
