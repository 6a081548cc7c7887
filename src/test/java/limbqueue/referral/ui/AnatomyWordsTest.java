package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.referral.ui.AnatomyWords.Line;
import limbqueue.triage.Policy;
import limbqueue.triage.Side;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Reason;
import org.junit.jupiter.api.Test;

class AnatomyWordsTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private static TriageResult of(String lesions) {
        var draft = Draft.of("{\"lesions\":[" + lesions + "]}");
        return Triage.triage(draft.read(TODAY).document(), Policy.standard(), TODAY);
    }

    private static String shown(TriageResult result, Line line, Side side) {
        return line.of(result, side)
                .map(entry -> line.value(entry) + " | " + line.possible(entry))
                .orElse("none reported");
    }

    @Test
    void aTypeStandsOnItsSideWithNothingElseToSayWhenAllIsKnown() {
        var result = of("{\"side\":\"left\",\"segment\":\"commonIliac\",\"stenosisPercent\":100}");
        assertThat(shown(result, Line.AORTO_ILIAC, Side.LEFT)).isEqualTo("type B | ");
        assertThat(shown(result, Line.AORTO_ILIAC, Side.RIGHT)).isEqualTo("none reported");
        assertThat(Line.FEMOROPOPLITEAL.isOf(result)).isFalse();
        assertThat(Line.GLASS.isOf(result)).isFalse();
    }

    @Test
    void whatTheUnknownAllowsIsSaidInWords() {
        var result = of("{\"side\":\"left\",\"segment\":\"superficialFemoral\",\"calcification\":\"none\","
                + "\"ostial\":false}");
        assertThat(shown(result, Line.FEMOROPOPLITEAL, Side.LEFT)).isEqualTo("type D | none or A to D");
        assertThat(shown(result, Line.GLASS, Side.LEFT)).isEqualTo("stage 3 (4\u20110) | none or 1 to 3");
        assertThat(Line.GLASS.of(result, Side.LEFT).map(Line.GLASS::mildest)).isEqualTo(Optional.of(false));
    }

    @Test
    void glassIsMarkedAsSeenInSecondaryCopiesWhereverItIsShown() {
        var result =
                of("{\"side\":\"left\",\"segment\":\"superficialFemoral\",\"stenosisPercent\":60,\"lengthMm\":40}");
        assertThat(Line.GLASS.title()).contains("secondary copies");
        assertThat(AnatomyWords.reasons(result).stream().map(Reason::text))
                .hasSize(2)
                .anySatisfy(text -> assertThat(text).startsWith("Left, femoro-popliteal. TASC II type A: "))
                .anySatisfy(text -> assertThat(text).contains("GLASS stage").contains("secondary copies"));
    }
}
