package limbqueue.referral.ui;

import java.lang.management.ManagementFactory;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import limbqueue.document.Draft;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import org.junit.jupiter.api.Test;

/**
 * What the server does between a keystroke in the form and its answer, beside what it takes to read the same document
 * alone. The name keeps it out of the ordinary run; see the commands in the contributors' guide.
 */
class FormAnswerBenchmark {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);
    private static final int ROUNDS = 400;

    @Test
    void aChangeOfFactsBesideReadingThem() {
        var draft = Draft.empty();
        draft.set("received", "2026-03-02");
        draft.set("legs.left.wound.ulcer", "shallow");
        draft.set("legs.left.pressures.dorsalisPedis", 900);
        draft.set("procedures[0].kind", "angiogram");
        draft.set("history.diabetes", true);
        var form = new ReferralForm(draft, Suggestions.none(), () -> {});
        var sections = new SectionList();
        var panel = new ProposalPanel(_ -> {});
        var answering = new ArrayList<Long>();
        var reading = new ArrayList<Long>();
        for (var round = 0; round < ROUNDS; round++) {
            draft.set("legs.left.pressures.toe", 20 + round % 60);
            reading.add(taken(() -> draft.read(TODAY)));
            answering.add(taken(() -> {
                var read = draft.read(TODAY);
                var result = Triage.triage(read.document(), Policy.standard(), TODAY);
                panel.show(result, draft);
                form.tell(read.problems(), result.contradictions());
                sections.show(section -> form.progress(section, read.problems(), result.questions()));
            }));
        }
        var answer = median(answering.subList(ROUNDS / 2, ROUNDS));
        var read = median(reading.subList(ROUNDS / 2, ROUNDS));
        System.out.printf(
                "a change of facts: first %.1f ms, then %.2f ms, which is %.1f times reading the document alone%n",
                answering.getFirst() / 1e6, answer / 1e6, (double) answer / read);
    }

    /** Processor time of this thread in nanoseconds. */
    private static long taken(Runnable work) {
        var clock = ManagementFactory.getThreadMXBean();
        var before = clock.getCurrentThreadCpuTime();
        work.run();
        return clock.getCurrentThreadCpuTime() - before;
    }

    private static long median(List<Long> times) {
        return times.stream().sorted().toList().get(times.size() / 2);
    }
}
