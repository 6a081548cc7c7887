package limbqueue.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.access.ActingAs;
import limbqueue.print.EnvelopeWindow;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** All people and places are invented. */
@OnPostgres
class EnvelopesIT {

    @Autowired
    private PracticeSettings settings;

    @Autowired
    private ActingAs actingAs;

    @Test
    void theChoiceOfEnvelopesIsKeptAndALetterheadThatCannotBePrintedIsNot() {
        var staff = new Staff(actingAs);
        var before = staff.as("manager", settings::practice);
        assertThat(before.window()).isEqualTo(EnvelopeWindow.DIN_5008_B);

        var outcome = staff.as("manager", () -> settings.save(named(before, "Hollin Bridge Vascular Practice")));
        assertThat(outcome).isInstanceOf(PracticeSaveOutcome.Saved.class);
        var kept = staff.as("manager", settings::practice);
        assertThat(kept.window()).isEqualTo(EnvelopeWindow.US_NO_10);

        assertThat(staff.as("manager", () -> settings.save(named(kept, "诊所"))))
                .isInstanceOfSatisfying(
                        PracticeSaveOutcome.NotRight.class,
                        not -> assertThat(not.why()).contains("“诊所”"));
        assertThat(staff.as("manager", settings::practice)).isEqualTo(kept);
    }

    private static Practice named(Practice practice, String name) {
        return new Practice(name, List.of(), "", "", "", "", "", EnvelopeWindow.US_NO_10, practice.version());
    }
}
