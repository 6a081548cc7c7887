package limbqueue.letter;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.letter.Parts.Letterhead;
import limbqueue.letter.Parts.Passage;
import limbqueue.practice.Practice;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.TierPhrase;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Referrer;
import limbqueue.triage.ReferralDocument.Smoking;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordScale;
import limbqueue.triage.TriageResult.WorkUpItem;

/**
 * Writes letters to referring doctors. What goes out is said in words of its own: no sentence that triage wrote for the
 * clinician (red flags, reasons, the why of work-up) reaches a letter, since a suspicion put on paper harms the patient,
 * the colleague, and the chance to learn what happened.
 */
final class LetterWriter {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.UK);

    /** More would not be answered, nor leave the caution on the first page; the rest is asked on the phone. */
    private static final int MOST_QUESTIONS = 6;

    /** Questions about these touch on how a colleague acted or why haste was asked for: for the phone, not on paper. */
    private static final List<String> NOT_ON_PAPER = List.of("asked.", "procedures", "deferredElsewhere", "imaging");

    /** What a referring doctor can send, by work-up code. */
    private static final Map<String, String> CAN_SEND = Map.of(
            "kidney-function", "a recent kidney function (creatinine and eGFR)",
            "blood-count", "a recent full blood count (haemoglobin and platelets)",
            "inr", "a recent INR",
            "potassium", "a recent potassium",
            "hba1c", "the latest HbA1c",
            "thyroid-function", "the thyroid function (TSH)",
            "outside-report", "reports of earlier imaging and procedures at other hospitals, as far as you hold them",
            "outside-images", "the images of earlier examinations at other hospitals, or word of where they are held");

    private final Practice practice;

    LetterWriter(Practice practice) {
        this.practice = practice;
    }

    /** That the referral has arrived. It holds nothing clinical: nobody has decided anything yet. */
    WrittenLetter received(Referral referral, ReferralDocument document, LocalDate dated) {
        return letter(
                LetterKind.RECEIVED,
                referral,
                document,
                dated,
                "Your referral has reached us",
                List.of(
                        Passage.paragraph("Thank you for referring " + patient(document)
                                + ". Your referral reached us on " + DATE.format(referral.received()) + "."),
                        Passage.paragraph(
                                "A physician of this practice will now read it. We will write to you when it has"
                                        + " been decided how we can help and how soon, or when we need to know more first."),
                        Passage.paragraph(
                                "Should further results or reports reach you, please send them to us under our reference.")));
    }

    /** What a physician decided. */
    WrittenLetter decided(ReferralDecided decided) {
        return switch (decided.decision().kind()) {
            case APPROVED, CHANGED ->
                decided.decision().tier() == Tier.ADVICE_ONLY ? advice(decided) : planned(decided);
            case SENT_TO_HOSPITAL -> sentToHospital(decided);
            case INFORMATION_ASKED -> informationNeeded(decided);
            case RETURNED -> returned(decided);
        };
    }

    private WrittenLetter planned(ReferralDecided decided) {
        var decision = decided.decision();
        var body = new ArrayList<Passage>();
        body.add(Passage.paragraph("Thank you for referring " + patient(decided.document()) + ". " + physician(decision)
                + " has read the referral and decided as follows."));
        body.add(Passage.paragraph(howSoon(decision, decided.policy())
                + concerns(decided).map(legs -> " This concerns " + legs + ".").orElse("")
                + " We will tell the patient the date of the appointment."));
        body.add(Passage.list("On what we know so far, the legs are graded as follows:", grades(decided)));
        var wanted = canSend(decided.proposal());
        if (!wanted.isEmpty()) {
            body.add(Passage.list("To prepare, it would help us if you could send us:", wanted));
        }
        var measures = measures(decided.document(), claudicationOnly(decided));
        if (!measures.isEmpty()) {
            body.add(Passage.list("Meanwhile, as far as you have not done so already, please consider:", measures));
        }
        body.add(whoDecided(decision));
        return letter(
                LetterKind.TRIAGED,
                decided.referral(),
                decided.document(),
                decision.asOf(),
                "How soon we plan to see your patient",
                body);
    }

    private WrittenLetter advice(ReferralDecided decided) {
        var decision = decided.decision();
        var body = new ArrayList<Passage>();
        body.add(Passage.paragraph("Thank you for referring " + patient(decided.document()) + ". " + physician(decision)
                + " has read the referral and decided that no procedure is called for at present."));
        body.add(Passage.list("On what we know so far, the legs are graded as follows:", grades(decided)));
        body.add(Passage.list(
                "At this stage, treatment without a procedure helps most. Please consider:",
                measures(decided.document(), true)));
        body.add(Passage.paragraph("Should walking become limited in a way that matters to the patient, or should the"
                + " complaints grow worse, please refer again."));
        body.add(whoDecided(decision));
        return letter(
                LetterKind.TRIAGED,
                decided.referral(),
                decided.document(),
                decision.asOf(),
                "Our advice on your patient",
                body);
    }

    private WrittenLetter sentToHospital(ReferralDecided decided) {
        var decision = decided.decision();
        var body = new ArrayList<Passage>();
        body.add(Passage.paragraph("Thank you for referring " + patient(decided.document()) + ". "
                + physician(decision)
                + " has read the referral and decided that the patient must be seen in hospital on"
                + " the same day, " + DATE.format(decision.asOf()) + ", and must not wait for an appointment with us."
                + concerns(decided).map(legs -> " This concerns " + legs + ".").orElse("")));
        body.add(Passage.paragraph("This is what has been arranged:"));
        body.add(Passage.quoted(Typed.lines(decision.reason())));
        body.add(Passage.list("On what we know so far, the legs are graded as follows:", grades(decided)));
        body.add(Passage.paragraph(
                "Please send the list of medicines, known allergies and recent results to the hospital"
                        + " directly. If the patient cannot be reached or has not set out, please call us at once."));
        body.add(whoDecided(decision));
        return letter(
                LetterKind.TRIAGED,
                decided.referral(),
                decided.document(),
                decision.asOf(),
                "Your patient has been sent to hospital",
                body);
    }

    private WrittenLetter informationNeeded(ReferralDecided decided) {
        var decision = decided.decision();
        var questions = questions(decided.proposal());
        var body = new ArrayList<Passage>();
        body.add(Passage.paragraph("Thank you for referring " + patient(decided.document()) + ". " + physician(decision)
                + " has read the referral and asks for your help before deciding:"));
        body.add(Passage.quoted(Typed.lines(decision.reason())));
        if (!questions.isEmpty()) {
            body.add(Passage.list(
                    "The answers to these questions, as far as you know them, would help us too:",
                    questions.stream()
                            .map(question -> Typed.line(question.ask()))
                            .toList()));
        }
        body.add(Passage.paragraph("Please answer "
                + questions.stream()
                        .map(Question::askBy)
                        .min(LocalDate::compareTo)
                        .filter(day -> day.isAfter(decision.asOf()))
                        .map(day -> "by " + DATE.format(day) + " if you can")
                        .orElse("as soon as you can")
                + ", by any way that suits you, and name our reference. The patient loses no time by this: we count from"
                + " the day on which your referral reached us, "
                + DATE.format(decided.referral().received()) + "."));
        return letter(
                LetterKind.INFORMATION_NEEDED,
                decided.referral(),
                decided.document(),
                decision.asOf(),
                "We need to know more about your patient",
                body);
    }

    private WrittenLetter returned(ReferralDecided decided) {
        var decision = decided.decision();
        return letter(
                LetterKind.RETURNED,
                decided.referral(),
                decided.document(),
                decision.asOf(),
                "We return your referral",
                List.of(
                        Passage.paragraph(
                                "Thank you for referring " + patient(decided.document()) + ". " + physician(decision)
                                        + " has read the referral and returns it to you for this reason:"),
                        Passage.quoted(Typed.lines(decision.reason())),
                        Passage.paragraph(
                                "No appointment has been planned here. If you see it differently, or if anything"
                                        + " changes, please call us or refer again: we will gladly look at it anew.")));
    }

    private WrittenLetter letter(
            LetterKind kind,
            Referral referral,
            ReferralDocument document,
            LocalDate dated,
            String subject,
            List<Passage> body) {
        var passages = new ArrayList<>(body);
        passages.add(caution());
        var referrer = document.referrer();
        var name = Typed.line(referrer.name());
        var organisation = Typed.line(referrer.organisation());
        var addressee = new ArrayList<String>();
        addressee.add(name.orElse("The referring doctor"));
        organisation.ifPresent(addressee::add);
        referrer.address().map(Typed::address).ifPresent(addressee::addAll);
        var patient = name(document).orElse("");
        return new WrittenLetter(
                kind,
                patient,
                Stream.of(name, organisation)
                        .flatMap(Optional::stream)
                        .collect(Collectors.collectingAndThen(
                                Collectors.joining(", "),
                                joined -> joined.isEmpty() ? "The referring doctor" : joined)),
                channel(referrer),
                new Parts(
                        "en-GB",
                        Letterhead.of(practice),
                        DATE.format(dated),
                        addressee,
                        subject,
                        List.of(
                                "Patient: " + name(document).orElse("name not stated")
                                        + document.patient()
                                                .born()
                                                .map(born -> ", born " + DATE.format(born))
                                                .orElse(""),
                                "Our reference: " + Typed.line(referral.reference())),
                        "Dear " + name.map(LetterWriter::withoutTitleBehind).orElse("colleague") + ",",
                        passages,
                        Stream.of("With kind regards", Typed.line(practice.signatory()), Typed.line(practice.name()))
                                .filter(line -> !line.isEmpty())
                                .toList()));
    }

    /** {@code Bea Thornquist, nurse practitioner} is greeted by her name. */
    private static String withoutTitleBehind(String name) {
        var comma = name.indexOf(',');
        return comma > 0 ? name.substring(0, comma).strip() : name;
    }

    /** The sentence that no letter is without. */
    private Passage caution() {
        var phone = Stream.of(practice.urgentPhone(), practice.phone())
                .map(Typed::line)
                .filter(line -> !line.isEmpty())
                .findFirst();
        return Passage.caution("If the leg gets worse, please do not wait for us. New pain at rest, a change of colour,"
                + " numbness, a wound that spreads, or fever must not wait for the queue: "
                + phone.map(number -> "call us at once on " + number + ", or send")
                        .orElse("send")
                + " the patient to the nearest emergency department.");
    }

    private static String howSoon(DecisionRecord decision, Policy policy) {
        var words = TierPhrase.of(decision.tier(), policy);
        var target = decision.targetDate().orElseThrow();
        if (target.isBefore(decision.asOf())) {
            return "The patient should have been dealt with " + words + ", by " + DATE.format(target)
                    + ". That day has passed, so we will do it as soon as we can.";
        }
        return "We plan to see the patient, and to treat where that is needed, " + words + ": by " + DATE.format(target)
                + ".";
    }

    /** The leg or legs that call for what is done; nothing if neither does. */
    private static Optional<String> concerns(ReferralDecided decided) {
        var left = decided.proposal().legs().left().tier();
        var right = decided.proposal().legs().right().tier();
        if (left.moreUrgentThan(right)) {
            return Optional.of("the left leg");
        }
        if (right.moreUrgentThan(left)) {
            return Optional.of("the right leg");
        }
        return left == Tier.ADVICE_ONLY ? Optional.empty() : Optional.of("both legs");
    }

    private static List<String> grades(ReferralDecided decided) {
        return Stream.of(Side.values())
                .filter(side -> decided.document()
                        .legs()
                        .of(side)
                        .amputation()
                        .filter(Amputation::aboveAnkle)
                        .isEmpty())
                .map(side -> (side == Side.LEFT ? "left leg: " : "right leg: ") + grade(decided, side))
                .toList();
    }

    private static String grade(ReferralDecided decided, Side side) {
        var proposed = decided.proposal().legs().of(side);
        var changed = Optional.ofNullable(decided.decision().categories().get(side));
        var category = changed.orElse(proposed.rutherford().category());
        var settled = changed.isPresent() || proposed.rutherford().possible().size() <= 1;
        if (category == Rutherford.CHRONIC_0 && !settled) {
            return "no complaint has been reported to us, so it is not graded";
        }
        var rutherford = (category.scale() == RutherfordScale.ACUTE ? "acute limb ischaemia, " : "")
                + "Rutherford category " + category.label() + " (" + category.description() + ")";
        // A category that the physician changed leaves no Fontaine stage behind it that anybody has looked at.
        return (changed.isPresent() || category.scale() == RutherfordScale.ACUTE
                        ? rutherford
                        : rutherford + ", Fontaine stage "
                                + proposed.fontaine().grade().label())
                + (settled ? "" : "; this may change as we learn more");
    }

    private static boolean claudicationOnly(ReferralDecided decided) {
        return Stream.of(Side.values())
                .allMatch(side ->
                        Optional.ofNullable(decided.decision().categories().get(side))
                                        .orElse(decided.proposal()
                                                .legs()
                                                .of(side)
                                                .rutherford()
                                                .category())
                                        .compareTo(Rutherford.CHRONIC_3)
                                <= 0);
    }

    private static List<String> canSend(TriageResult proposal) {
        return proposal.workUp().stream()
                .filter(WorkUpItem::needed)
                .flatMap(item -> Optional.ofNullable(CAN_SEND.get(item.code())).stream())
                .distinct()
                .toList();
    }

    /** Treatment for every patient with blocked leg arteries (acc-aha-2024), without doses. */
    private static List<String> measures(ReferralDocument document, boolean exercise) {
        var history = document.history();
        var measures = new ArrayList<String>();
        if (exercise) {
            measures.add("a supervised exercise programme of at least 12 weeks");
        }
        measures.add(
                history.statin().orElse(false)
                        ? "continuing the statin"
                        : "a statin, unless there is a reason against it");
        measures.add(
                history.antiplatelet().orElse(false)
                        ? "continuing the antiplatelet medicine"
                        : "an antiplatelet medicine, unless there is a reason against it");
        history.smoking()
                .map(smoking -> smoking == Smoking.CURRENT)
                .map(smokes -> smokes ? Optional.of("help with giving up smoking") : Optional.<String>empty())
                .orElse(Optional.of("help with giving up smoking, if the patient smokes"))
                .ifPresent(measures::add);
        return List.copyOf(measures);
    }

    private static List<Question> questions(TriageResult proposal) {
        return proposal.questions().stream()
                .filter(question -> NOT_ON_PAPER.stream().noneMatch(question.field()::startsWith))
                .filter(question -> !question.couldChange().equals(List.of("redFlags")))
                .limit(MOST_QUESTIONS)
                .toList();
    }

    private static Passage whoDecided(DecisionRecord decision) {
        return Passage.paragraph("This was decided by " + physician(decision) + ", a physician at this practice, on the"
                + " information before us. Local protocol prevails.");
    }

    private static String physician(DecisionRecord decision) {
        return Typed.line(decision.author());
    }

    private static String patient(ReferralDocument document) {
        return name(document).orElse("your patient");
    }

    private static Optional<String> name(ReferralDocument document) {
        return Optional.of(
                        Stream.of(document.patient().given(), document.patient().family())
                                .map(Typed::line)
                                .flatMap(Optional::stream)
                                .collect(Collectors.joining(" ")))
                .filter(name -> !name.isEmpty());
    }

    /** How the referring doctor wants to be told, with the number or address, as far as known. */
    private static String channel(Referrer referrer) {
        var fax = Typed.line(referrer.fax());
        var email = Typed.line(referrer.email());
        return referrer.prefers()
                .map(prefers -> switch (prefers) {
                    case POST -> "Post";
                    case FAX -> "Fax" + fax.map(number -> " " + number).orElse("");
                    case EMAIL -> "Email" + email.map(address -> " " + address).orElse("");
                })
                .or(() -> Typed.line(referrer.address()).map(address -> "Post"))
                .or(() -> fax.map(number -> "Fax " + number))
                .or(() -> email.map(address -> "Email " + address))
                .orElse("");
    }
}
