package limbqueue.samepatient;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.samepatient.PersonFacts.Identifier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which pairs are shown, and what is said of them: common practice of registries, no source. All people are invented. */
class LikenessTest {

    private static final String BORN = "1951-05-03";

    private static PersonFacts person(String given, String family, String born, String phone) {
        return new PersonFacts(
                given,
                family,
                born.isEmpty() ? Optional.empty() : Optional.of(LocalDate.parse(born)),
                phone,
                List.of());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            Zoë    | Ångström-Łuczak | Zoe      | Angstrom Luczak | same name but for accents, signs or capitals
            Hesper | Thornbury       | Hesper   | Thornbury       | same name
            Hesper | Thornbury       | Thornbury| Hesper          | given and family name swapped
            Hesper | Thornbury       | Hesper   | Thronbury       | name one letter apart
            Hesper | Thornbury       | Hesper   | Thornburry      | name one letter apart
            Hesper | Thornbury       | Thronbury| Hesper          | given and family name swapped and one letter apart
            Hesper | Thornbury       | Hespar   | Thornbery       | name two letters apart
            Hesper | Marchbank-Thornbury | Hesper | Thornbury     | same given name, part of a double name the same
            Hesper Ann | Thornbury   | Hesper   | Thornbury       | same family name, one of the given names the same
            H      | Thornbury       | Hesper   | Thornbury       | same family name, the initial fits
            """)
    void withTheSameBirthDateTheseNamesAreWorthALook(
            String given, String family, String otherGiven, String otherFamily, String words) {
        var likeness = Likeness.of(person(given, family, BORN, ""), person(otherGiven, otherFamily, BORN, ""));
        assertThat(likeness.worthALook()).isTrue();
        assertThat(likeness.reasons()).containsExactlyInAnyOrder("same birth date", words);
        assertThat(Likeness.of(person(otherGiven, otherFamily, BORN, ""), person(given, family, BORN, "")))
                .isEqualTo(likeness);
    }

    @ParameterizedTest
    @CsvSource({
        "1951-03-05, birth date with day and month swapped", "1951-05-13, birth date one digit apart",
        "1951-05-30, birth date one digit apart", "1915-05-03, birth date one digit apart",
        "1961-05-03, birth date one digit apart"
    })
    void withTheSameNameTheseBirthDatesAreWorthALook(String born, String words) {
        var likeness = Likeness.of(person("Hesper", "Thornbury", BORN, ""), person("Hesper", "Thornbury", born, ""));
        assertThat(likeness.worthALook()).isTrue();
        assertThat(likeness.reasons()).containsExactlyInAnyOrder("same name", words);
    }

    @Test
    void aTelephoneNumberIsTheSameWithTheCodeOfTheCountryAndWithout() {
        var likeness = Likeness.of(
                person("Hesper", "Thornbury", "", "01632 960202"),
                person("Hesper", "Thornbury", "", "+44 (1632) 960-202"));
        assertThat(likeness.reasons()).containsExactly("same name", "same telephone number");
        assertThat(likeness.words()).isEqualTo("likely");
    }

    @Test
    void everythingTheSameIsAlmostCertain() {
        var one = person("Hesper", "Thornbury", BORN, "01632 960202");
        assertThat(Likeness.of(one, one).words()).isEqualTo("almost certainly");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            Hesper | Thornbury | 1951-05-03 | 01632 960202 | Bram   | Thornbury | 1949-11-20 | 01632 960202
            Hesper | Thornbury | 1951-05-03 |              | Hesper | Thornbury | 1984-11-20 |
            Hesper | Thornbury | 1951-05-03 |              | Odile  | Marchbank | 1951-05-03 |
            Al     | Oak       | 1951-05-03 |              | Bo     | Elm       | 1951-05-03 |
            """)
    void aHouseholdANamesakeAndOneOfTheSameDayAreNoPair(
            String given,
            String family,
            String born,
            String phone,
            String otherGiven,
            String otherFamily,
            String otherBorn,
            String otherPhone) {
        assertThat(Likeness.of(
                                person(given, family, born, phone == null ? "" : phone),
                                person(otherGiven, otherFamily, otherBorn, otherPhone == null ? "" : otherPhone))
                        .worthALook())
                .isFalse();
    }

    @Test
    void aNumberCountsOnlyWithinItsSystem() {
        var one = numbered("urn:arven:patient", "AV-4141");
        assertThat(Likeness.of(one, numbered("urn:arven:patient", "av 4141")).points())
                .isEqualTo(60);
        assertThat(Likeness.of(one, numbered("", "AV4141")).points()).isEqualTo(45);
        assertThat(Likeness.of(one, numbered("urn:elsewhere", "AV-4141")).points())
                .isZero();
        assertThat(Likeness.of(one, numbered("urn:arven:patient", "AV-4142")).reasons())
                .containsExactly("different numbers of urn:arven:patient");
    }

    private static PersonFacts numbered(String system, String value) {
        return new PersonFacts("", "", Optional.empty(), "", List.of(new Identifier(system, value)));
    }

    @Test
    void whatIsNotKnownSpeaksNeitherForNorAgainst() {
        assertThat(Likeness.of(person("", "", "", ""), person("Hesper", "Thornbury", BORN, "01632 960202")))
                .isEqualTo(new Likeness(0, List.of()));
    }

    @Test
    void aBirthDateIsSoughtUnderWhatItMayHaveBeenMistypedFor() {
        assertThat(Likeness.mistyped(LocalDate.parse(BORN)))
                .startsWith(LocalDate.parse(BORN))
                .contains(
                        LocalDate.parse("1951-03-05"),
                        LocalDate.parse("1951-05-30"),
                        LocalDate.parse("1951-05-13"),
                        LocalDate.parse("1915-05-03"),
                        LocalDate.parse("1961-05-03"))
                .hasSizeLessThan(90);
        assertThat(Likeness.mistyped(LocalDate.parse("1952-02-29"))).contains(LocalDate.parse("1952-02-28"));
    }
}
