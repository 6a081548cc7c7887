package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import limbqueue.document.ResultFormat;
import limbqueue.triage.TriageResult.FhirPriority;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** The priorities against the code system request-priority of FHIR R4, as its published definitions hold it. */
class FhirPriorityTest {

    private static final String DEFINITIONS = "/org/hl7/fhir/r4/model/valueset/valuesets.xml";
    private static final String CODE_SYSTEM = "http://hl7.org/fhir/request-priority";
    private static final String VERSION = "4.0.1";

    private record Concept(String code, String definition) {}

    private static List<Concept> concepts = List.of();

    @BeforeAll
    static void readTheCodeSystem() throws Exception {
        try (InputStream in = FhirPriorityTest.class.getResourceAsStream(DEFINITIONS)) {
            assertThat(in).as(DEFINITIONS).isNotNull();
            concepts = concepts(XMLInputFactory.newDefaultFactory().createXMLStreamReader(in));
        }
    }

    /** The concepts of the one code system whose url and version are those wanted. */
    private static List<Concept> concepts(XMLStreamReader xml) throws XMLStreamException {
        var found = new ArrayList<Concept>();
        var here = false;
        var code = "";
        var url = "";
        while (xml.hasNext()) {
            if (xml.next() != XMLStreamConstants.START_ELEMENT) {
                continue;
            }
            var value = xml.getAttributeValue(null, "value");
            switch (xml.getLocalName()) {
                case "CodeSystem", "ValueSet" -> {
                    here = false;
                    url = "";
                }
                case "url" -> url = url.isEmpty() ? value : url;
                case "version" -> here = url.equals(CODE_SYSTEM) && value.equals(VERSION);
                case "code" -> code = value;
                case "definition" -> {
                    if (here) {
                        found.add(new Concept(code, value));
                    }
                }
                default -> {}
            }
        }
        return List.copyOf(found);
    }

    @Test
    void theCodesAreThoseOfTheCodeSystemInItsOrder() {
        assertThat(concepts).hasSize(4);
        assertThat(Arrays.stream(FhirPriority.values())
                        .map(priority -> priority.name().toLowerCase(Locale.ROOT)))
                .containsExactlyElementsOf(concepts.stream().map(Concept::code).toList());
    }

    /** The definitions say of each code but the first which one it outranks; the last outranks all. */
    @Test
    void eachCodeOutranksTheOneBeforeIt() {
        for (var i = 1; i < concepts.size(); i++) {
            assertThat(concepts.get(i).definition())
                    .as(concepts.get(i).code())
                    .containsPattern(
                            "higher priority than " + concepts.get(i - 1).code() + "|" + "highest possible priority");
        }
        assertThat(concepts.stream().map(Concept::definition).filter(text -> text.contains("highest possible")))
                .hasSize(1)
                .containsExactly(concepts.getLast().definition());
        assertThat(concepts.getFirst().definition()).contains("normal priority");
    }

    /** One referral for each tier, least urgent first. */
    private static final List<String> BY_URGENCY = List.of(
            "L.claudication.present=false",
            "L.claudication.distanceMetres=140 L.claudication.limitsLife=true L.claudication.course=stable L.abi=0.6",
            "L.claudication.distanceMetres=40",
            "L.restPain.present=true",
            "L.wound.ulcer=deep L.wound.spreading=true L.pressures.toe=35 L.infection.localSigns=0",
            "L.acute.onset=2026-03-01 L.acute.cold=true");

    @Test
    void aMoreUrgentTierNeverHasALowerPriorityAndEveryCodeIsWrittenAsPublished() {
        var order = concepts.stream().map(Concept::code).toList();
        var tiers = new TreeSet<String>();
        var written = new ArrayList<Integer>();
        for (var given : BY_URGENCY) {
            var urgency = urgency(given);
            tiers.add(urgency.get("tier").asString());
            written.add(order.indexOf(urgency.get("fhirPriority").asString()));
        }
        assertThat(tiers).hasSameSizeAs(Tier.values());
        assertThat(written).doesNotContain(-1).isSorted();
        assertThat(new TreeSet<>(written)).hasSize(order.size());
    }

    private static JsonNode urgency(String given) {
        var result = Triage.triage(Facts.of(given).document(), Policy.standard(), Facts.TODAY);
        return new ObjectMapper().readTree(ResultFormat.write(result)).get("urgency");
    }

    @Test
    void whatAReferrerMayAskForAreTheCodesOfTheCodeSystem() {
        for (var concept : concepts) {
            assertThat(Facts.of("asked.priority=" + concept.code())
                            .document()
                            .asked()
                            .priority())
                    .isPresent();
        }
        assertThat(ReferralDocument.AskedPriority.values()).hasSameSizeAs(concepts);
    }
}
