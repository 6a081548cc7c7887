package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import limbqueue.referral.ui.FieldKind.Amount;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.Day;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.Given;
import limbqueue.referral.ui.FieldKind.Text;
import limbqueue.referral.ui.FieldKind.YesNo;
import limbqueue.triage.ReferralDocument;
import org.junit.jupiter.api.Test;

/** The form against the document: the records of {@link ReferralDocument} are walked, so that a new field cannot be missed. */
class ReferralFieldsTest {

    private final Map<String, Class<?>> ofTheDocument = ofTheDocument();
    private final Map<String, List<FormField>> ofTheForm = ofTheForm();

    @Test
    void everyFieldOfTheDocumentIsAskedOnTheFormOnce() {
        assertThat(ofTheDocument).hasSizeGreaterThan(100);
        assertThat(ofTheForm.keySet()).containsExactlyInAnyOrderElementsOf(ofTheDocument.keySet());
        assertThat(ofTheForm.values()).allSatisfy(fields -> assertThat(fields).hasSize(1));
    }

    @Test
    void everyFieldIsAskedInTheWayOfItsType() {
        ofTheForm.forEach((path, fields) -> {
            var type = ofTheDocument.get(path);
            var kind = fields.getFirst().kind();
            if (type == Boolean.class) {
                assertThat(kind).as(path).isInstanceOf(YesNo.class);
            } else if (type == LocalDate.class) {
                assertThat(kind).as(path).isInstanceOf(Day.class);
            } else if (type == String.class) {
                assertThat(kind).as(path).isInstanceOfAny(Text.class, Given.class);
            } else if (type == List.class) {
                assertThat(kind).as(path).isInstanceOf(Entries.class);
            } else if (type != null && type.isEnum()) {
                assertThat(kind).as(path).isInstanceOf(Choice.class);
            } else {
                assertThat(kind).as(path).isInstanceOf(Amount.class);
            }
        });
    }

    @Test
    void everyChoiceOffersExactlyTheAnswersOfTheDocument() {
        var choices = 0;
        for (var entry : ofTheForm.entrySet()) {
            if (entry.getValue().getFirst().kind() instanceof Choice choice) {
                choices++;
                var codes = Arrays.stream(Objects.requireNonNull(ofTheDocument.get(entry.getKey()))
                                .getEnumConstants())
                        .map(constant -> camelCase(((Enum<?>) constant).name()))
                        .toList();
                assertThat(choice.options().stream().map(Choice.Option::code))
                        .as(entry.getKey())
                        .containsExactlyInAnyOrderElementsOf(codes);
            }
        }
        assertThat(choices).isGreaterThan(20);
    }

    @Test
    void aSectionIdIsUsedOnce() {
        assertThat(ReferralFields.SECTIONS.stream().map(FormSection::id)).doesNotHaveDuplicates();
    }

    @Test
    void fieldsAreNamedInWordsWhereNoFormStandsAroundThem() {
        assertThat(FieldWords.of("legs.left.pressures.toe")).isEqualTo("left leg, toe pressure");
        assertThat(FieldWords.of("armPressures.right")).isEqualTo("right arm pressure");
        assertThat(FieldWords.of("procedures[0].reportHeld")).isEqualTo("procedure 1, report held");
        assertThat(FieldWords.of("patient.identifiers[1].value")).isEqualTo("identifier 2, number");
        assertThat(FieldWords.of("history.diabetes")).isEqualTo("diabetes");
        assertThat(FieldWords.of("no.such.field")).isEqualTo("no.such.field");
    }

    /** Paths as the form writes them: {@code {side}} for left and right, {@code []} for an entry. */
    private static Map<String, List<FormField>> ofTheForm() {
        var found = new TreeMap<String, List<FormField>>();
        for (var field : ReferralFields.all()) {
            found.computeIfAbsent(field.path(), _ -> new ArrayList<>()).add(field);
            if (field.kind() instanceof Entries entries) {
                for (var inner : entries.fields()) {
                    found.computeIfAbsent(field.path() + "[]." + inner.path(), _ -> new ArrayList<>())
                            .add(inner);
                }
            }
        }
        return found;
    }

    private static Map<String, Class<?>> ofTheDocument() {
        var found = new TreeMap<String, Class<?>>();
        walk(ReferralDocument.class, "", found);
        return found;
    }

    private static void walk(Class<?> record, String prefix, Map<String, Class<?>> found) {
        for (var component : record.getRecordComponents()) {
            var path = prefix + nameOf(component);
            if (component.getType() != Optional.class) {
                walk(component.getType(), path + ".", found);
                continue;
            }
            var type = argumentOf(component.getGenericType());
            if (type instanceof Class<?> single) {
                found.put(path, single);
            } else {
                found.put(path, List.class);
                walk((Class<?>) argumentOf(type), path + "[].", found);
            }
        }
    }

    private static Type argumentOf(Type type) {
        return ((ParameterizedType) type).getActualTypeArguments()[0];
    }

    private static String nameOf(RecordComponent component) {
        var record = component.getDeclaringRecord();
        var sided = record == ReferralDocument.Legs.class || record == ReferralDocument.ArmPressures.class;
        return sided ? FormField.SIDE : component.getName();
    }

    private static String camelCase(String constant) {
        var words = constant.toLowerCase(Locale.ROOT).split("_", -1);
        var name = new StringBuilder(words[0]);
        for (var i = 1; i < words.length; i++) {
            name.append(Character.toUpperCase(words[i].charAt(0))).append(words[i].substring(1));
        }
        return name.toString();
    }
}
