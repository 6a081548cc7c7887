package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dialog.Dialog;
import java.util.List;
import java.util.function.Consumer;
import limbqueue.referral.Decision;
import limbqueue.referral.DecisionKind;
import limbqueue.triage.TriageResult.Question;

/** Asks for the words that a decision needs. Closing it decides nothing and loses nothing. */
class DecisionDialog extends Dialog {

    private final WordsField words;

    /**
     * @param lead what will happen
     * @param words the field for the words
     * @param confirm the words on the button that decides
     * @param decide takes the words, once there are any
     */
    private DecisionDialog(
            String title, List<Component> lead, WordsField words, String confirm, Consumer<String> decide) {
        this.words = words;
        addClassName("lq-decision-dialog");
        setHeaderTitle(title);
        setCloseOnOutsideClick(false);
        setWidth("40rem");
        var content = Markup.div("lq-dialog-content");
        content.add(lead);
        content.add(words);
        add(content);
        var button = new Button(
                confirm,
                click -> words.complete().ifPresent(text -> {
                    close();
                    decide.accept(text);
                }));
        button.addThemeVariants(ButtonVariant.PRIMARY);
        button.addClassName("lq-decide");
        getFooter().add(new Button("Cancel, keep what is typed", click -> close()), button);
    }

    static DecisionDialog askForInformation(ReferralPage page, KeptWords kept, Consumer<Decision> decide) {
        var id = page.referral().id();
        var kind = DecisionKind.INFORMATION_ASKED;
        var field = new WordsField(
                "What must be asked",
                kept.words(id, kind).orElseGet(() -> questions(page.proposal().questions())),
                "Write what must be asked; without it nobody knows what to ask for.",
                typed -> kept.keep(id, kind, typed));
        return new DecisionDialog(
                "Ask for information",
                List.of(Markup.paragraph(
                        "lq-dialog-lead",
                        "The referral goes back to the office, and the referring doctor is asked. The open questions are"
                                + " filled in, most decisive first: strike what you do not need.")),
                field,
                "Ask for this information",
                text -> decide.accept(new Decision.AskForInformation(text)));
    }

    static DecisionDialog returnToReferrer(ReferralPage page, KeptWords kept, Consumer<Decision> decide) {
        var id = page.referral().id();
        var kind = DecisionKind.RETURNED;
        var field = new WordsField(
                "Reason",
                kept.words(id, kind).orElse(""),
                "Write the reason; the referring doctor is told it.",
                typed -> kept.keep(id, kind, typed));
        return new DecisionDialog(
                "Return to referrer",
                List.of(Markup.paragraph(
                        "lq-dialog-lead",
                        "The referral leaves the queue. The referring doctor reads the reason in the letter, so write it"
                                + " as you would say it to a colleague.")),
                field,
                "Return to referrer",
                text -> decide.accept(new Decision.ReturnToReferrer(text)));
    }

    static DecisionDialog sendToHospital(ReferralPage page, KeptWords kept, Consumer<Decision> decide) {
        var id = page.referral().id();
        var kind = DecisionKind.SENT_TO_HOSPITAL;
        var field = new WordsField(
                "Whom you told, and how",
                kept.words(id, kind).orElse(""),
                "Write whom you told and how, so that everyone can see that the patient knows.",
                typed -> kept.keep(id, kind, typed));
        return new DecisionDialog(
                "Send to hospital now: " + page.patient(),
                List.of(
                        Markup.paragraph(
                                "lq-dialog-lead",
                                "LimbQueue calls nobody. Telephone first: the patient and the hospital's vascular team."
                                        + " Then write it down here; the referral leaves the queue as sent to"
                                        + " hospital."),
                        phones(page)),
                field,
                "Record: sent to hospital",
                text -> decide.accept(new Decision.SendToHospital(text)));
    }

    @Override
    public void open() {
        super.open();
        words.focusAtStart();
    }

    /** Whom to call. */
    static Component phones(ReferralPage page) {
        return Markup.div(
                "lq-phones",
                Markup.text("lq-caption", "Patient"),
                WhoHeader.phone("patient's telephone", page.value("patient.phone")),
                Markup.text("lq-caption", "Referring doctor"),
                WhoHeader.phone("referring doctor's telephone", page.value("referrer.phone")));
    }

    private static String questions(List<Question> questions) {
        var text = new StringBuilder();
        for (var at = 0; at < questions.size(); at++) {
            text.append(at == 0 ? "" : "\n")
                    .append(at + 1)
                    .append(". ")
                    .append(questions.get(at).ask());
        }
        return text.toString();
    }
}
