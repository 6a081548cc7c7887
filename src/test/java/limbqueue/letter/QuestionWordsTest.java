package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import limbqueue.document.Draft;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult.Question;
import org.junit.jupiter.api.Test;

/** Every question that triage asks on paper has words in every language that letters are written in. */
class QuestionWordsTest {

    /** Fields that triage's own code asks for, as it names them there. */
    private static final Pattern NAMED = Pattern.compile(
            "\"((?:patient|history|medicines|allergies|labs|lesions|weightKg|heightCm)(?:\\.[A-Za-z]+)?)\",?\\s*(?:\"[^\"]*\\?\")");

    private static final Path TRIAGE = Path.of("src/main/java/limbqueue/triage");

    private static final List<String> LANGUAGES = Samples.WORDINGS.languages().stream()
            .map(limbqueue.letter.wording.Language::tag)
            .toList();

    @Test
    void everyQuestionOfManyReferralsIsAskedInTheLanguageOfTheLetter() throws IOException {
        var fields = new TreeSet<String>();
        for (var document : documents()) {
            var proposal = Triage.triage(document, Policy.standard(), Samples.DECIDED);
            for (var question : proposal.questions()) {
                if (ClinicalWords.isForPaper(question)) {
                    fields.add(question.field().replaceAll("\\[\\d+]", "").replaceAll("\\.(left|right)\\.", "."));
                    asked(question, document);
                }
            }
        }
        assertThat(fields).hasSizeGreaterThan(40);
    }

    private static void asked(Question question, ReferralDocument document) {
        for (var language : LANGUAGES) {
            var words = QuestionWords.of(language);
            var asked = words.ask(question, document);
            assertThat(words.knows(question.field()))
                    .as("%s in %s", question.field(), language)
                    .isTrue();
            assertThat(asked).as(question.field()).doesNotContain("{").contains("?");
            if (!language.startsWith("en")) {
                assertThat(asked).as(question.field()).isNotEqualTo(question.ask());
            }
        }
    }

    /** Also what no generated referral happens to lead to. */
    @Test
    void everyFieldThatTheRulesNameInAQuestionHasWords() throws IOException {
        var fields = new TreeSet<String>();
        try (var files = Files.walk(TRIAGE)) {
            for (var file :
                    files.filter(one -> one.toString().endsWith(".java")).toList()) {
                var named = NAMED.matcher(Files.readString(file));
                while (named.find()) {
                    fields.add(named.group(1));
                }
            }
        }
        assertThat(fields)
                .contains("history.diabetes", "weightKg", "patient.born")
                .hasSizeGreaterThan(12);
        for (var language : LANGUAGES) {
            assertThat(fields).allMatch(QuestionWords.of(language)::knows);
        }
    }

    private static List<ReferralDocument> documents() throws IOException {
        var texts = new ArrayList<String>();
        try (var files = Files.newDirectoryStream(Path.of("demo-referrals"), "*.referral.json")) {
            for (var file : files) {
                texts.add(Files.readString(file));
            }
        }
        texts.addAll(new GeneratedReferrals(20260305).lines(1500));
        return texts.stream()
                .map(text -> Draft.of(text).read(Samples.DECIDED).document())
                .toList();
    }
}
