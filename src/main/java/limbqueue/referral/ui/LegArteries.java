package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.Tag;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.dom.DomEvent;
import com.vaadin.flow.dom.DomEventListener;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.picture.LegPicture;
import limbqueue.referral.ui.FieldKind.Amount;
import limbqueue.referral.ui.FieldKind.Choice;
import limbqueue.referral.ui.FieldKind.YesNo;

/**
 * The arteries of both legs, drawn and said in words, to read or to enter lesions on. Drawn in the browser, see
 * {@code frontend/lq-arteries.js}.
 */
@Tag("lq-arteries")
@JavaScript("context://ui/lq-arteries.js")
@StyleSheet("context://ui/arteries.css")
final class LegArteries extends Component {

    /** A lesion's place is chosen on the picture itself. */
    private static final Set<String> SAID_BY_THE_PLACE = Set.of("side", "segment");

    private Optional<LegPicture> shown = Optional.empty();
    private Optional<LesionEdits.Typed> typed = Optional.empty();

    /**
     * A field of a lesion as the picture's editor asks it.
     *
     * @param options the answers to choose from; empty where a figure is typed
     */
    private record Asked(String path, String label, String hint, String unit, List<Choice.Option> options) {}

    private LegArteries() {}

    /** The arteries to look at, their words folded away. */
    static LegArteries toRead(LegPicture picture) {
        var arteries = new LegArteries();
        arteries.getElement().setAttribute("compact", true);
        arteries.show(picture);
        return arteries;
    }

    /**
     * The arteries to enter lesions on.
     *
     * @param changed called after each change of {@code lesions}
     */
    static LegArteries toEdit(LesionEdits lesions, Runnable changed) {
        var arteries = new LegArteries();
        arteries.getElement().setAttribute("editable", true);
        arteries.getElement()
                .setPropertyList(
                        "fields",
                        LesionEdits.FIELDS.stream()
                                .filter(field -> !SAID_BY_THE_PLACE.contains(field.path()))
                                .map(LegArteries::asked)
                                .toList());
        arteries.on(
                "lesion-set",
                event -> lesions.set(number(event, "index"), text(event, "field"), text(event, "value")),
                changed,
                "index",
                "field",
                "value");
        arteries.on(
                "lesion-add",
                event -> lesions.add(text(event, "segment"), text(event, "side")),
                changed,
                "segment",
                "side");
        arteries.on("lesion-remove", event -> lesions.remove(number(event, "index")), changed, "index");
        arteries.on("lesions-undo", _ -> lesions.undo(), changed);
        return arteries;
    }

    private void on(String name, DomEventListener listener, Runnable changed, String... data) {
        var registration = getElement().addEventListener(name, event -> {
            listener.handleEvent(event);
            changed.run();
        });
        for (var key : data) {
            registration.addEventData("event.detail." + key);
        }
    }

    private static String text(DomEvent event, String key) {
        return event.getEventData().get("event.detail." + key).asString();
    }

    private static int number(DomEvent event, String key) {
        return event.getEventData().get("event.detail." + key).asInt();
    }

    private static Asked asked(FormField field) {
        return new Asked(
                field.path(),
                field.label(),
                field.hint(),
                field.kind() instanceof Amount(var unit) ? unit : "",
                switch (field.kind()) {
                    case Choice(var options) -> options;
                    case YesNo _ -> AnswerField.YES_OR_NO;
                    case FieldKind.Amount _,
                            FieldKind.Day _,
                            FieldKind.Text _,
                            FieldKind.Given _,
                            FieldKind.Entries _ -> List.of();
                });
    }

    private void show(LegPicture picture) {
        if (!shown.equals(Optional.of(picture))) {
            shown = Optional.of(picture);
            getElement().setPropertyBean("picture", picture);
        }
    }

    /** Shows the picture as it is now, with the lesions as they are typed. */
    void show(LegPicture picture, LesionEdits.Typed lesions) {
        if (!typed.equals(Optional.of(lesions))) {
            typed = Optional.of(lesions);
            getElement().setPropertyBean("typed", lesions);
        }
        show(picture);
    }
}
