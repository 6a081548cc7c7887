package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The fields as the published schema describes them. */
class FormatFieldTest {

    @Test
    void everyFieldOfTheFormatIsThereOnceUnderItsPath() {
        var fields = FormatField.all();
        assertThat(fields).extracting(FormatField::path).doesNotHaveDuplicates();
        assertThat(fields)
                .extracting(FormatField::path)
                .contains(
                        "patient.born",
                        "legs.left.pressures.toe",
                        "legs.right.infection.localSigns",
                        "labs[0].value",
                        "patient.identifiers[0].value",
                        "letterText");
        assertThat(FormatField.at("labs[3].value")).isEqualTo(FormatField.at("labs[0].value"));
        assertThat(FormatField.at("nothing.of.this")).isEmpty();
    }

    @Test
    void titlesTellTheLegsApart() {
        var titles = FormatField.all().stream().map(FormatField::title).toList();
        assertThat(titles).doesNotHaveDuplicates();
        assertThat(FormatField.at("legs.left.abi").orElseThrow().title()).startsWith("Left leg: ");
        assertThat(FormatField.titleOf("labs")).contains("Laboratory values");
    }

    /** From the published description of the format. */
    @Test
    void whatAFieldHoldsIsAsTheFormatSays() {
        assertThat(FormatField.at("patient.born").orElseThrow().kind()).isEqualTo(FormatField.Kind.DATE);
        assertThat(FormatField.at("history.diabetes").orElseThrow().kind()).isEqualTo(FormatField.Kind.YES_NO);
        assertThat(FormatField.at("legs.left.abi").orElseThrow().kind()).isEqualTo(FormatField.Kind.NUMBER);
        assertThat(FormatField.at("heightCm").orElseThrow().unit()).contains("cm");
        var sex = FormatField.at("patient.sex").orElseThrow();
        assertThat(sex.kind()).isEqualTo(FormatField.Kind.CHOICE);
        assertThat(sex.answers()).containsExactly("female", "male", "other", "unknown");
        assertThat(FormatField.all().stream().map(FormatField::kind).collect(Collectors.toSet()))
                .isEqualTo(Set.of(FormatField.Kind.values()));
    }
}
