package limbqueue.letter;

import static limbqueue.letter.wording.Placeholder.ANSWER_BY;
import static limbqueue.letter.wording.Placeholder.APPOINTMENT;
import static limbqueue.letter.wording.Placeholder.DAY;
import static limbqueue.letter.wording.Placeholder.DUE;
import static limbqueue.letter.wording.Placeholder.GRADES;
import static limbqueue.letter.wording.Placeholder.HOW_SOON;
import static limbqueue.letter.wording.Placeholder.LEGS;
import static limbqueue.letter.wording.Placeholder.MEASURES;
import static limbqueue.letter.wording.Placeholder.OUTCOME;
import static limbqueue.letter.wording.Placeholder.OVERDUE;
import static limbqueue.letter.wording.Placeholder.PATIENT;
import static limbqueue.letter.wording.Placeholder.PHONE;
import static limbqueue.letter.wording.Placeholder.PHYSICIAN;
import static limbqueue.letter.wording.Placeholder.PLACE;
import static limbqueue.letter.wording.Placeholder.PREPARE;
import static limbqueue.letter.wording.Placeholder.QUESTIONS;
import static limbqueue.letter.wording.Placeholder.RECEIVED;
import static limbqueue.letter.wording.Placeholder.TIME;
import static limbqueue.letter.wording.Placeholder.WANTED;
import static limbqueue.letter.wording.Placeholder.WORDS;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.letter.Parts.Letterhead;
import limbqueue.letter.Parts.Passage;
import limbqueue.letter.wording.Values;
import limbqueue.letter.wording.Vocabulary;
import limbqueue.letter.wording.Wordings;
import limbqueue.practice.Practice;
import limbqueue.preparation.CaseOutcome;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Tier;

/**
 * Writes letters to referring doctors and patients in one language. What goes out is said by the templates and the vocabulary:
 * no sentence that triage wrote for the clinician (red flags, reasons, the why of work-up) and no note of the staff reaches a
 * letter, since a suspicion put on paper harms the patient, the colleague, and the chance to learn what happened. Behind the
 * words of the template come those that no letter is without, whatever a practice has made of the template.
 */
final class LetterWriter {

    private final Practice practice;
    private final Wordings wordings;
    private final String language;
    private final Vocabulary words;
    private final ClinicalWords clinical;

    /** @param language tag of one of the languages that letters are written in */
    LetterWriter(Practice practice, Wordings wordings, String language) {
        this.practice = practice;
        this.wordings = wordings;
        this.language = language;
        this.words = Vocabulary.of(language);
        this.clinical = new ClinicalWords(words, QuestionWords.of(language));
    }

    /** That the referral has arrived. It holds nothing clinical: nobody has decided anything yet. */
    WrittenLetter received(Referral referral, ReferralDocument document, LocalDate dated) {
        return letter(LetterKind.RECEIVED, referral, document, dated, values(referral, document), Optional.empty());
    }

    /** What a physician decided. */
    WrittenLetter decided(ReferralDecided decided) {
        var decision = decided.decision();
        var kind = kind(decision);
        var values = values(decided.referral(), decided.document())
                .put(PHYSICIAN, physician(decision))
                .put(DAY, words.date(decision.asOf()))
                .put(WORDS, Typed.lines(decision.reason()))
                .put(LEGS, clinical.concerns(decided))
                .put(GRADES, clinical.grades(decided));
        switch (kind) {
            case TRIAGED -> {
                var target = decision.targetDate().orElseThrow();
                values.put(HOW_SOON, clinical.howSoon(decision.tier(), decided.policy()))
                        .put(target.isBefore(decision.asOf()) ? OVERDUE : DUE, words.date(target))
                        .put(WANTED, clinical.canSend(decided.proposal()))
                        .put(MEASURES, clinical.measures(decided.document(), ClinicalWords.claudicationOnly(decided)));
            }
            case ADVICE -> values.put(MEASURES, clinical.measures(decided.document(), true));
            case INFORMATION_NEEDED -> {
                var questions = ClinicalWords.questions(decided.proposal());
                values.put(
                                QUESTIONS,
                                questions.stream()
                                        .map(question -> clinical.ask(question, decided.document()))
                                        .toList())
                        .put(
                                ANSWER_BY,
                                ClinicalWords.answerBy(questions, decision.asOf())
                                        .map(words::date));
            }
            default -> {}
        }
        return letter(
                kind,
                decided.referral(),
                decided.document(),
                decision.asOf(),
                values,
                Optional.of(words.say(
                        kind == LetterKind.INFORMATION_NEEDED ? "notice.asked" : "notice.decided",
                        physician(decision))));
    }

    private static LetterKind kind(DecisionRecord decision) {
        return switch (decision.kind()) {
            case APPROVED, CHANGED -> decision.tier() == Tier.ADVICE_ONLY ? LetterKind.ADVICE : LetterKind.TRIAGED;
            case SENT_TO_HOSPITAL -> LetterKind.SENT_TO_HOSPITAL;
            case INFORMATION_ASKED -> LetterKind.INFORMATION_NEEDED;
            case RETURNED -> LetterKind.RETURNED;
        };
    }

    /**
     * Of a date that was given, changed or cancelled.
     *
     * @param kind one that tells of a date
     */
    WrittenLetter visit(LetterKind kind, Referral referral, ReferralDocument document, LocalDate dated, Visit visit) {
        var values = values(referral, document)
                .put(
                        APPOINTMENT,
                        words.say((kind.toPatient() ? "patient.appointment." : "appointment.")
                                + visit.step().name()))
                .put(DAY, words.day(visit.starts().toLocalDate()))
                .put(TIME, words.time(visit.starts().toLocalTime()))
                .put(PLACE, Typed.line(visit.place()))
                .put(PREPARE, words.list("prepare." + visit.step().name()));
        return letter(
                kind,
                referral,
                document,
                dated,
                values,
                Optional.of(words.say(kind.toPatient() ? "notice.patient" : "notice.planned")));
    }

    /**
     * How a procedure ended. What the room noted of it stays in the room.
     *
     * @param on the day of the procedure
     */
    WrittenLetter done(
            Referral referral, ReferralDocument document, LocalDate dated, LocalDate on, CaseOutcome outcome) {
        var values = values(referral, document)
                .put(DAY, words.date(on))
                .put(OUTCOME, words.say("outcome." + outcome.name()))
                .put(MEASURES, clinical.measures(document, false));
        return letter(LetterKind.DONE, referral, document, dated, values, Optional.of(words.say("notice.treatment")));
    }

    private Values values(Referral referral, ReferralDocument document) {
        return new Values()
                .put(PATIENT, name(document).orElseGet(() -> words.say("patient.unnamed")))
                .put(RECEIVED, words.date(referral.received()))
                .put(PHONE, Optional.of(Typed.line(practice.phone())).filter(number -> !number.isEmpty()));
    }

    private WrittenLetter letter(
            LetterKind kind,
            Referral referral,
            ReferralDocument document,
            LocalDate dated,
            Values values,
            Optional<String> notice) {
        var template = wordings.of(kind, language);
        var passages = new ArrayList<>(template.render(values));
        notice.map(Passage::paragraph).ifPresent(passages::add);
        passages.add(caution(kind.toPatient()));
        var to = kind.toPatient()
                ? Correspondent.patient(document.patient(), words)
                : Correspondent.referrer(document.referrer(), words);
        var reference = words.say("regarding.reference", Typed.line(referral.reference()));
        return new WrittenLetter(
                kind,
                name(document).orElse(""),
                to.recipient(),
                to.channel(),
                new Parts(
                        language,
                        Letterhead.of(practice, words),
                        words.date(dated),
                        to.addressee(),
                        template.subject(),
                        kind.toPatient() ? List.of(reference) : List.of(patientLine(document), reference),
                        to.salutation(),
                        passages,
                        Stream.of(words.say("farewell"), Typed.line(practice.signatory()), Typed.line(practice.name()))
                                .filter(line -> !line.isEmpty())
                                .toList()));
    }

    private String patientLine(ReferralDocument document) {
        var name = name(document).orElseGet(() -> words.say("regarding.unnamed"));
        return words.say(
                "regarding.patient",
                document.patient()
                        .born()
                        .map(born -> words.say("regarding.born", name, words.date(born)))
                        .orElse(name));
    }

    /** The sentence that no letter is without. */
    private Passage caution(boolean toPatient) {
        var key = toPatient ? "caution.patient" : "caution";
        return Passage.caution(Stream.of(practice.urgentPhone(), practice.phone())
                .map(Typed::line)
                .filter(line -> !line.isEmpty())
                .findFirst()
                .map(number -> words.say(key + ".phone", number))
                .orElseGet(() -> words.say(key)));
    }

    private static String physician(DecisionRecord decision) {
        return Typed.line(decision.author());
    }

    private static Optional<String> name(ReferralDocument document) {
        return Correspondent.name(document.patient());
    }
}
