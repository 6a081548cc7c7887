package limbqueue.worklist;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import limbqueue.chasing.ChasingDays;
import limbqueue.chasing.ChasingState;
import limbqueue.chasing.RecordsRequest;
import limbqueue.document.Reading;
import limbqueue.preparation.NextThing;
import limbqueue.preparation.NextThing.Group;
import limbqueue.preparation.PreparationCase;
import limbqueue.referral.ProposedCase;
import limbqueue.triage.Tier;
import limbqueue.worklist.WorkStep.Page;
import limbqueue.worklist.jdbc.WorkQuery.Undelivered;

/** Which lists a referral is in, and what is done next in each of them. */
final class NextSteps {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    private final ChasingDays days;
    private final LocalDate today;

    NextSteps(ChasingDays days, LocalDate today) {
        this.days = days;
        this.today = today;
    }

    /**
     * A referral that is being entered.
     *
     * @param call the day of the next safety call, if one is due at any time
     */
    Map<WorkList, WorkStep> ofDraft(
            ProposedCase proposed, Reading reading, ChasingState chasing, Optional<LocalDate> call) {
        var steps = new EnumMap<WorkList, WorkStep>(WorkList.class);
        steps.put(WorkList.TO_COMPLETE, complete(proposed, reading));
        waiting(steps, chasing);
        call(steps, call);
        late(steps, proposed, Optional.empty());
        return steps;
    }

    /**
     * A referral that is before the physician, waits for information or is approved.
     *
     * @param decidedOn the day of the decision that put it where it stands, if one did
     * @param call the day of the next safety call, if one is due at any time
     */
    Map<WorkList, WorkStep> of(
            PreparationCase prepared, Optional<LocalDate> decidedOn, ChasingState chasing, Optional<LocalDate> call) {
        var proposed = prepared.proposed();
        var steps = new EnumMap<WorkList, WorkStep>(WorkList.class);
        var next = NextThing.of(prepared, today);
        var noProcedure = proposed.tier() == Tier.ADVICE_ONLY || proposed.tier() == Tier.SAME_DAY;
        waiting(steps, chasing);
        if (!noProcedure && (next.group() == Group.CHASE || next.group() == Group.WAIT)) {
            steps.merge(WorkList.WAITING, new WorkStep(next.what(), next.on(), Page.PREPARATION), NextSteps::sooner);
        }
        switch (proposed.referral().state()) {
            case QUEUED -> steps.put(WorkList.PHYSICIAN, physician(proposed));
            case INFORMATION_NEEDED ->
                decidedOn.ifPresent(asked -> steps.merge(
                        WorkList.WAITING,
                        new WorkStep(
                                "Chase the answer to what the physician asked on " + DATE.format(asked),
                                Optional.of(chasing.informationDue(asked, days)),
                                Page.CHASING),
                        NextSteps::sooner));
            case APPROVED -> {
                if (!noProcedure) {
                    approved(steps, prepared, next);
                }
            }
            case DRAFT, RETURNED, SENT_TO_HOSPITAL -> {}
        }
        call(steps, prepared.inRoom() ? Optional.empty() : call);
        if (!(noProcedure && proposed.decidedTier().isPresent())) {
            late(steps, proposed, prepared.starts());
        }
        return steps;
    }

    /** Of letters that reached nobody. */
    static WorkStep letters(Undelivered undelivered) {
        var more = undelivered.letters() - 1;
        return new WorkStep(
                "Send the letter “%s” to %s another way: it %s.%s"
                        .formatted(
                                undelivered.kind(),
                                undelivered.recipient(),
                                undelivered.back() ? "came back" : "could not be sent",
                                more == 0 ? "" : " And " + more + " more."),
                Optional.of(undelivered.since()),
                Page.LETTERS);
    }

    private WorkStep complete(ProposedCase proposed, Reading reading) {
        var questions = proposed.proposal().questions();
        if (proposed.tier() == Tier.SAME_DAY) {
            return new WorkStep("Put it before the physician now: same day is proposed", Optional.of(today), Page.FORM);
        }
        if (!reading.complete()) {
            var wrong = reading.problems().size();
            return new WorkStep(
                    wrong == 1 ? "Mend 1 value that cannot be right" : "Mend " + wrong + " values that cannot be right",
                    Optional.of(today),
                    Page.FORM);
        }
        if (questions.isEmpty()) {
            return new WorkStep("Put it before the physician: nothing is missing", Optional.of(today), Page.FORM);
        }
        var more = questions.size() - 1;
        return new WorkStep(
                "Ask: " + questions.getFirst().ask() + (more == 0 ? "" : " And " + more + " more."),
                Optional.of(questions.getFirst().askBy()),
                Page.FORM);
    }

    private WorkStep physician(ProposedCase proposed) {
        return proposed.proposal().urgency().tier() == Tier.SAME_DAY
                ? new WorkStep("Call the physician now: same day is proposed", Optional.of(today), Page.REFERRAL)
                : new WorkStep("The physician decides", proposed.targetDate(), Page.REFERRAL);
    }

    private static void approved(Map<WorkList, WorkStep> steps, PreparationCase prepared, NextThing next) {
        var proposed = prepared.proposed();
        if (prepared.booking().isEmpty()) {
            steps.put(
                    WorkList.TO_BOOK, new WorkStep("Book a date and a room", proposed.targetDate(), Page.PREPARATION));
        }
        var stent = next.group() == Group.DATE_AND_STENT && prepared.booking().isPresent();
        if (next.group() == Group.ASK || next.group() == Group.BOOKED || stent) {
            var before = prepared.starts().map(LocalDateTime::toLocalDate);
            steps.put(
                    WorkList.WORK_UP,
                    new WorkStep(next.what(), next.on().or(() -> before).or(proposed::targetDate), Page.PREPARATION));
        }
    }

    private static void waiting(Map<WorkList, WorkStep> steps, ChasingState chasing) {
        chasing.nextRequest().flatMap(RecordsRequest::next).ifPresent(next -> {
            var request = chasing.nextRequest().orElseThrow();
            var what = request.missing() + " of " + request.hospital();
            steps.put(
                    WorkList.WAITING,
                    new WorkStep(
                            switch (next.step()) {
                                case SECOND_REQUEST ->
                                    "Remind: " + what + ", asked on " + DATE.format(request.askedOn());
                                case THIRD_REQUEST -> "Remind a third time: " + what;
                                case TELEPHONE ->
                                    "Call " + request.hospital() + ": three letters, no " + request.missing();
                            },
                            Optional.of(next.on()),
                            Page.CHASING));
        });
    }

    private void call(Map<WorkList, WorkStep> steps, Optional<LocalDate> call) {
        call.filter(day -> !day.isAfter(today))
                .ifPresent(day -> steps.put(
                        WorkList.TO_CALL,
                        new WorkStep("Call the patient: how is the leg?", Optional.of(day), Page.CHASING)));
    }

    /** A referral whose target date is near, with what keeps it from being dealt with. */
    private void late(Map<WorkList, WorkStep> steps, ProposedCase proposed, Optional<LocalDateTime> starts) {
        var target = proposed.targetDate();
        if (target.isEmpty() || today.until(target.get(), ChronoUnit.DAYS) > days.lateWarning()) {
            return;
        }
        var booked = starts.map(LocalDateTime::toLocalDate);
        if (booked.isPresent() && !booked.get().isAfter(target.get())) {
            return;
        }
        var what = booked.map(day -> "Bring forward: booked for " + DATE.format(day) + ", after the target date")
                .map(words -> new WorkStep(words, target, Page.PREPARATION))
                .or(() -> Optional.ofNullable(steps.get(WorkList.TO_COMPLETE)))
                .or(() -> Optional.ofNullable(steps.get(WorkList.PHYSICIAN)))
                .or(() -> Optional.ofNullable(steps.get(WorkList.TO_BOOK)))
                .or(() -> Optional.ofNullable(steps.get(WorkList.WAITING)));
        what.ifPresent(step -> steps.put(WorkList.LATE, new WorkStep(step.what(), target, step.page())));
    }

    private static WorkStep sooner(WorkStep one, WorkStep other) {
        return other.due().orElse(LocalDate.MAX).isBefore(one.due().orElse(LocalDate.MAX)) ? other : one;
    }
}
