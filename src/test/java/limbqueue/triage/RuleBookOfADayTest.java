package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.HashMap;
import limbqueue.document.ResultFormat;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;

/**
 * A referral triaged by the book of its day. The change is a real one: the 2005 ACC/AHA guideline (figure on asymptomatic
 * disease) called an index normal from 0.91 to 1.30; the ACCF/AHA focused update, published 29 September 2011, puts the
 * upper limit at 1.40.
 */
class RuleBookOfADayTest {

    private static final LocalDate UNDER_2005 = LocalDate.of(2011, 9, 28);
    private static final LocalDate UNDER_2011 = LocalDate.of(2011, 9, 29);

    private static RuleBook changed(String limit, String rows) {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent("thresholds.txt", (name, text) -> text.replaceAll("(?m)^" + limit + " .*\n", "") + rows);
        return RuleBook.of(files);
    }

    private static TriageResult of(String abi, RuleBook book, LocalDate day) {
        return Triage.triage(
                Facts.of("received=2000-01-01 L.claudication.present=true L.abi=" + abi)
                        .document(),
                Policy.standard(),
                book,
                day);
    }

    private static AbiBand band(String abi, RuleBook book, LocalDate day) {
        return of(abi, book, day).legs().left().abi().orElseThrow().band();
    }

    @Test
    void anIndexOf135WasNoFigureUntilTheUpdateAndIsNormalSince() {
        assertThat(band("1.35", RuleBook.shipped(), UNDER_2005)).isEqualTo(AbiBand.NONCOMPRESSIBLE);
        assertThat(band("1.35", RuleBook.shipped(), UNDER_2011)).isEqualTo(AbiBand.NORMAL);
        assertThat(band("1.30", RuleBook.shipped(), UNDER_2005)).isEqualTo(AbiBand.NORMAL);
        assertThat(band("1.41", RuleBook.shipped(), UNDER_2011)).isEqualTo(AbiBand.NONCOMPRESSIBLE);
    }

    /** The change is invented: "less than 0.90" of an index of two decimals is "at most 0.89". */
    @Test
    void aLimitThatTurnsFromLessThanIntoAtMostTurnsOnItsDay() {
        var book = changed("abi-abnormal-at-most", """
                abi-abnormal-at-most | 0.89 | 1 | 2006-03-21 | 2016-11-12 | acc-aha-2024 | invented | memory
                abi-abnormal-at-most | 0.90 | 1 | 2016-11-13 | -          | acc-aha-2024 | invented | memory
                """);
        assertThat(band("0.90", book, LocalDate.of(2016, 11, 12))).isEqualTo(AbiBand.BORDERLINE);
        assertThat(band("0.89", book, LocalDate.of(2016, 11, 12))).isEqualTo(AbiBand.ABNORMAL);
        assertThat(band("0.90", book, LocalDate.of(2016, 11, 13))).isEqualTo(AbiBand.ABNORMAL);
    }

    /** Another value for the days past is another book; with the book of its day the old result stays as it was. */
    @Test
    void aValueCorrectedForThePastChangesNothingOfWhatTheOldBookSaid() {
        var before = RuleBook.shipped();
        var corrected = changed("abi-normal-at-most", """
                abi-normal-at-most | 1.40 | 1 | 2005-12-01 | - | acc-aha-2024 | corrected | secondary
                """);
        var decided = ResultFormat.write(of("1.35", before, UNDER_2005));
        assertThat(band("1.35", corrected, UNDER_2005)).isEqualTo(AbiBand.NORMAL);
        assertThat(ResultFormat.write(of("1.35", corrected, UNDER_2005))).isNotEqualTo(decided);
        assertThat(ResultFormat.write(of("1.35", RuleBook.of(before.files()), UNDER_2005)))
                .isEqualTo(decided)
                .contains("\"ruleBook\":\"" + before.id() + "\"");
    }
}
