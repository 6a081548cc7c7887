package limbqueue.letter;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Lesion;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult.Question;

/**
 * Triage's questions in the language of a letter, found by the field that an answer fills. In the language that triage itself
 * asks in they are its own sentences.
 */
final class QuestionWords {

    private static final Map<String, QuestionWords> READ = new ConcurrentHashMap<>();
    private static final Pattern INDEX = Pattern.compile("\\[(\\d+)]");
    private static final Pattern LEG = Pattern.compile("^legs\\.(left|right)\\.");

    private final Vocabulary words;
    private final Optional<Vocabulary> questions;

    private QuestionWords(Vocabulary words, Optional<Vocabulary> questions) {
        this.words = words;
        this.questions = questions;
    }

    /** @param language tag of one of the languages that letters are written in */
    static QuestionWords of(String language) {
        return READ.computeIfAbsent(language, tag -> new QuestionWords(Vocabulary.of(tag), Vocabulary.questions(tag)));
    }

    /** The question in this language; as triage asks it where it has no words here. */
    String ask(Question question, ReferralDocument document) {
        return questions
                .flatMap(known -> key(known, question.field())
                        .map(key -> known.say(key, about(known, question.field(), document))))
                .orElse(question.ask());
    }

    /** Whether the answer that fills this field is asked for in words of this language. */
    boolean knows(String field) {
        return questions.map(known -> key(known, field).isPresent()).orElse(true);
    }

    /** The field without its side and its place in a list, else the one that it is part of. */
    private static Optional<String> key(Vocabulary known, String field) {
        var key = INDEX.matcher(LEG.matcher(field).replaceFirst("legs.")).replaceAll("");
        while (!known.knows(key)) {
            var dot = key.lastIndexOf('.');
            if (dot < 0) {
                return Optional.empty();
            }
            key = key.substring(0, dot);
        }
        return Optional.of(key);
    }

    private String about(Vocabulary known, String field, ReferralDocument document) {
        var leg = LEG.matcher(field);
        if (leg.find()) {
            return words.say("legs." + (leg.group(1).equals("left") ? Side.LEFT : Side.RIGHT));
        }
        var index = INDEX.matcher(field);
        if (!index.find()) {
            return "";
        }
        var at = Integer.parseInt(index.group(1));
        if (field.startsWith("lesions[")) {
            return entry(document.lesions(), at)
                    .flatMap(lesion -> artery(known, lesion))
                    .orElseGet(() -> known.say("lesion", at + 1));
        }
        return entry(document.labs(), at)
                .flatMap(ReferralDocument.Lab::test)
                .map(test -> known.say("lab." + test))
                .orElseGet(() -> known.say("lab", at + 1));
    }

    private static Optional<String> artery(Vocabulary known, Lesion lesion) {
        return lesion.segment()
                .map(segment -> known.say("segment." + segment))
                .map(name -> lesion.side()
                        .map(side -> known.say("lesion.on", name, known.say("side." + side)))
                        .orElse(name));
    }

    private static <T> Optional<T> entry(Optional<List<T>> list, int at) {
        return list.filter(entries -> at < entries.size()).map(entries -> entries.get(at));
    }
}
