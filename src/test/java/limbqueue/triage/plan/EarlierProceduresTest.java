package limbqueue.triage.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import limbqueue.triage.Side;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Words by which letters name a way in; common practice, no source. */
class EarlierProceduresTest {

    @ParameterizedTest
    @CsvSource({
        "right groin, LEFT, RIGHT_FEMORAL",
        "Left CFA, LEFT, LEFT_FEMORAL",
        "left common femoral artery, , LEFT_FEMORAL",
        "crossover, LEFT, RIGHT_FEMORAL",
        "cross-over, RIGHT, LEFT_FEMORAL",
        "contralateral groin, LEFT, RIGHT_FEMORAL",
        "opposite femoral, RIGHT, LEFT_FEMORAL",
        "antegrade, LEFT, LEFT_FEMORAL",
        "ipsilateral groin, RIGHT, RIGHT_FEMORAL",
        "same groin, RIGHT, RIGHT_FEMORAL",
        "left arm, RIGHT, LEFT_BRACHIAL",
        "left brachial, , LEFT_BRACHIAL",
        "right radial, , RIGHT_RADIAL",
        "right wrist, , RIGHT_RADIAL",
        "left popliteal, , LEFT_POPLITEAL",
        "right pedal, , RIGHT_TIBIAL",
        "right tibial, , RIGHT_TIBIAL",
        "right peroneal, , RIGHT_TIBIAL",
        "left superficial femoral, , LEFT_SUPERFICIAL_FEMORAL",
        "left SFA, , LEFT_SUPERFICIAL_FEMORAL",
        "right profunda, , RIGHT_PROFUNDA",
        "right deep femoral, , RIGHT_PROFUNDA",
        // Nothing is made up where side or site is not said.
        "groin, LEFT, ",
        "left, LEFT, ",
        "left and right groin, LEFT, ",
        "crossover, , ",
        "antegrade, , ",
        "charming, LEFT, ",
        "outright groin, LEFT, "
    })
    void aTextNamesASite(String text, Side treated, String site) {
        assertThat(EarlierProcedures.site(text, Optional.ofNullable(treated)).map(Enum::name))
                .isEqualTo(Optional.ofNullable(site));
    }
}
