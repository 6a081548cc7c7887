package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import limbqueue.triage.Quantity.Days;
import limbqueue.triage.Quantity.MmHg;
import limbqueue.triage.Quantity.Ratio;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import org.junit.jupiter.api.Test;

class DocumentFormatTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private static Reading parse(String json) {
        return DocumentFormat.parse(json, TODAY);
    }

    private static List<String> problems(String json) {
        return parse(json).problems().stream()
                .map(problem -> problem.path() + ": " + problem.text())
                .toList();
    }

    @Test
    void aDocumentIsReadFieldByField() {
        var reading = parse("""
                {"reference": "D-1", "received": "2026-03-01", "legs": {"left": {"abi": 0.43,
                 "wound": {"ulcer": "shallow", "site": "toe", "sinceDays": 20},
                 "acute": {"onset": "2026-03-01T14:30"},
                 "pressures": {"dorsalisPedis": 62, "posteriorTibial": 58.5}}},
                 "medicines": [], "labs": [{"test": "whiteCells", "value": 9.1, "unit": "10*9/L"}]}
                """);
        assertThat(reading.problems()).isEmpty();
        var document = reading.document();
        var left = document.legs().left();
        assertThat(document.reference()).contains("D-1");
        assertThat(document.received()).contains(LocalDate.of(2026, 3, 1));
        assertThat(left.abi()).contains(new Ratio(0.43));
        assertThat(left.wound().ulcer()).contains(Ulcer.SHALLOW);
        assertThat(left.wound().site()).contains(WoundSite.TOE);
        assertThat(left.wound().sinceDays()).contains(new Days(20));
        assertThat(left.acute().onset()).contains(LocalDate.of(2026, 3, 1));
        assertThat(left.pressures().posteriorTibial()).contains(new MmHg(58.5));
        assertThat(document.medicines()).contains(List.of());
        assertThat(document.allergies()).isEmpty();
        assertThat(document.labs().orElseThrow())
                .singleElement()
                .satisfies(lab -> assertThat(lab.value()).contains(9.1));
    }

    @Test
    void absentNullAndBlankAreUnknown() {
        var unknown = parse("{}").document();
        assertThat(
                        parse(
                                "{\"reference\": null, \"legs\": {\"left\": null, \"right\": {\"abi\": null}}, \"labs\": null}"))
                .isEqualTo(new Reading(unknown, List.of()));
        assertThat(parse("{\"reference\": \" \"}")).isEqualTo(new Reading(unknown, List.of()));
        assertThat(parse("{\"labs\": []}").document()).isNotEqualTo(unknown);
    }

    @Test
    void aValueWithAProblemCountsAsUnknownAndTheRestIsRead() {
        var reading = parse("{\"legs\": {\"left\": {\"abi\": 57, \"tbi\": 0.4}}, \"labs\": [5, {\"test\": \"inr\"}]}");
        assertThat(reading.complete()).isFalse();
        assertThat(reading.document().legs().left().abi()).isEmpty();
        assertThat(reading.document().legs().left().tbi()).contains(new Ratio(0.4));
        var labs = reading.document().labs().orElseThrow();
        assertThat(labs).hasSize(2);
        assertThat(labs.getFirst().test()).isEmpty();
        assertThat(labs.getLast().test()).contains(ReferralDocument.LabTest.INR);
    }

    @Test
    void problemsStandInTheOrderOfTheDocument() {
        assertThat(parse("{\"weightKg\": 0, \"legs\": {\"right\": {\"x\": 1, \"abi\": 9}}, \"heightCm\": 5}")
                        .problems())
                .extracting(Problem::path)
                .containsExactly("weightKg", "legs.right.x", "legs.right.abi", "heightCm");
    }

    @Test
    void brokenTextIsToldByLineAndColumn() {
        assertThat(problems("{\n  \"reference\": \"D-1\"\n  \"received\": null\n}"))
                .containsExactly(
                        ": line 3, column 3: This is not JSON from here on. Look for a missing or extra comma, quote or bracket at this place or just before it.");
        assertThat(problems("{\"legs\": {"))
                .singleElement()
                .asString()
                .startsWith(": line 1, column ")
                .endsWith("A closing bracket or quote is missing, or the file was cut off.");
        assertThat(problems("")).containsExactly(": The document is empty.");
        assertThat(problems("[1]"))
                .containsExactly(": Referral must be a group of fields in curly brackets, not a list.");
    }

    @Test
    void aRepeatedFieldIsAnErrorAndUnknown() {
        var reading = parse("{\"legs\": {\"left\": {\"abi\": 0.4,\n\"abi\": 0.9}}}");
        assertThat(reading.problems())
                .containsExactly(new Problem(
                        "legs.left.abi",
                        "The field \"abi\" is given more than once, again in line 2. Keep one of them."));
        assertThat(reading.document().legs().left().abi()).isEmpty();
    }

    @Test
    void bytesThatAreNoTextAreTold() {
        var bytes = "{\"reference\": \"D\u00e9\"}".getBytes(StandardCharsets.ISO_8859_1);
        assertThat(DocumentFormat.parse(new java.io.ByteArrayInputStream(bytes), TODAY)
                        .problems())
                .singleElement()
                .satisfies(problem -> assertThat(problem.text()).contains("line 1"));
    }

    @Test
    void writingAndReadingGivesTheSameDocument() {
        var document = parse("""
                {"legs": {"left": {"abi": 0.43, "pressures": {"toe": 30}, "acute": {"onset": "2026-03-01T14:30"}}}, "labs": [{}], "allergies": [],
                 "patient": {"unavailable": [{"from": "2026-03-05", "to": "2026-03-06"}]}, "reference": "D-1"}
                """).document();
        var written = DocumentFormat.write(document);
        assertThat(JsonText.write(written))
                .isEqualTo(
                        "{\"reference\":\"D-1\",\"patient\":{\"unavailable\":[{\"from\":\"2026-03-05\",\"to\":\"2026-03-06\"}]},"
                                + "\"legs\":{\"left\":{\"acute\":{\"onset\":\"2026-03-01\"},\"pressures\":{\"toe\":30},\"abi\":0.43}},"
                                + "\"allergies\":[],\"labs\":[{}]}");
        assertThat(DocumentFormat.read(written, TODAY)).isEqualTo(new Reading(document, List.of()));
    }
}
