package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.YesNo;
import org.junit.jupiter.api.Test;

/** That a condition names a field of the form and answers that the field has; a slip would leave a field out for ever. */
class LikelyFieldsTest {

    private static Stream<String> paths() {
        return ReferralFields.all().stream()
                .flatMap(field -> field.paired()
                        ? Stream.of("left", "right").map(side -> field.path().replace(FormField.SIDE, side))
                        : Stream.of(field.path()));
    }

    @Test
    void everyConditionCanComeTrue() {
        var conditions = paths().flatMap(path -> LikelyFields.way(path).stream())
                .filter(way -> !way.isEmpty())
                .flatMap(way -> Stream.of(way.split(";", -1)))
                .distinct()
                .toList();
        assertThat(conditions).hasSizeGreaterThan(8).allSatisfy(condition -> {
            var parts = condition.split("=", -1);
            assertThat(parts).hasSize(2);
            var field = FieldWords.definition(parts[0]).orElseThrow();
            var answers = switch (field.kind()) {
                case YesNo _ -> List.of(AnswerField.YES, AnswerField.NO);
                case Choice(var options) ->
                    options.stream().map(Choice.Option::code).toList();
                default -> List.of("*", "");
            };
            assertThat(answers).as(condition).containsAll(List.of(parts[1].split("\\|", -1)));
        });
    }

    @Test
    void aConditionSpeaksOfTheSameLeg() {
        assertThat(LikelyFields.way("legs.left.restPain.sinceDays")).contains("legs.left.restPain.present=yes");
        assertThat(LikelyFields.way("legs.right.restPain.sinceDays")).contains("legs.right.restPain.present=yes");
    }

    @Test
    void whatIsSeldomToldIsPassedOver() {
        assertThat(LikelyFields.way("patient.leavesArea")).isEmpty();
        assertThat(LikelyFields.way("legs.left.infection.paco2")).isEmpty();
        assertThat(LikelyFields.way("medicines[0].dose")).isEmpty();
        assertThat(LikelyFields.way("medicines")).contains("");
    }
}
