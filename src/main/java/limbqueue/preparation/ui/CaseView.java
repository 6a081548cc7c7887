package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.Header;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.textfield.IntegerField;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.component.timepicker.TimePicker;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import jakarta.annotation.security.RolesAllowed;
import java.io.ByteArrayInputStream;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.CaseItem;
import limbqueue.preparation.CaseOutcome;
import limbqueue.preparation.CaseSheets;
import limbqueue.preparation.PlanLines;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.preparation.ProcedureBooking;
import limbqueue.preparation.Readiness;
import limbqueue.preparation.ReadinessGate;
import limbqueue.preparation.Standing;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.ResultsOutcome;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.triage.TriageResult;
import limbqueue.triage.plan.StentNeed;

/** One case under preparation: the gate to the room, the work-up, the booking, the stents, and what became of it. */
@Route("referrals/:" + CaseView.ID + "/preparation")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
class CaseView extends Div implements BeforeEnterObserver, HasDynamicTitle {

    static final String ID = "id";

    /** After how many days what was asked for is asked for again, unless somebody says otherwise. */
    private static final int CHASE_AFTER_DAYS = 3;

    private final Preparation preparation;
    private final CaseSheets sheets;
    private final PracticeSettings settings;
    private final boolean physician;
    private final Div message = new Div();
    private String title = "Preparation · LimbQueue";

    CaseView(Preparation preparation, CaseSheets sheets, PracticeSettings settings, CurrentPerson person) {
        this.preparation = preparation;
        this.sheets = sheets;
        this.settings = settings;
        this.physician = person.get().role() == Role.PHYSICIAN;
        addClassNames("lq-page", "lq-case");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status").setAttribute("tabindex", "-1");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        try {
            var id = Long.parseLong(event.getRouteParameters().get(ID).orElse(""));
            message.setText("");
            show(preparation.get(id));
        } catch (NumberFormatException | ReferralNotFoundException missing) {
            event.rerouteToError(NotFoundException.class, "There is no referral with this number.");
        }
    }

    @Override
    public String getPageTitle() {
        return title;
    }

    private void show(PreparationCase prepared) {
        removeAll();
        title = prepared.proposed().referral().reference() + ", preparation · LimbQueue";
        var side = Pieces.div("lq-stack", booking(prepared), stents(prepared), plan(prepared));
        add(
                head(prepared),
                message,
                gate(prepared),
                Pieces.div("lq-case-columns", Pieces.div("lq-stack", workUp(prepared), history(prepared)), side));
        if (prepared.inRoom() || prepared.record().isPresent()) {
            side.addComponentAsFirst(outcome(prepared));
        }
    }

    private Component head(PreparationCase prepared) {
        var proposed = prepared.proposed();
        var referral = proposed.referral();
        var facts = Pieces.div("lq-case-facts");
        proposed.document()
                .patient()
                .born()
                .ifPresent(born -> facts.add(Pieces.text("lq-case-fact", "born " + Words.date(born))));
        facts.add(
                Pieces.text("lq-case-fact", referral.reference()),
                Pieces.text("lq-case-fact", Words.of(referral.state())),
                Pieces.text(
                        "lq-strong",
                        Words.tier(proposed.tier(), settings.policy())
                                + proposed.targetDate()
                                        .map(day -> ", by " + Words.date(day))
                                        .orElse("")));
        var links = Pieces.div(
                "lq-case-links",
                new Anchor("referrals/" + referral.id(), "The referral"),
                new Anchor("referrals/" + referral.id() + "/chasing", "Records and calls"),
                new Anchor("preparation", "All cases"),
                sheet(prepared));
        var name = new H1(prepared.patient().isEmpty() ? "Name not known" : prepared.patient());
        var head = new Header(Pieces.div("lq-case-who", name, facts, new Notice(TriageResult.NOTICE)), links);
        head.addClassName("lq-case-head");
        return head;
    }

    private Component sheet(PreparationCase prepared) {
        var id = prepared.id();
        var file = prepared.proposed().referral().reference().replaceAll("[^A-Za-z0-9-]", "-") + "-case-sheet.pdf";
        var link = new Anchor(
                DownloadHandler.fromInputStream(_ -> {
                            var bytes = sheets.pdf(id);
                            return new DownloadResponse(
                                    new ByteArrayInputStream(bytes), file, "application/pdf", bytes.length);
                        })
                        .inline(),
                "Case sheet (PDF)");
        link.setTarget(AnchorTarget.BLANK);
        link.addClassName("lq-print");
        return link;
    }

    // The gate.

    private Component gate(PreparationCase prepared) {
        var readiness = prepared.readiness();
        var panel = Pieces.panel("lq-gate", "Room readiness");
        panel.addClassName(
                switch (readiness) {
                    case Readiness.Ready _ -> "lq-gate-open";
                    case Readiness.NotReady _ -> "lq-gate-shut";
                    case Readiness.Overridden _ -> "lq-gate-overridden";
                });
        panel.add(Pieces.paragraph("lq-gate-state", gateState(prepared)));
        if (readiness instanceof Readiness.Overridden(var reasons, var by)) {
            panel.add(Pieces.paragraph(
                    "lq-gate-why", "“" + by.reason() + "” " + by.author() + ", " + Words.moment(by.at())));
        }
        var obstacles = readiness.obstacles();
        if (!obstacles.isEmpty()) {
            var list = new UnorderedList();
            list.addClassName("lq-obstacles");
            obstacles.forEach(obstacle -> {
                var line = new ListItem(Pieces.text("lq-obstacle", obstacle.what()));
                // What to do about the work-up stands beside each item below.
                if (obstacle.kind() != Readiness.Kind.WORK_UP) {
                    line.add(Pieces.text("lq-quiet", obstacle.remedy()));
                }
                list.add(line);
            });
            panel.add(list);
        }
        if (readiness instanceof Readiness.NotReady && prepared.override().isPresent()) {
            var fallen = prepared.override().get();
            panel.add(Pieces.paragraph(
                    "lq-quiet",
                    "The override that " + fallen.author() + " gave on " + Words.moment(fallen.at())
                            + " holds no more: it was given for other facts."));
        }
        var actions = Pieces.div("lq-row-actions lq-gate-actions");
        var id = prepared.id();
        if (prepared.record().isEmpty()) {
            if (prepared.inRoom()) {
                actions.add(Pieces.small(
                        "Take back from the room",
                        "Take back from the room",
                        () -> done(id, preparation.takeBack(id), "The case is back from the room.")));
            } else {
                actions.add(Pieces.primary(
                        "Send to the room",
                        () -> done(id, preparation.sendToRoom(id), "The case has gone to the room.")));
                if (physician
                        && readiness instanceof Readiness.NotReady(var reasons)
                        && ReadinessGate.overridable(reasons)) {
                    actions.add(Pieces.small(
                            "Go ahead all the same…",
                            "Override the gate",
                            () -> overriding(prepared).open()));
                }
            }
        }
        panel.add(actions);
        return panel;
    }

    private static String gateState(PreparationCase prepared) {
        if (prepared.record().isPresent()) {
            return "Over";
        }
        var where = prepared.booking()
                .filter(booking -> prepared.inRoom())
                .map(booking -> "In the room since "
                        + Words.moment(booking.readyAt().orElseThrow()) + ", sent by "
                        + booking.readyBy().orElse(""));
        return where.orElseGet(() -> switch (prepared.readiness()) {
            case Readiness.Ready _ -> "Ready for the room";
            case Readiness.NotReady(var reasons) ->
                "Not ready: " + (reasons.size() == 1 ? "1 reason" : reasons.size() + " reasons");
            case Readiness.Overridden(var reasons, var by) -> "Goes ahead by word of " + by.author();
        });
    }

    private AskingDialog overriding(PreparationCase prepared) {
        var id = prepared.id();
        var reason = new TextArea("Why the case goes ahead all the same");
        reason.setWidthFull();
        var fields = new ArrayList<Component>();
        fields.add(reason);
        prepared.readiness().obstacles().forEach(obstacle -> fields.add(Pieces.paragraph("lq-quiet", obstacle.what())));
        fields.add(Pieces.paragraph(
                "lq-quiet", "It holds for exactly these facts, and falls as soon as one of them changes."));
        return new AskingDialog(
                "Go ahead although the case is not ready",
                fields,
                "Go ahead",
                () -> refusal(
                        id,
                        preparation.override(id, prepared.facts(), reason.getValue()),
                        "The case goes ahead by your word."));
    }

    // The work-up.

    private Component workUp(PreparationCase prepared) {
        var panel = Pieces.panel("lq-items", "Work-up");
        if (prepared.items().isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "None proposed."));
        }
        prepared.items().forEach(item -> panel.add(item(prepared, item)));
        return panel;
    }

    private Component item(PreparationCase prepared, CaseItem item) {
        var what = new H3(item.what());
        var state = Pieces.text("lq-item-state", state(item));
        var about = Pieces.div("lq-item-about", what, state);
        item.at()
                .ifPresent(at -> state.setText(state.getText() + " (" + item.author() + ", " + Words.moment(at) + ")"));
        if (!item.why().isEmpty()) {
            var why = new NativeDetails("Why");
            why.addClassName("lq-why");
            why.setContent(new Div(
                    new Paragraph(item.why()), Pieces.paragraph("lq-quiet", "Proposed. Source: " + item.source())));
            about.add(why);
        }
        var row = Pieces.div("lq-item", mark(item), about, actions(prepared, item));
        row.setClassName("lq-item-red", item.red());
        return row;
    }

    /** Whether the item is open, in a shape and a word. */
    private static Component mark(CaseItem item) {
        var word = !item.proposed()
                ? "no longer proposed"
                : item.red() ? "open" : item.settled() ? "done" : item.aboutStents() ? "see stents" : "when it suits";
        return Pieces.text(
                "lq-item-mark " + (item.red() ? "lq-mark-open" : item.settled() ? "lq-mark-done" : "lq-mark-later"),
                word);
    }

    private static String state(CaseItem item) {
        var held = item.validUntil().map(day -> "held, counts until " + Words.date(day));
        if (item.aboutStents()) {
            return "the gate looks at the stent itself";
        }
        if (!item.needed() && item.proposed() && item.standing() instanceof Standing.Wanted) {
            return held.orElse("held");
        }
        var standing = Words.of(item.standing());
        return item.needed() && held.isPresent() ? standing + "; what is " + held.get() + " only" : standing;
    }

    private Component actions(PreparationCase prepared, CaseItem item) {
        var buttons = Pieces.div("lq-row-actions");
        if (prepared.record().isPresent() || !item.proposed() || item.aboutStents()) {
            return buttons;
        }
        var about = item.what();
        ResultFields.of(item.code(), preparation.today())
                .ifPresent(fields -> buttons.add(Pieces.small(
                        "Type in",
                        "Type in: " + about,
                        () -> typing(prepared, Optional.of(item), about).open())));
        if (item.settled() && item.version() > 0) {
            buttons.add(Pieces.small(
                    "Open again", "Open again: " + about, () -> follow(prepared, item, new Standing.Wanted())));
        } else if (item.needed()) {
            buttons.add(
                    Pieces.small(
                            "Asked",
                            "Asked: " + about,
                            () -> asking(prepared, item).open()),
                    Pieces.small(
                            "Booked",
                            "Booked: " + about,
                            () -> bookingOf(prepared, item).open()),
                    Pieces.small(
                            "In", "In: " + about, () -> follow(prepared, item, new Standing.In(preparation.today()))),
                    Pieces.small(
                            "Not needed",
                            "Not needed: " + about,
                            () -> notNeeded(prepared, item).open()));
        }
        return buttons;
    }

    private AskingDialog asking(PreparationCase prepared, CaseItem item) {
        var today = preparation.today();
        var of = new TextField("Asked of");
        of.setWidthFull();
        of.setValue(
                item.standing() instanceof Standing.Asked(var before, var on, var chase)
                        ? before
                        : prepared.proposed().document().referrer().name().orElse(""));
        var on = Pieces.date("On", today);
        var chase = Pieces.date("Chase it on", today.plusDays(CHASE_AFTER_DAYS));
        return new AskingDialog(
                "Asked: " + item.what(),
                List.of(of, on, chase),
                "Save",
                () -> on.isEmpty() || chase.isEmpty()
                        ? Optional.of("Choose both days.")
                        : refusal(
                                prepared.id(),
                                preparation.track(
                                        prepared.id(),
                                        item.code(),
                                        item.version(),
                                        new Standing.Asked(of.getValue().strip(), on.getValue(), chase.getValue())),
                                "Asked: " + item.what() + "."));
    }

    private AskingDialog bookingOf(PreparationCase prepared, CaseItem item) {
        var where = new TextField("Where");
        where.setWidthFull();
        var on = Pieces.date("For", preparation.today().plusDays(1));
        return new AskingDialog(
                "Booked: " + item.what(),
                List.of(where, on),
                "Save",
                () -> on.isEmpty()
                        ? Optional.of("Choose the day.")
                        : refusal(
                                prepared.id(),
                                preparation.track(
                                        prepared.id(),
                                        item.code(),
                                        item.version(),
                                        new Standing.Booked(
                                                on.getValue(), where.getValue().strip())),
                                "Booked: " + item.what() + "."));
    }

    private AskingDialog notNeeded(PreparationCase prepared, CaseItem item) {
        var reason = new TextArea("Why it is not needed");
        reason.setWidthFull();
        return new AskingDialog(
                "Not needed: " + item.what(),
                List.of(reason, Pieces.paragraph("lq-quiet", "Your name stands beside it.")),
                "Save",
                () -> refusal(
                        prepared.id(),
                        preparation.track(
                                prepared.id(),
                                item.code(),
                                item.version(),
                                new Standing.NotNeeded(reason.getValue().strip())),
                        "Not needed: " + item.what() + "."));
    }

    private void follow(PreparationCase prepared, CaseItem item, Standing standing) {
        done(
                prepared.id(),
                preparation.track(prepared.id(), item.code(), item.version(), standing),
                item.what() + ": " + Words.of(standing) + ".");
    }

    private AskingDialog typing(PreparationCase prepared, Optional<CaseItem> item, String about) {
        return typing(
                prepared,
                item,
                about,
                ResultFields.of(item.orElseThrow().code(), preparation.today()).orElseThrow());
    }

    private AskingDialog typing(PreparationCase prepared, Optional<CaseItem> item, String about, ResultFields fields) {
        var id = prepared.id();
        return new AskingDialog("Type in: " + about, fields.fields(), "Save", () -> {
            try {
                return entered(
                        id,
                        about,
                        preparation.enterResults(
                                id,
                                prepared.proposed().referral().version(),
                                item.map(CaseItem::code),
                                fields.typed()));
            } catch (ResultFields.NotTyped notTyped) {
                return Optional.of(notTyped.why);
            }
        });
    }

    private Optional<String> entered(long id, String about, ResultsOutcome outcome) {
        return switch (outcome) {
            case ResultsOutcome.NotRight(var problems) ->
                Optional.of(String.join(
                        " ", problems.stream().map(problem -> problem.text()).toList()));
            case ResultsOutcome.Overtaken _ -> {
                said(id, "Somebody else changed the referral meanwhile. Look again, and type it in once more.");
                yield Optional.empty();
            }
            case ResultsOutcome.Entered(var referral, var changes) -> {
                said(
                        id,
                        changes.isEmpty()
                                ? about + " is typed in."
                                        + (referral.state() == ReferralState.APPROVED ? " The decision stands." : "")
                                : about + " is typed in. The referral is before the physician again: "
                                        + String.join(" ", changes));
                yield Optional.empty();
            }
        };
    }

    private Component history(PreparationCase prepared) {
        var steps = preparation.steps(prepared.id());
        var list = new OrderedList();
        var names = prepared.items().stream().collect(Collectors.toMap(CaseItem::code, CaseItem::what));
        steps.forEach(step ->
                list.add(new ListItem(names.getOrDefault(step.code(), step.code()) + ": " + Words.state(step.state())
                        + (step.details().isEmpty() ? "" : " (" + step.details() + ")") + ". " + step.author() + ", "
                        + Words.moment(step.at()))));
        preparation
                .overrides(prepared.id())
                .forEach(override -> list.add(new ListItem("Gate overridden: “" + override.reason() + "” "
                        + override.author() + ", " + Words.moment(override.at()))));
        var details = new NativeDetails(
                "What was done, newest first (" + list.getChildren().count() + ")");
        details.setContent(list);
        details.addClassName("lq-history");
        return details;
    }

    // Booking, stents, outcome.

    private Component booking(PreparationCase prepared) {
        var panel = Pieces.panel("lq-booking", "Procedure");
        panel.add(prepared.booking()
                .map(booking ->
                        Pieces.paragraph("lq-booked", Words.procedure(booking.starts()) + ", " + booking.room()))
                .orElseGet(() -> Pieces.paragraph("lq-quiet", "Not booked.")));
        prepared.booking()
                .ifPresent(booking -> panel.add(Pieces.paragraph(
                        "lq-quiet", "Booked by " + booking.author() + ", " + Words.moment(booking.at()))));
        if (!prepared.inRoom() && prepared.record().isEmpty()) {
            panel.add(Pieces.small(
                    prepared.booking().isPresent() ? "Book anew" : "Book",
                    "Book the procedure",
                    () -> bookingDialog(prepared).open()));
        }
        return panel;
    }

    private AskingDialog bookingDialog(PreparationCase prepared) {
        var before = prepared.booking();
        var day = Pieces.date(
                "Day",
                before.map(booking -> booking.starts().toLocalDate())
                        .orElseGet(() -> preparation.today().plusDays(7)));
        var time = new TimePicker(
                "Time", before.map(booking -> booking.starts().toLocalTime()).orElse(LocalTime.of(8, 0)));
        time.setLocale(Locale.UK);
        time.setAutoOpen(false);
        time.setStep(Duration.ofMinutes(15));
        time.setWidthFull();
        var room = new TextField("Room");
        room.setValue(before.map(ProcedureBooking::room).orElse(""));
        room.setWidthFull();
        return new AskingDialog(
                "Book the procedure",
                List.of(day, time, room),
                "Book",
                () -> day.isEmpty() || time.isEmpty()
                        ? Optional.of("Choose day and time.")
                        : refusal(
                                prepared.id(),
                                preparation.book(
                                        prepared.id(),
                                        before.map(ProcedureBooking::version).orElse(0),
                                        LocalDateTime.of(day.getValue(), time.getValue()),
                                        room.getValue()),
                                "Booked for " + Words.date(day.getValue()) + "."));
    }

    private Component stents(PreparationCase prepared) {
        var panel = Pieces.panel("lq-needs", "Covered stents in the room");
        if (prepared.needs().isEmpty()) {
            panel.add(Pieces.paragraph(
                    "lq-quiet", "None needed: no iliac occlusion and no calcified iliac narrowing is reported."));
        }
        prepared.needs().forEach(need -> panel.add(need(prepared, need)));
        return panel;
    }

    private Component need(PreparationCase prepared, StentNeed need) {
        var id = prepared.id();
        var vessel = ReadinessGate.vessel(need);
        var block = Pieces.div(
                "lq-need",
                Pieces.paragraph("lq-strong", vessel.substring(0, 1).toUpperCase(Locale.ROOT) + vessel.substring(1)),
                Pieces.paragraph(
                        "lq-line", need.vesselMm().isEmpty() ? "diameter not known" : ReadinessGate.size(need)));
        var open = !prepared.inRoom() && prepared.record().isEmpty();
        if (open && (need.vesselMm().isEmpty() || !need.unknown().isEmpty() || need.sideOpen())) {
            block.add(Pieces.small(
                    "Type in what imaging shows",
                    "Type in what imaging shows of the " + vessel,
                    () -> typing(prepared, Optional.empty(), "The " + vessel, ResultFields.of(need))
                            .open()));
        }
        if (need.sideOpen()) {
            return block;
        }
        var side = need.side();
        var confirmed = prepared.confirmed(need);
        if (confirmed.isPresent()) {
            var stent = confirmed.get().stent();
            block.add(Pieces.paragraph(
                    "lq-confirmed",
                    "In the room: " + ReadinessGate.size(stent) + ", " + stent.sheathFrench() + " Fr, lot "
                            + stent.lot() + ", to be used until " + Words.date(stent.expires())));
            block.add(Pieces.paragraph(
                    "lq-quiet",
                    "Seen there by " + confirmed.get().author() + ", "
                            + Words.moment(confirmed.get().at())));
            if (open) {
                block.add(Pieces.small(
                        "Not there after all",
                        "The stent for the " + vessel + " is not there after all",
                        () -> done(
                                id,
                                preparation.withdrawStent(id, side, need.segment()),
                                "The confirmation is withdrawn.")));
            }
            return block;
        }
        if (!open) {
            return block;
        }
        for (var stent : prepared.fitting(need)) {
            var words = ReadinessGate.size(stent) + ", " + stent.sheathFrench() + " Fr, lot " + stent.lot();
            var line = Pieces.div(
                    "lq-fitting",
                    Pieces.text("lq-line", words + ", " + stent.place()),
                    Pieces.text(
                            "lq-quiet",
                            "until " + Words.date(stent.expires()) + "; " + stent.count() + " there"
                                    + (stent.promised() > 0 ? ", " + stent.promised() + " confirmed for cases" : "")));
            if (stent.count() > stent.promised()) {
                line.add(Pieces.small(
                        "It is in the room",
                        words + " is in the room",
                        () -> done(
                                id,
                                preparation.confirmStent(id, side, need.segment(), stent.id()),
                                words + " is confirmed in the room.")));
            }
            block.add(line);
        }
        if (need.vesselMm().isPresent() && prepared.fitting(need).isEmpty()) {
            block.add(
                    Pieces.paragraph("lq-quiet", "None in stock fits."),
                    new Anchor("stents", "Stock of covered stents"));
        }
        return block;
    }

    private Component plan(PreparationCase prepared) {
        var panel = Pieces.panel("lq-plan", "Plan, as proposed");
        var plan = prepared.proposed().proposal().procedurePlan();
        if (plan.isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "None: advice only is proposed."));
            return panel;
        }
        if (plan.get().access().isEmpty()) {
            panel.add(Pieces.paragraph("lq-quiet", "No access is proposed before the arteries are imaged."));
        }
        PlanLines.access(plan.get()).forEach(line -> panel.add(Pieces.paragraph("lq-line", line)));
        var room = new UnorderedList();
        plan.get()
                .room()
                .forEach(item -> room.add(
                        new ListItem(Pieces.text(item.mustBeInRoom() ? "lq-strong" : "lq-line", item.item()))));
        panel.add(room);
        preparation
                .expectedMinutes(prepared)
                .ifPresent(minutes -> panel.add(Pieces.paragraph("lq-quiet", PlanLines.minutes(minutes))));
        panel.add(Pieces.paragraph("lq-quiet", "Reasons and cautions stand on the page of the referral."));
        return panel;
    }

    private Component outcome(PreparationCase prepared) {
        var panel = Pieces.panel("lq-outcome", "What became of it");
        if (prepared.record().isPresent()) {
            var record = prepared.record().get();
            panel.add(Pieces.paragraph(
                    "lq-line",
                    record.minutes() + " minutes, " + record.access() + ", "
                            + record.outcome().words() + "."));
            if (!record.note().isEmpty()) {
                panel.add(Pieces.paragraph("lq-line", "“" + record.note() + "”"));
            }
            panel.add(Pieces.paragraph("lq-quiet", record.author() + ", " + Words.moment(record.at())));
            return panel;
        }
        panel.add(Pieces.primary("Record the case", () -> recording(prepared).open()));
        return panel;
    }

    private AskingDialog recording(PreparationCase prepared) {
        var minutes = new IntegerField("Minutes in the room, from coming in to leaving");
        var access = new TextField("Access used");
        var outcome = new RadioButtonGroup<CaseOutcome>("How it ended");
        outcome.setItems(CaseOutcome.values());
        outcome.setItemLabelGenerator(CaseOutcome::words);
        outcome.setValue(CaseOutcome.AS_PLANNED);
        var note = new TextArea("What went wrong, if anything did");
        minutes.setWidthFull();
        access.setWidthFull();
        note.setWidthFull();
        var id = prepared.id();
        return new AskingDialog(
                "Record the case",
                List.of(minutes, access, outcome, note),
                "Record",
                () -> minutes.getOptionalValue()
                        .map(value -> refusal(
                                id,
                                preparation.record(id, value, access.getValue(), outcome.getValue(), note.getValue()),
                                "The case is recorded."))
                        .orElse(Optional.of("Say how many minutes it took.")));
    }

    // What every step leads to.

    private Optional<String> refusal(long id, PreparationOutcome outcome, String said) {
        if (outcome instanceof PreparationOutcome.Refused(var why)) {
            return Optional.of(why);
        }
        done(id, outcome, said);
        return Optional.empty();
    }

    private void done(long id, PreparationOutcome outcome, String said) {
        said(
                id,
                switch (outcome) {
                    case PreparationOutcome.Done _ -> said;
                    case PreparationOutcome.Overtaken _ ->
                        "Somebody else was faster, or the facts have changed. Nothing was done; look again.";
                    case PreparationOutcome.Refused(var why) -> why;
                });
    }

    private void said(long id, String words) {
        message.setText(words);
        show(preparation.get(id));
        // What was pressed is gone with the old page; the next key press starts here.
        message.getElement().executeJs("this.focus({preventScroll: true})");
    }
}
