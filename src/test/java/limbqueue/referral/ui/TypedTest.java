package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TypedTest {

    @Test
    void aNumberIsReadWithPointOrComma() {
        assertThat(Typed.amount("110")).isEqualTo(110);
        assertThat(Typed.amount(" 110 ")).isEqualTo(110);
        assertThat(Typed.amount("0.61")).isEqualTo(0.61);
        assertThat(Typed.amount("0,61")).isEqualTo(0.61);
        assertThat(Typed.amount("-5")).isEqualTo(-5);
        assertThat(Typed.amount("\u22125")).isEqualTo(-5);
        assertThat(Typed.amount("12 000")).isEqualTo(12000);
        assertThat(Typed.amount("12345678901")).isEqualTo(12345678901d);
    }

    @ParameterizedTest
    @ValueSource(strings = {"abc", "9oo", "110 mmHg", "1.2.3", ">200", "1e3", ".5", "5.", "80-90", "12 00"})
    void whatIsNoNumberStaysAsTyped(String typed) {
        assertThat(Typed.amount(typed)).isEqualTo(typed);
    }

    @Test
    void aCommaThatCouldMeanThousandsIsNotGuessed() {
        assertThat(Typed.amount("12,000")).isEqualTo("12,000");
        assertThat(Typed.amount("0,750")).isEqualTo(0.75);
        assertThat(Typed.amount("1234,567")).isEqualTo(1234.567);
    }

    @ParameterizedTest
    @CsvSource({
        "2026-03-02, 2026-03-02",
        "2026-3-2, 2026-03-02",
        "2.3.2026, 2026-03-02",
        "02.03.2026, 2026-03-02",
        "2. 3. 2026, 2026-03-02",
        "2 Mar 2026, 2026-03-02",
        "2 march 2026, 2026-03-02",
        "30 Sept 2026, 2026-09-30",
        "25/3/2026, 2026-03-25",
        "3/3/2026, 2026-03-03",
        "29.2.2028, 2028-02-29"
    })
    void aDayIsReadInTheWaysItIsWritten(String typed, String iso) {
        assertThat(Typed.day(typed, false)).isEqualTo(iso);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "2/3/2026",
                "2/3/26",
                "2.3.26",
                "30.2.2026",
                "31 Feb 2026",
                "2 Xyz 2026",
                "March",
                "2026",
                "12.13.2026"
            })
    void aDayThatIsNotCertainStaysAsTyped(String typed) {
        assertThat(Typed.day(typed, false)).isEqualTo(typed);
    }

    @Test
    void aTimeMayFollowWhereTheFieldTakesOne() {
        assertThat(Typed.day("1.3.2026 14:30", true)).isEqualTo("2026-03-01T14:30");
        assertThat(Typed.day("2026-03-01T08:05", true)).isEqualTo("2026-03-01T08:05");
        assertThat(Typed.day("1 Mar 2026", true)).isEqualTo("2026-03-01");
        assertThat(Typed.day("1.3.2026 25:00", true)).isEqualTo("1.3.2026 25:00");
        assertThat(Typed.day("1.3.2026 14:30", false)).isEqualTo("1.3.2026 14:30");
    }
}
