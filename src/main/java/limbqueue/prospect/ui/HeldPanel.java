package limbqueue.prospect.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.select.Select;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.access.AuditTrail;
import limbqueue.booking.HeldTime;
import limbqueue.forecast.HeldBack;
import limbqueue.forecast.HeldBack.Point;
import limbqueue.governance.RangePicture;
import limbqueue.prospect.HeldPicture;
import limbqueue.shell.CountedWords;
import limbqueue.shell.DayWords;
import limbqueue.shell.DrawnPicture;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;
import limbqueue.timetable.HeldTimeChoice;

/** What holding time for urgent cases brings and costs, and the choice of it. */
final class HeldPanel {

    private static final List<String> HEADER = List.of(
            "Minutes held a week",
            "Released, days before",
            "On",
            "Urgent cases that find room",
            "By simulation",
            "Minutes a week that nobody uses",
            "By simulation",
            "Outdone by another choice");

    private final AuditTrail auditTrail;
    private final List<Point> curve;
    private final Optional<HeldTimeChoice> chosen;
    private final Optional<Consumer<Point>> choose;
    private final Div shown = Pieces.div("lq-forecast-held");
    private final Select<Integer> release = new Select<>();
    private final Select<Point> minutes = new Select<>();

    /**
     * @param chosen what is held now
     * @param choose holds what was chosen; empty for who may only read
     */
    HeldPanel(
            AuditTrail auditTrail,
            List<Point> curve,
            Optional<HeldTimeChoice> chosen,
            Optional<Consumer<Point>> choose) {
        this.auditTrail = auditTrail;
        this.curve = curve;
        this.chosen = chosen;
        this.choose = choose;
    }

    Section of() {
        var panel = Pieces.panel("lq-forecast-hold", "Time held for urgent cases");
        panel.add(Pieces.paragraph("lq-figure-says", now()));
        if (curve.isEmpty()) {
            panel.add(Pieces.paragraph(
                    "lq-nothing", "No usual week of sessions is known, so there is no curve to choose from."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "Urgent cases are those of 5 days; those of the same day go to hospital. A case finds room where all of its"
                        + " minutes are still held within its days. What is released finds another patient with a share of 30 %"
                        + " for each day of notice (common practice, no source). More held time finds more of them room, and"
                        + " wastes more."));
        var days = curve.stream().map(Point::releaseDays).distinct().sorted().toList();
        release.setLabel("Released, days before");
        release.setItems(days);
        var usual = chosen.map(HeldTimeChoice::releaseDays).orElse(HeldTime.USUAL_RELEASE_DAYS);
        release.setValue(days.contains(usual) ? usual : days.getFirst());
        minutes.setLabel("Minutes held a week");
        minutes.setItemLabelGenerator(point -> String.valueOf(point.minutes()));
        release.addValueChangeListener(event -> show(event.getValue()));
        var form = Pieces.div("lq-forecast-choice", release);
        choose.ifPresent(act -> form.add(
                minutes,
                Pieces.primary(
                        "Hold this from now on",
                        () -> minutes.getOptionalValue().ifPresent(act))));
        form.getElement().setAttribute("role", "group").setAttribute("aria-label", "Time held for urgent cases");
        panel.add(form);
        panel.add(Pieces.paragraph(
                "lq-quiet",
                choose.isPresent()
                        ? "It is written into every open session of the procedure room from today on, whatever that held"
                                + " before, and into those that are entered later. Every plan obeys it."
                        : "The manager chooses. Every plan obeys it."));
        panel.add(shown);
        show(release.getValue());
        return panel;
    }

    /** Leads whoever has chosen back to where that was. */
    void focus() {
        minutes.focus();
    }

    private String now() {
        return chosen.map(choice -> choice.inAWeek() == 0
                        ? "Nothing is held now, as %s chose on %s."
                                .formatted(choice.author(), DayWords.moment(choice.at()))
                        : "%s held now (%s), released %s before, as %s chose on %s."
                                .formatted(
                                        CountedWords.of(choice.inAWeek(), "minute a week is", "minutes a week are"),
                                        ForecastWords.days(choice.minutes()),
                                        CountedWords.of(choice.releaseDays(), "day"),
                                        choice.author(),
                                        DayWords.moment(choice.at())))
                .orElse("Nobody has chosen to hold time in every week yet.");
    }

    private void show(int releaseDays) {
        var points = curve.stream()
                .filter(point -> point.releaseDays() == releaseDays)
                .toList();
        minutes.setItems(points);
        minutes.setValue(points.stream()
                .filter(point -> chosen.filter(choice -> choice.inAWeek() == point.minutes())
                        .isPresent())
                .findFirst()
                .orElse(points.getFirst()));
        var worthwhile = HeldBack.worthwhile(curve);
        var all = table(curve, worthwhile);
        shown.removeAll();
        shown.add(Pieces.div(
                "lq-figure",
                Pieces.div(
                        "lq-figure-head",
                        new H3(
                                releaseDays == 0
                                        ? "Held to the last"
                                        : "Released %s before".formatted(CountedWords.of(releaseDays, "day"))),
                        all.csv(auditTrail)),
                Pieces.div(
                        "lq-forecast-pictures",
                        drawn(HeldPicture.found(curve, releaseDays)),
                        drawn(HeldPicture.wasted(curve, releaseDays))),
                table(points, worthwhile).onPage()));
    }

    private static FigureTable table(List<Point> points, List<Point> worthwhile) {
        return new FigureTable(
                "held time",
                HEADER,
                points.stream()
                        .map(point -> ForecastWords.choice(point, !worthwhile.contains(point)))
                        .toList());
    }

    private static Div drawn(RangePicture picture) {
        return new Div(
                new H3(picture.title()),
                new DrawnPicture(picture.svg()),
                Pieces.paragraph("lq-quiet", picture.description()));
    }
}
