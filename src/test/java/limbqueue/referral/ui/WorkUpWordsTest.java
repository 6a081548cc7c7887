package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.TriageResult.Who;
import limbqueue.triage.TriageResult.WorkUpItem;
import org.junit.jupiter.api.Test;

class WorkUpWordsTest {

    private static WorkUpItem item(boolean needed, Optional<LocalDate> until, List<String> unlocks) {
        return new WorkUpItem(
                "kidney-function",
                "Creatinine and eGFR",
                "Why.",
                needed,
                until,
                "common-practice",
                Who.LABORATORY,
                Optional.of("30 days"),
                false,
                unlocks,
                List.of());
    }

    @Test
    void whatIsNeededSaysWhoDoesItAndWhatItHoldsUp() {
        assertThat(WorkUpWords.standing(item(true, Optional.empty(), List.of("cta-or-mra", "procedure"))))
                .isEqualTo("needed · by: laboratory · counts for 30 days · holds up CTA or MRA, the" + " procedure");
    }

    @Test
    void whatIsHeldSaysUntilWhenAndHoldsNothingUp() {
        assertThat(WorkUpWords.standing(
                        item(false, Optional.of(LocalDate.of(2026, 4, 1)), List.of("access-plan", "vein-mapping"))))
                .startsWith("held, counts until 1 ")
                .endsWith("by: laboratory · counts for 30 days");
    }

    @Test
    void planAndItemsAreNamedInWords() {
        assertThat(WorkUpWords.standing(item(true, Optional.empty(), List.of("access-plan", "vein-mapping"))))
                .endsWith("holds up the plan of access, vein mapping");
    }

    @Test
    void aResultThatRunsOutSaysUntilWhenItCounts() {
        assertThat(WorkUpWords.standing(item(true, Optional.of(LocalDate.of(2026, 4, 1)), List.of())))
                .startsWith("needed; the result held counts until 1 ");
    }
}
