package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import limbqueue.referral.ui.FieldKind.Choice;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;

/** The picture's arteries beside the answers of the form: one segment has one name. */
class ArteryNamesTest {

    @Test
    void thePictureNamesTheSegmentsAsTheFormDoes() throws Exception {
        var drawn = JsonMapper.builder().build().readTree(Files.readString(Path.of("frontend/arteries.json")));
        var onThePicture = new ArrayList<Choice.Option>();
        drawn.get("segments")
                .forEach(segment -> onThePicture.add(new Choice.Option(
                        segment.get("code").stringValue(), segment.get("name").stringValue())));
        assertThat(onThePicture).isEqualTo(onTheForm());
    }

    private static List<Choice.Option> onTheForm() {
        return LesionEdits.FIELDS.stream()
                .filter(field -> field.path().equals("segment"))
                .map(FormField::kind)
                .map(kind -> ((Choice) kind).options())
                .findFirst()
                .orElseThrow();
    }
}
