package limbqueue.reading;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** A letter made ready for the rules. */
final class Page {

    final String text;
    final String folded;
    final List<Sentence> sentences;
    final Legs legs;
    final Dates dates;
    final Optional<LocalDate> written;
    /** The year of the letter, known even when its day is not. */
    final Optional<Integer> year;

    Page(String text) {
        this.text = text;
        this.folded = Plain.fold(text);
        this.sentences = Sentences.of(text, folded);
        this.legs = new Legs(sentences);
        this.dates = Dates.of(folded);
        this.written = LetterDate.of(this);
        this.year = written.map(LocalDate::getYear)
                .or(() -> sentences.stream()
                        .limit(5)
                        .filter(sentence -> !sentence.has("dob") && !sentence.has("born"))
                        .map(sentence -> Dates.year(sentence.plain))
                        .flatMap(Optional::stream)
                        .findFirst());
    }

    String original(Span span) {
        return text.substring(span.start(), span.end());
    }

    Optional<Sentence> before(Sentence sentence) {
        return sentence.number == 0 ? Optional.empty() : Optional.of(sentences.get(sentence.number - 1));
    }

    Optional<Sentence> after(Sentence sentence) {
        return sentence.number + 1 == sentences.size()
                ? Optional.empty()
                : Optional.of(sentences.get(sentence.number + 1));
    }
}
