package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import limbqueue.command.RecurrenceRule.Days;
import limbqueue.command.RecurrenceRule.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RecurrenceRuleTest {

    /** Days written as {@code 1997-09 2,4,9-11; 1997-10 1}. */
    private static List<LocalDate> days(String written) {
        return Stream.of(written.split("; ", -1))
                .flatMap(month -> {
                    var parts = month.strip().split(" ", -1);
                    var of = YearMonth.parse(parts[0]);
                    return Arrays.stream(parts[1].split(",", -1))
                            .map(day -> day.split("-", -1))
                            .flatMapToInt(day -> IntStream.rangeClosed(
                                    Integer.parseInt(day[0]), Integer.parseInt(day[day.length - 1])))
                            .mapToObj(of::atDay);
                })
                .toList();
    }

    private static List<LocalDate> repeated(String first, String rule) {
        var outcome = RecurrenceRule.days(LocalDate.parse(first), rule);
        assertThat(outcome).as(rule).isInstanceOf(Days.class);
        return ((Days) outcome).dates();
    }

    private static String refused(String first, String rule) {
        var outcome = RecurrenceRule.days(LocalDate.parse(first), rule);
        assertThat(outcome).as(rule).isInstanceOf(Refused.class);
        return ((Refused) outcome).text();
    }

    /**
     * The examples of RFC 5545, section 3.8.5.3, pages 123 to 132, that repeat by days or more, in their order. There each takes
     * place at 9 in the morning in New York: an end given as a moment stands here as the last day before it. Those without an end
     * are given the last day that is printed, and Friday the 13th begins on the first day that is printed.
     */
    @ParameterizedTest(name = "{1}")
    @CsvSource(delimiter = '|', textBlock = """
            1997-09-02 | FREQ=DAILY;COUNT=10 | 1997-09 2-11
            1997-09-02 | FREQ=DAILY;UNTIL=19971223 | 1997-09 2-30; 1997-10 1-31; 1997-11 1-30; 1997-12 1-23
            1997-09-02 | FREQ=DAILY;INTERVAL=2;UNTIL=19971203 | 1997-09 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; 1997-10 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; 1997-11 1,3,5,7,9,11,13,15,17,19,21,23,25,27,29; 1997-12 1,3
            1997-09-02 | FREQ=DAILY;INTERVAL=10;COUNT=5 | 1997-09 2,12,22; 1997-10 2,12
            1998-01-01 | FREQ=YEARLY;UNTIL=20000131;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA | 1998-01 1-31; 1999-01 1-31; 2000-01 1-31
            1998-01-01 | FREQ=DAILY;UNTIL=20000131;BYMONTH=1 | 1998-01 1-31; 1999-01 1-31; 2000-01 1-31
            1997-09-02 | FREQ=WEEKLY;COUNT=10 | 1997-09 2,9,16,23,30; 1997-10 7,14,21,28; 1997-11 4
            1997-09-02 | FREQ=WEEKLY;UNTIL=19971223 | 1997-09 2,9,16,23,30; 1997-10 7,14,21,28; 1997-11 4,11,18,25; 1997-12 2,9,16,23
            1997-09-02 | FREQ=WEEKLY;INTERVAL=2;WKST=SU;UNTIL=19980217 | 1997-09 2,16,30; 1997-10 14,28; 1997-11 11,25; 1997-12 9,23; 1998-01 6,20; 1998-02 3,17
            1997-09-02 | FREQ=WEEKLY;UNTIL=19971006;WKST=SU;BYDAY=TU,TH | 1997-09 2,4,9,11,16,18,23,25,30; 1997-10 2
            1997-09-02 | FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH | 1997-09 2,4,9,11,16,18,23,25,30; 1997-10 2
            1997-09-01 | FREQ=WEEKLY;INTERVAL=2;UNTIL=19971223;WKST=SU;BYDAY=MO,WE,FR | 1997-09 1,3,5,15,17,19,29; 1997-10 1,3,13,15,17,27,29,31; 1997-11 10,12,14,24,26,28; 1997-12 8,10,12,22
            1997-09-02 | FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH | 1997-09 2,4,16,18,30; 1997-10 2,14,16
            1997-09-05 | FREQ=MONTHLY;COUNT=10;BYDAY=1FR | 1997-09 5; 1997-10 3; 1997-11 7; 1997-12 5; 1998-01 2; 1998-02 6; 1998-03 6; 1998-04 3; 1998-05 1; 1998-06 5
            1997-09-05 | FREQ=MONTHLY;UNTIL=19971223;BYDAY=1FR | 1997-09 5; 1997-10 3; 1997-11 7; 1997-12 5
            1997-09-07 | FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU | 1997-09 7,28; 1997-11 2,30; 1998-01 4,25; 1998-03 1,29; 1998-05 3,31
            1997-09-22 | FREQ=MONTHLY;COUNT=6;BYDAY=-2MO | 1997-09 22; 1997-10 20; 1997-11 17; 1997-12 22; 1998-01 19; 1998-02 16
            1997-09-28 | FREQ=MONTHLY;BYMONTHDAY=-3;UNTIL=19980226 | 1997-09 28; 1997-10 29; 1997-11 28; 1997-12 29; 1998-01 29; 1998-02 26
            1997-09-02 | FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15 | 1997-09 2,15; 1997-10 2,15; 1997-11 2,15; 1997-12 2,15; 1998-01 2,15
            1997-09-30 | FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1 | 1997-09 30; 1997-10 1,31; 1997-11 1,30; 1997-12 1,31; 1998-01 1,31; 1998-02 1
            1997-09-10 | FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15 | 1997-09 10-15; 1999-03 10-13
            1997-09-02 | FREQ=MONTHLY;INTERVAL=2;BYDAY=TU;UNTIL=19980331 | 1997-09 2,9,16,23,30; 1997-11 4,11,18,25; 1998-01 6,13,20,27; 1998-03 3,10,17,24,31
            1997-06-10 | FREQ=YEARLY;COUNT=10;BYMONTH=6,7 | 1997-06 10; 1997-07 10; 1998-06 10; 1998-07 10; 1999-06 10; 1999-07 10; 2000-06 10; 2000-07 10; 2001-06 10; 2001-07 10
            1997-03-10 | FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3 | 1997-03 10; 1999-01 10; 1999-02 10; 1999-03 10; 2001-01 10; 2001-02 10; 2001-03 10; 2003-01 10; 2003-02 10; 2003-03 10
            1997-01-01 | FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200 | 1997-01 1; 1997-04 10; 1997-07 19; 2000-01 1; 2000-04 9; 2000-07 18; 2003-01 1; 2003-04 10; 2003-07 19; 2006-01 1
            1997-05-19 | FREQ=YEARLY;BYDAY=20MO;UNTIL=19990517 | 1997-05 19; 1998-05 18; 1999-05 17
            1997-05-12 | FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO;UNTIL=19990517 | 1997-05 12; 1998-05 11; 1999-05 17
            1997-03-13 | FREQ=YEARLY;BYMONTH=3;BYDAY=TH;UNTIL=19990325 | 1997-03 13,20,27; 1998-03 5,12,19,26; 1999-03 4,11,18,25
            1997-06-05 | FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8;UNTIL=19990826 | 1997-06 5,12,19,26; 1997-07 3,10,17,24,31; 1997-08 7,14,21,28; 1998-06 4,11,18,25; 1998-07 2,9,16,23,30; 1998-08 6,13,20,27; 1999-06 3,10,17,24; 1999-07 1,8,15,22,29; 1999-08 5,12,19,26
            1998-02-13 | FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13;UNTIL=20001013 | 1998-02 13; 1998-03 13; 1998-11 13; 1999-08 13; 2000-10 13
            1997-09-13 | FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13;UNTIL=19980613 | 1997-09 13; 1997-10 11; 1997-11 8; 1997-12 13; 1998-01 10; 1998-02 7; 1998-03 7; 1998-04 11; 1998-05 9; 1998-06 13
            1996-11-05 | FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8;UNTIL=20041102 | 1996-11 5; 2000-11 7; 2004-11 2
            1997-09-04 | FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3 | 1997-09 4; 1997-10 7; 1997-11 6
            1997-09-29 | FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2;UNTIL=19980330 | 1997-09 29; 1997-10 30; 1997-11 27; 1997-12 30; 1998-01 29; 1998-02 26; 1998-03 30
            1997-08-05 | FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO | 1997-08 5,10,19,24
            1997-08-05 | FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU | 1997-08 5,17,19,31
            2007-01-15 | FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5 | 2007-01 15,30; 2007-02 15; 2007-03 15,30
            """)
    void theExamplesOfTheStandardFallOnItsDays(String first, String rule, String expected) {
        assertThat(repeated(first, rule)).isEqualTo(days(expected));
    }

    /** What the calendar has, where the library by itself leaves days out, takes some twice or gives up; by hand. */
    @ParameterizedTest(name = "{1}")
    @CsvSource(delimiter = '|', textBlock = """
            2025-01-31 | FREQ=MONTHLY;COUNT=5;BYDAY=-1FR | 2025-01 31; 2025-02 28; 2025-03 28; 2025-04 25; 2025-05 30
            2025-01-31 | FREQ=MONTHLY;COUNT=4 | 2025-01 31; 2025-03 31; 2025-05 31; 2025-07 31
            2025-01-31 | FREQ=MONTHLY;COUNT=4;BYMONTHDAY=-1 | 2025-01 31; 2025-02 28; 2025-03 31; 2025-04 30
            2008-01-15 | FREQ=WEEKLY;COUNT=4;BYDAY=TU,TH,TU | 2008-01 15,17,22,24
            2024-02-29 | FREQ=DAILY;BYMONTH=2;BYMONTHDAY=29;COUNT=3 | 2024-02 29; 2028-02 29; 2032-02 29
            2024-02-29 | FREQ=YEARLY;COUNT=2 | 2024-02 29; 2028-02 29
            2026-03-30 | FREQ=WEEKLY;INTERVAL=2;COUNT=3;BYDAY=MO | 2026-03 30; 2026-04 13,27
            2026-03-02 | FREQ=YEARLY;BYMONTH=3;BYDAY=1MO;COUNT=3 | 2026-03 2; 2027-03 1; 2028-03 6
            2026-01-15 | freq=yearly;bymonthday=15;count=3 | 2026-01 15; 2026-02 15; 2026-03 15
            2026-03-02 | FREQ=WEEKLY;BYMONTH=3,5;BYDAY=MO;COUNT=7 | 2026-03 2,9,16,23,30; 2026-05 4,11
            2026-03-02 | FREQ=MONTHLY;BYMONTH=3,9;COUNT=3 | 2026-03 2; 2026-09 2; 2027-03 2
            2026-03-02 | FREQ=WEEKLY;BYDAY=MO,WE,FR;BYSETPOS=1,-1;COUNT=4 | 2026-03 2,6,9,13
            """)
    void whatTheLibraryByItselfGetsWrongIsRight(String first, String rule, String expected) {
        assertThat(repeated(first, rule)).isEqualTo(days(expected));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            FREQ=WEEKLY | The rule never ends. Add its last day, such as ;UNTIL=20260602.
            FREQ=WEEKLY;COUNT=3;UNTIL=20260401 | The rule has both COUNT and UNTIL. Keep one of them.
            FREQ=WEEKLY;COUNT=3;COUNT=4 | COUNT stands in the rule twice. Keep one of them.
            FREQ=WEEKLY;UNTIL=20260301 | The rule ends on 2026-03-01, before the first day 2026-03-02. Change one of them.
            FREQ=WEEKLY;UNTIL=20260231 | UNTIL=20260231 is not a date of the calendar. Write the last day without a time, such as UNTIL=20261231.
            FREQ=WEEKLY;UNTIL=20260401T080000Z | "UNTIL=20260401T080000Z" is not possible in a rule. Write the last day without a time, such as UNTIL=20261231.
            FREQ=WEEKLY;UNTIL=20460401 | The rule ends on 2046-04-01, more than 10 years after the first day. Let it end sooner.
            FREQ=HOURLY;COUNT=3 | FREQ=HOURLY repeats within a day, and sessions are repeated by days. Enter each as one of its own.
            FREQ=DAILY;BYHOUR=9;COUNT=3 | BYHOUR=9 repeats within a day, and sessions are repeated by days. Enter each as one of its own.
            COUNT=3 | The rule does not say how often. Begin it with FREQ=WEEKLY or the like.
            FREQ=WEEKLY;COUNT=0 | "COUNT=0" is not possible in a rule. Write a whole number above 0, such as COUNT=2.
            FREQ=WEEKLY;BYDAY=MON;COUNT=3 | "BYDAY=MON" is not possible in a rule. Write two letters a day, such as BYDAY=MO,TH, in a month with its number, such as BYDAY=1MO or BYDAY=-1FR.
            FREQ=WEEKLY;BYDAY=1MO;COUNT=3 | A day with a number, as in BYDAY=1MO, belongs to a monthly or yearly rule without weeks. Take the number out.
            FREQ=WEEKLY;BYMONTHDAY=2;COUNT=3 | A weekly rule has no days of the month. Take BYMONTHDAY out, or repeat it monthly.
            FREQ=MONTHLY;BYWEEKNO=10;COUNT=3 | BYWEEKNO belongs to a yearly rule only. Take it out.
            FREQ=YEARLY;BYYEARDAY=61;BYMONTH=3;COUNT=3 | Weeks or days of the year are not read together with months or days of the month. Keep one of them.
            FREQ=WEEKLY;BYMONTH=3;BYDAY=MO,TU;BYSETPOS=1;COUNT=3 | BYSETPOS is not read in a weekly rule with months. Take one of them out.
            FREQ=MONTHLY;BYSETPOS=1;COUNT=3 | BYSETPOS chooses among the days of another part, such as BYDAY. Add one.
            FREQ=WEEKLY;BYDAY=TU;COUNT=3 | The session is on 2026-03-02, and the first day of its rule from then on is 2026-03-03. Change one of them.
            FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=30;COUNT=3 | The rule has no day from 2026-03-02 on. Change it.
            FREQ=YEARLY;COUNT=20 | The rule has 11 days within 10 years, and COUNT asks for 20. Lower it.
            FREQ=DAILY;COUNT=1001 | The rule has 1001 days, and at most 1000 are taken. Let it end sooner.
            weekly | There is no part "WEEKLY" in a rule. The parts are FREQ, INTERVAL, COUNT, UNTIL, BYDAY, BYMONTHDAY, BYYEARDAY, BYWEEKNO, BYMONTH, BYSETPOS, WKST.
            """, quoteCharacter = '~')
    void whatIsWrongWithARuleIsToldWithWhatToDo(String rule, String expected) {
        assertThat(refused("2026-03-02", rule)).isEqualTo(expected);
    }

    /** Random rules against a calendar leafed through day by day. */
    @Test
    void rulesFallOnTheDaysThatACalendarShows() {
        var random = new Random(5545);
        var last = LocalDate.of(2029, 12, 31);
        var compared = 0;
        for (var i = 0; i < 3_000; i++) {
            var rule = CalendarLeafed.anyRule(random);
            var from = LocalDate.of(2026, 1, 1).plusDays(random.nextInt(400));
            var expected = new CalendarLeafed(from, rule).until(last);
            if (expected.isEmpty() || expected.size() > 1_000) {
                continue;
            }
            var first = expected.getFirst();
            // Begun on a day of its own, a rule may have other days.
            var ofItsOwn = new CalendarLeafed(first, rule).until(last);
            if (ofItsOwn.getFirst().equals(first)) {
                assertThat(repeated(first.toString(), rule + ";UNTIL=20291231"))
                        .as("%s %s", first, rule)
                        .isEqualTo(ofItsOwn);
                compared++;
            }
        }
        assertThat(compared).isGreaterThan(2_000);
    }
}
