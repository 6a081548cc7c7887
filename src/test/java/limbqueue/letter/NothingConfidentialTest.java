package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.preparation.CaseOutcome;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.ReferralState;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;

/**
 * Scans every letter of every demo referral and of many generated ones. A mark is planted in every text of the document that no
 * letter needs (what was typed in, who did what elsewhere and why), and in what the physician keeps for the record; and no
 * sentence that triage wrote for the clinician may be found.
 */
class NothingConfidentialTest {

    private static final String MARK = "Zqx7";
    private static final LocalDate TODAY = Samples.DECIDED;
    private static final int GENERATED = 100;

    /** What a letter is addressed with. */
    private static final Set<String> NEEDED = Set.of(
            "patient.given",
            "patient.family",
            "patient.address",
            "referrer.name",
            "referrer.organisation",
            "referrer.address",
            "referrer.fax",
            "referrer.email");

    private final Set<String> planted = new TreeSet<>();
    private final Set<String> flags = new TreeSet<>();
    private int sentences;

    @Test
    void noLetterHoldsWhatIsNotForItsReader() throws IOException {
        var documents = documents();
        for (var document : documents) {
            var marked = (ReferralDocument) mark("", document);
            // Triage of what is marked too, since a question may quote what was typed.
            for (var proposal : List.of(
                    Triage.triage(document, Policy.standard(), TODAY),
                    Triage.triage(marked, Policy.standard(), TODAY))) {
                proposal.redFlags().forEach(flag -> flags.add(flag.code()));
                for (var language : List.of("en-GB", "es")) {
                    letters(Samples.writer(language), marked, proposal).forEach(letter -> scan(letter, proposal));
                }
            }
        }

        // Else nothing was looked for.
        assertThat(documents).hasSizeGreaterThan(GENERATED + 20);
        assertThat(planted)
                .contains(
                        "letterText",
                        "asked.reason",
                        "imaging.where",
                        "imaging.findings",
                        "procedures.where",
                        "procedures.reason",
                        "deferredElsewhere.where",
                        "deferredElsewhere.reason",
                        "medicines.name",
                        "patient.phone");
        assertThat(flags).contains("possible-undisclosed-attempt", "failed-attempt", "pressure-without-findings");
        assertThat(sentences).isGreaterThan(10_000);
    }

    private void scan(WrittenLetter letter, TriageResult proposal) {
        var text = letter.parts().asText();
        assertThat(text).as("%s", letter.kind()).doesNotContain(MARK);
        assertThat(letter.recipient() + letter.channel()).doesNotContain(MARK);
        for (var sentence : writtenForTheClinician(proposal)) {
            sentences++;
            assertThat(text).as("%s", letter.kind()).doesNotContainIgnoringCase(sentence);
        }
    }

    private static List<String> writtenForTheClinician(TriageResult proposal) {
        return Stream.concat(
                        proposal.redFlags().stream().map(TriageResult.RedFlag::code),
                        Stream.of(
                                        proposal.redFlags().stream().map(TriageResult.RedFlag::text),
                                        proposal.reasons().stream().map(TriageResult.Reason::text),
                                        proposal.workUp().stream().flatMap(item -> Stream.of(item.text(), item.why())))
                                .flatMap(sentence -> sentence)
                                // Not the two words of an item that the letter may ask for in the same words.
                                .filter(sentence -> sentence.length() > 25))
                .toList();
    }

    private static List<WrittenLetter> letters(LetterWriter writer, ReferralDocument document, TriageResult proposal) {
        var referral = Samples.referral(ReferralState.APPROVED);
        var letters = new ArrayList<WrittenLetter>();
        letters.add(writer.received(referral, document, TODAY));
        for (var kind : DecisionKind.values()) {
            var tier = kind == DecisionKind.SENT_TO_HOSPITAL ? Tier.SAME_DAY : Tier.WITHIN_14_DAYS;
            var kept = kind == DecisionKind.APPROVED || kind == DecisionKind.CHANGED;
            letters.add(writer.decided(Samples.decided(
                    document, proposal, kind, tier, kept ? MARK + " kept for the record." : "For the reader.")));
        }
        letters.add(writer.decided(
                Samples.decided(document, proposal, DecisionKind.CHANGED, Tier.ADVICE_ONLY, MARK + " kept.")));
        for (var kind : LetterKind.values()) {
            if (kind.name().matches("BOOKED|CHANGED|CANCELLED|PATIENT_.*")) {
                letters.add(writer.visit(
                        kind, referral, document, TODAY, new Visit(StepKind.CTA, TODAY.atTime(8, 30), "CT 1")));
            }
        }
        letters.add(writer.done(referral, document, TODAY, TODAY, CaseOutcome.COMPLICATION));
        return letters;
    }

    private static List<ReferralDocument> documents() throws IOException {
        var texts = new ArrayList<String>();
        try (var files = Files.newDirectoryStream(Path.of("demo-referrals"), "*.referral.json")) {
            for (var file : files) {
                texts.add(Files.readString(file));
            }
        }
        texts.addAll(new GeneratedReferrals(20260305).lines(GENERATED));
        return texts.stream().map(text -> Draft.of(text).read(TODAY).document()).toList();
    }

    /** The same document with a mark in every text that no letter is addressed with. */
    private Object mark(String path, Object value) {
        return switch (value) {
            case Optional<?> known -> known.map(one -> mark(path, one));
            case List<?> many -> many.stream().map(one -> mark(path, one)).toList();
            case Record record -> marked(path, record);
            case String text
            when !NEEDED.contains(path) -> {
                planted.add(path);
                yield text + " " + MARK;
            }
            default -> value;
        };
    }

    private Object marked(String path, Record record) {
        var components = record.getClass().getRecordComponents();
        var types = Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new);
        try {
            var values = new Object[components.length];
            for (var i = 0; i < components.length; i++) {
                var name = path.isEmpty() ? components[i].getName() : path + "." + components[i].getName();
                var held = components[i].getAccessor().invoke(record);
                values[i] = mark(
                        name, held instanceof Optional<?> open && open.isEmpty() ? planted(name, components[i]) : held);
            }
            var constructor = record.getClass().getDeclaredConstructor(types);
            constructor.setAccessible(true);
            return constructor.newInstance(values);
        } catch (ReflectiveOperationException broken) {
            throw new IllegalStateException(path, broken);
        }
    }

    /** A text that is not known is planted as well. */
    private static Optional<?> planted(String path, RecordComponent component) {
        return !NEEDED.contains(path)
                        && component.getGenericType() instanceof ParameterizedType type
                        && type.getActualTypeArguments()[0] == String.class
                ? Optional.of("planted")
                : Optional.empty();
    }
}
