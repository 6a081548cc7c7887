package limbqueue.chasing.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.checkbox.Checkbox;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.Header;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import jakarta.annotation.security.RolesAllowed;
import java.io.ByteArrayInputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.chasing.Chasing;
import limbqueue.chasing.ChasingDays;
import limbqueue.chasing.ChasingOutcome;
import limbqueue.chasing.ChasingSettings;
import limbqueue.chasing.ChasingState;
import limbqueue.chasing.OutsideRecord;
import limbqueue.chasing.PhoneCall;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.chasing.RecordsLetter;
import limbqueue.chasing.RecordsRequest;
import limbqueue.chasing.SafetyCalls;
import limbqueue.live.Changed;
import limbqueue.live.Changes;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.DayWords;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;

/** What is asked of others for one referral: records, calls to the patient, the telephone log. */
@Route("referrals/:" + ChasingView.ID + "/chasing")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
@StyleSheet("context://ui/urgency.css")
@StyleSheet("context://ui/work.css")
class ChasingView extends Div implements BeforeEnterObserver, HasDynamicTitle {

    static final String ID = "id";

    private final Chasing chasing;
    private final ChasingSettings days;
    private final Referrals referrals;
    private final PracticeSettings settings;
    private final Div message = new Div();
    private final Div content = new Div();
    private String title = "Chasing · LimbQueue";
    private long id;

    /** What the page shows; drawn again only when it is something else. */
    private record Seen(
            ProposedCase proposed,
            ChasingState state,
            List<RecordsLetter> letters,
            ChasingDays days,
            LocalDate today) {}

    private Optional<Seen> seen = Optional.empty();

    ChasingView(
            Chasing chasing,
            ChasingSettings days,
            Referrals referrals,
            PracticeSettings settings,
            Changes changes,
            StandingSignIn signIn) {
        this.chasing = chasing;
        this.days = days;
        this.referrals = referrals;
        this.settings = settings;
        addClassNames("lq-page", "lq-case", "lq-chasing");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status").setAttribute("tabindex", "-1");
        content.addClassNames("lq-stack");
        add(message, content);
        KeptUpToDate.whileShown(this, changes, signIn, this::refresh);
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        try {
            id = Long.parseLong(event.getRouteParameters().get(ID).orElse(""));
        } catch (NumberFormatException noNumber) {
            event.rerouteToError(NotFoundException.class, "There is no referral with this number.");
            return;
        }
        if (!look()) {
            event.rerouteToError(NotFoundException.class, "There is no referral with this number.");
        }
    }

    @Override
    public String getPageTitle() {
        return title;
    }

    private void refresh(Changed changed) {
        if (changed.concerns(id)) {
            look();
        }
    }

    /** @return whether there is such a referral */
    private boolean look() {
        var proposed = referrals.proposed(List.of(id)).stream().findFirst();
        if (proposed.isEmpty()) {
            return false;
        }
        var now = new Seen(
                proposed.get(),
                chasing.state(id),
                chasing.letters(id),
                days.inForce().days(),
                chasing.today());
        if (!seen.equals(Optional.of(now))) {
            seen = Optional.of(now);
            draw(now);
        }
        return true;
    }

    private void draw(Seen now) {
        title = now.proposed().referral().reference() + ", chasing · LimbQueue";
        content.removeAll();
        var side = Pieces.div("lq-stack", calling(now), proposal(now));
        content.add(head(now), Pieces.div("lq-case-columns", Pieces.div("lq-stack", records(now), log(now)), side));
    }

    private static String patient(Seen now) {
        var patient = now.proposed().document().patient();
        return Stream.of(patient.family(), patient.given())
                .flatMap(Optional::stream)
                .filter(name -> !name.isBlank())
                .collect(Collectors.joining(", "));
    }

    private Component head(Seen now) {
        var referral = now.proposed().referral();
        var patient = now.proposed().document().patient();
        var facts = Pieces.div("lq-case-facts");
        patient.born().ifPresent(born -> facts.add(Pieces.text("lq-case-fact", "born " + DayWords.date(born))));
        facts.add(Pieces.text("lq-case-fact", referral.reference()));
        facts.add(phone("Patient", patient.phone()));
        facts.add(phone("Referring doctor", now.proposed().document().referrer().phone()));
        var links = Pieces.div("lq-case-links", new Anchor("referrals/" + id, "The referral"));
        switch (referral.state()) {
            case DRAFT -> links.add(new Anchor("referrals/" + id + "/edit", "The form"));
            case QUEUED, INFORMATION_NEEDED, APPROVED ->
                links.add(new Anchor("referrals/" + id + "/preparation", "Preparation"));
            case RETURNED, SENT_TO_HOSPITAL -> {}
        }
        links.add(new Anchor("work", "All work"));
        var name = new H1(patient(now).isEmpty() ? "Name not known" : patient(now));
        var head = new Header(Pieces.div("lq-case-who", name, facts), links);
        head.addClassName("lq-case-head");
        return head;
    }

    private static Component phone(String whose, Optional<String> number) {
        return number.filter(digits -> !digits.isBlank())
                .<Component>map(digits -> {
                    var link = new Anchor("tel:" + digits.replaceAll("[^+0-9]", ""), digits);
                    link.setAriaLabel(whose + ", telephone " + digits);
                    var fact = Pieces.text("lq-case-fact", whose + " ");
                    fact.add(link);
                    return fact;
                })
                .orElseGet(() -> Pieces.text("lq-case-fact lq-quiet", whose + ": telephone not known"));
    }

    // What is proposed.

    private Component proposal(Seen now) {
        var proposed = now.proposed();
        var urgency = proposed.proposal().urgency();
        var mark = new Span(
                Pieces.text("lq-urgency-tier", ChasingWords.tier(urgency.tier(), settings.policy())),
                Pieces.text(
                        "lq-urgency-what",
                        urgency.tier() == Tier.SAME_DAY
                                ? "send to hospital now"
                                : urgency.targetDate()
                                        .map(day -> "by " + DayWords.date(day))
                                        .orElse("")));
        mark.addClassNames(
                "lq-urgency",
                "lq-urgency-" + urgency.tier().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        var panel = Pieces.panel("lq-proposed", "Proposed today", mark, new Paragraph(urgency.because()));
        proposed.decidedTier()
                .ifPresent(tier -> panel.add(Pieces.paragraph(
                        "lq-strong",
                        "Decided: " + ChasingWords.tier(tier, settings.policy())
                                + proposed.targetDate()
                                        .map(day -> ", by " + DayWords.date(day))
                                        .orElse(""))));
        panel.add(new Notice(TriageResult.NOTICE));
        return panel;
    }

    // Records of other hospitals.

    private Component records(Seen now) {
        var panel = Pieces.panel("lq-requests", "Records of other hospitals");
        now.state().requests().forEach(request -> panel.add(request(now, request)));
        if (now.state().requests().isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "Nothing was asked for yet."));
        }
        var asked = now.state().requests().stream()
                .filter(RecordsRequest::open)
                .flatMap(request -> request.entry().stream())
                .toList();
        var buttons = Pieces.div("lq-row-actions");
        OutsideRecord.missing(now.proposed().document()).stream()
                .filter(record -> !asked.contains(record.entry()))
                .forEach(record -> buttons.add(Pieces.small(
                        "Ask for: " + record.about(),
                        "Ask for records: " + record.about()
                                + (record.hospital().isEmpty() ? "" : " at " + record.hospital()),
                        () -> asking(now, Optional.of(record)).open())));
        buttons.add(Pieces.small(
                "Ask for something else",
                "Ask for other records",
                () -> asking(now, Optional.empty()).open()));
        panel.add(buttons);
        return panel;
    }

    private Component request(Seen now, RecordsRequest request) {
        var block = Pieces.div(
                "lq-request",
                new H3(request.about() + ", " + request.hospital()),
                Pieces.text(
                        late(request, now.today()) ? "lq-next-late" : "lq-request-state",
                        ChasingWords.state(request, now.today())),
                Pieces.text(
                        "lq-quiet",
                        "Asked on " + DayWords.date(request.askedOn()) + ". Last touched by " + request.author() + ", "
                                + DayWords.moment(request.at())));
        var letters = Pieces.div("lq-letter-links");
        now.letters().stream()
                .filter(letter -> letter.requestId() == request.id())
                .forEach(letter -> letters.add(letter(now, letter)));
        block.add(letters);
        if (request.open()) {
            block.add(actions(now, request));
        }
        return block;
    }

    private static boolean late(RecordsRequest request, LocalDate today) {
        return request.next().filter(next -> next.on().isBefore(today)).isPresent();
    }

    private Component letter(Seen now, RecordsLetter letter) {
        var words = ChasingWords.letter(letter.number()) + ", " + DayWords.date(letter.dated());
        var file = now.proposed().referral().reference().replaceAll("[^A-Za-z0-9-]", "-") + "-records-"
                + letter.requestId() + "-" + letter.number() + ".pdf";
        var pdf = new Anchor(
                DownloadHandler.fromInputStream(_ -> {
                            var bytes = chasing.pdf(letter.id());
                            return new DownloadResponse(
                                    new ByteArrayInputStream(bytes), file, "application/pdf", bytes.length);
                        })
                        .inline(),
                "PDF");
        pdf.setTarget(AnchorTarget.BLANK);
        pdf.setAriaLabel(words + ", PDF");
        var text = Pieces.small(
                "Text", words + ", text", () -> reading(words, letter).open());
        text.removeClassName("lq-button");
        text.addClassName("lq-link");
        var both = new Span(new Span(words + " "), text, new Span(" "), pdf);
        return both;
    }

    private static Dialog reading(String words, RecordsLetter letter) {
        var dialog = new Dialog(words);
        dialog.addClassName("lq-letter-dialog");
        var text = new Pre(letter.text());
        text.addClassName("lq-letter-text");
        dialog.add(text);
        dialog.getFooter().add(Pieces.primary("Close", dialog::close));
        return dialog;
    }

    private Component actions(Seen now, RecordsRequest request) {
        var about = request.about();
        var buttons = Pieces.div("lq-row-actions");
        if (request.reportMissing() && request.imagesMissing()) {
            buttons.add(
                    Pieces.small("Both came", "Report and images came: " + about, () -> arrived(request, true, true)));
        }
        if (request.reportMissing()) {
            buttons.add(Pieces.small("Report came", "Report came: " + about, () -> arrived(request, true, false)));
        }
        if (request.imagesMissing()) {
            buttons.add(Pieces.small("Images came", "Images came: " + about, () -> arrived(request, false, true)));
        }
        if (request.reminders() < 2) {
            var number = ChasingWords.letter(request.reminders() + 2);
            buttons.add(Pieces.small(
                    number,
                    number + ": " + about,
                    () -> said(
                            chasing.remind(request.id(), request.version()),
                            number + " to " + request.hospital() + " is written. Print and send it.")));
        }
        buttons.add(
                Pieces.small(
                        "Note a call",
                        "Note a call about: " + about,
                        () -> calling(now, Kind.RECORDS, Optional.of(request)).open()),
                Pieces.small(
                        "Give up", "Give up: " + about, () -> givingUp(request).open()));
        return buttons;
    }

    private void arrived(RecordsRequest request, boolean report, boolean images) {
        said(
                chasing.arrived(request.id(), request.version(), report, images),
                (report && images ? "Report and images are" : report ? "The report is" : "The images are") + " in.");
    }

    private AskingDialog asking(Seen now, Optional<OutsideRecord> record) {
        var hospital = wide(new TextField("Hospital"));
        hospital.setValue(record.map(OutsideRecord::hospital).orElse(""));
        hospital.setMaxLength(200);
        var address = new TextArea("Address of its records office");
        address.setWidthFull();
        address.setMaxLength(500);
        var about = wide(new TextField("Examination or procedure, with its day"));
        about.setValue(record.map(OutsideRecord::about).orElse(""));
        about.setMaxLength(200);
        var report = new Checkbox(
                "The report", record.map(OutsideRecord::reportMissing).orElse(true));
        var images = new Checkbox(
                "The images", record.map(OutsideRecord::imagesMissing).orElse(true));
        var due = Pieces.date("Answer due on", now.today().plusDays(now.days().firstReply()));
        return new AskingDialog(
                "Ask another hospital for records",
                List.of(hospital, address, about, report, images, due),
                "Write the letter",
                () -> due.isEmpty()
                        ? Optional.of("Choose the day on which the answer is due.")
                        : refusal(
                                chasing.request(
                                        id,
                                        hospital.getValue(),
                                        address.getValue(),
                                        about.getValue(),
                                        record.map(OutsideRecord::entry),
                                        report.getValue(),
                                        images.getValue(),
                                        due.getValue()),
                                "The letter to " + hospital.getValue().strip() + " is written. Print and send it."));
    }

    private AskingDialog givingUp(RecordsRequest request) {
        var reason = new TextArea("Why nobody waits for it any more");
        reason.setWidthFull();
        return new AskingDialog(
                "Give up: " + request.about(),
                List.of(reason),
                "Give up",
                () -> refusal(
                        chasing.giveUp(request.id(), request.version(), reason.getValue()),
                        "Nobody waits for it now."));
    }

    // Calls.

    private Component calling(Seen now) {
        var panel = Pieces.panel("lq-calling", "How the patient is");
        var next = SafetyCalls.next(now.proposed(), now.state(), now.days());
        panel.add(Pieces.paragraph(
                next.filter(day -> day.isBefore(now.today())).isPresent() ? "lq-next-late" : "lq-strong",
                next.map(day -> "Next safety call " + DayWords.until(day, now.today()) + " (" + DayWords.date(day)
                                + ")")
                        .orElse("No safety call is due: by what is known, no leg is threatened, or nobody waits.")));
        var buttons = Pieces.div("lq-row-actions");
        if (takesCalls(now)) {
            buttons.add(
                    Pieces.primary(
                            "Unchanged", () -> safety(now, Outcome.UNCHANGED).open()),
                    Pieces.small(
                            "Not reached",
                            "Not reached",
                            () -> safety(now, Outcome.NOT_REACHED).open()),
                    Pieces.small(
                            "Worse: new symptoms",
                            "Worse: new symptoms",
                            () -> symptoms(now, Kind.SAFETY).open()));
        }
        panel.add(buttons);
        return panel;
    }

    private static boolean takesCalls(Seen now) {
        var state = now.proposed().referral().state();
        return state != ReferralState.RETURNED && state != ReferralState.SENT_TO_HOSPITAL;
    }

    private AskingDialog safety(Seen now, Outcome outcome) {
        var who = spokeWith(now, outcome == Outcome.NOT_REACHED ? "Whom you tried to reach" : "With whom you spoke");
        var words = new TextArea("What was said");
        words.setWidthFull();
        return new AskingDialog(
                outcome == Outcome.UNCHANGED ? "Safety call: unchanged" : "Safety call: not reached",
                List.of(who, words),
                "Note the call",
                () -> refusal(
                        chasing.noteCall(
                                id,
                                Kind.SAFETY,
                                Optional.empty(),
                                Optional.of(outcome),
                                who.getValue(),
                                words.getValue(),
                                Optional.empty()),
                        "The call is noted."));
    }

    private AskingDialog symptoms(Seen now, Kind kind) {
        var who = spokeWith(now, "With whom you spoke");
        var words = new TextArea("What was said");
        words.setWidthFull();
        var symptoms = new SymptomFields(now.today());
        var fields = new ArrayList<Component>(List.of(who, words));
        fields.addAll(symptoms.fields());
        return new AskingDialog("New symptoms told on the telephone", fields, "Enter and triage", () -> {
            if (symptoms.wrong()) {
                return Optional.of("A value cannot be read. It is marked; mend it first.");
            }
            if (!symptoms.whichLeg()) {
                return Optional.of("Say which leg it is.");
            }
            return refusal(
                    chasing.tellSymptoms(id, kind, who.getValue(), words.getValue(), symptoms.told()),
                    "The symptoms are entered.");
        });
    }

    private AskingDialog calling(Seen now, Kind kind, Optional<RecordsRequest> request) {
        var about = new RadioButtonGroup<Kind>("About");
        about.setItems(Kind.OTHER, Kind.INFORMATION);
        about.setItemLabelGenerator(ChasingWords::of);
        about.setValue(kind == Kind.RECORDS ? Kind.OTHER : kind);
        var who = wide(new TextField("With whom you spoke"));
        request.ifPresent(one -> who.setValue(one.hospital()));
        var words = new TextArea("What was said");
        words.setWidthFull();
        var again = Pieces.date("Call or ask again on", now.today());
        again.setRequiredIndicatorVisible(false);
        again.clear();
        var fields = new ArrayList<Component>();
        if (request.isEmpty()) {
            fields.add(about);
        }
        fields.addAll(List.of(who, words, again));
        return new AskingDialog(
                request.map(one -> "Call about: " + one.about()).orElse("Note a call"),
                fields,
                "Note the call",
                () -> refusal(
                        chasing.noteCall(
                                id,
                                request.isPresent() ? Kind.RECORDS : about.getValue(),
                                request.map(RecordsRequest::id),
                                Optional.empty(),
                                who.getValue(),
                                words.getValue(),
                                again.getOptionalValue()),
                        "The call is noted."));
    }

    private static TextField spokeWith(Seen now, String label) {
        var who = wide(new TextField(label));
        who.setValue(patient(now).isEmpty() ? "the patient" : "the patient, " + patient(now));
        who.setMaxLength(200);
        return who;
    }

    private static TextField wide(TextField field) {
        field.setWidthFull();
        return field;
    }

    private Component log(Seen now) {
        var list = new OrderedList();
        list.addClassName("lq-calls");
        now.state().calls().forEach(call -> list.add(call(call)));
        Section panel = Pieces.panel("lq-log", "Telephone log");
        panel.add(Pieces.div(
                "lq-row-actions",
                Pieces.small(
                        "Note a call",
                        "Note a call",
                        () -> calling(now, kind(now), Optional.empty()).open()),
                Pieces.small(
                        "New symptoms told",
                        "New symptoms told by somebody else",
                        () -> symptoms(now, Kind.OTHER).open())));
        if (now.state().calls().isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "No call was noted yet."));
        } else {
            panel.add(list);
        }
        return panel;
    }

    private static Kind kind(Seen now) {
        return now.proposed().referral().state() == ReferralState.INFORMATION_NEEDED ? Kind.INFORMATION : Kind.OTHER;
    }

    private static ListItem call(PhoneCall call) {
        var item = new ListItem(Pieces.text("lq-strong", ChasingWords.of(call) + ", with " + call.spokeWith()));
        if (!call.said().isEmpty()) {
            item.add(Pieces.text("lq-call-words", call.said()));
        }
        item.add(Pieces.text(
                "lq-quiet",
                call.author() + ", " + DayWords.moment(call.at())
                        + call.againOn()
                                .map(day -> "; again on " + DayWords.date(day))
                                .orElse("")));
        return item;
    }

    // What came of it.

    private Optional<String> refusal(ChasingOutcome outcome, String done) {
        if (outcome instanceof ChasingOutcome.Refused(var why)) {
            return Optional.of(why);
        }
        said(outcome, done);
        return Optional.empty();
    }

    private void said(ChasingOutcome outcome, String done) {
        message.setText(
                switch (outcome) {
                    case ChasingOutcome.Done _ -> done;
                    case ChasingOutcome.Refused(var why) -> why;
                    case ChasingOutcome.Overtaken _ ->
                        "Somebody else was first, or the referral takes nothing in any more. Look again; a call that you"
                                + " noted is kept.";
                    case ChasingOutcome.Retriaged(var before, var now, var changes) ->
                        done + " " + retriaged(before, now, changes);
                });
        look();
        message.getElement().executeJs("this.focus()");
    }

    private String retriaged(TriageResult before, TriageResult now, List<String> changes) {
        var same = before.urgency().tier() == now.urgency().tier()
                && before.urgency().targetDate().equals(now.urgency().targetDate());
        var proposed = same
                ? "Proposed as before: " + ChasingWords.proposed(now, settings) + "."
                : "Proposed was " + ChasingWords.proposed(before, settings) + "; now it is "
                        + ChasingWords.proposed(now, settings) + ".";
        var hospital =
                now.urgency().tier() == Tier.SAME_DAY ? " Same day means hospital now: call a physician at once." : "";
        var back = changes.isEmpty() ? "" : " The referral is before the physician again: " + String.join(" ", changes);
        return proposed + hospital + back;
    }
}
