package limbqueue.governance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limbqueue.forecast.Band;
import limbqueue.forecast.Estimate;
import limbqueue.forecast.Forecast;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

class ForecastPictureTest {

    private static final List<Forecast.Line> LINES = List.of(
            line(Tier.WITHIN_5_DAYS, 1, Optional.of(new Forecast.Wait(new Band(2, 3.5, 6), 90))),
            line(Tier.WITHIN_14_DAYS, 1, Optional.of(new Forecast.Wait(new Band(7, 9, 12), 100))),
            line(Tier.WITHIN_5_DAYS, 2, Optional.empty()));

    private static Forecast.Line line(Tier tier, int week, Optional<Forecast.Wait> wait) {
        return new Forecast.Line(
                tier,
                week,
                LocalDate.of(2026, 3, 2).plusWeeks(week - 1),
                wait,
                1.5,
                Optional.of(new Estimate(0.2, 0.01)),
                new Band(0, 0.3, 1),
                new Band(4, 5, 8));
    }

    @Test
    void aRowIsAWeekOfTheTier() {
        assertThat(ForecastPicture.waiting(Tier.WITHIN_5_DAYS, LINES).rows())
                .containsExactly(
                        new RangePicture.Row("Week 1, from 2 Mar 2026", 4, 5, 8, OptionalDouble.empty()),
                        new RangePicture.Row("Week 2, from 9 Mar 2026", 4, 5, 8, OptionalDouble.empty()));
        assertThat(ForecastPicture.missed(Tier.WITHIN_14_DAYS, LINES).rows())
                .containsExactly(new RangePicture.Row("Week 1, from 2 Mar 2026", 0, 0.3, 1, OptionalDouble.empty()));
    }

    @Test
    void waitsStandBesideTheDaysOfThePolicyAndAWeekWithoutAnyIsLeftOut() {
        assertThat(ForecastPicture.waits(Tier.WITHIN_5_DAYS, LINES, 5).rows())
                .containsExactly(new RangePicture.Row("Week 1, from 2 Mar 2026", 2, 3.5, 6, OptionalDouble.of(5)));
    }

    @Test
    void picturesOfAllTiersCanStandOnOnePage() {
        var pictures = List.of(
                ForecastPicture.waits(Tier.WITHIN_5_DAYS, LINES, 5),
                ForecastPicture.waits(Tier.WITHIN_14_DAYS, LINES, 14),
                ForecastPicture.missed(Tier.WITHIN_5_DAYS, LINES),
                ForecastPicture.waiting(Tier.WITHIN_5_DAYS, LINES));
        assertThat(pictures.stream().map(RangePicture::id)).doesNotHaveDuplicates();
        assertThat(pictures.getFirst().svg().orElseThrow())
                .contains("id=\"forecast-waits-within-5-days-title\"")
                .contains("Days waited, within 5 days")
                .containsPattern("<text[^>]*>Week 1, from 2 Mar 2026</text");
    }
}
