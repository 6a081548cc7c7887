package limbqueue.referral.ui;

import com.vaadin.flow.component.Tag;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.Span;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.document.Reading;
import limbqueue.picture.LegPicture;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Contradiction;
import limbqueue.triage.TriageResult.Question;

/** All fields of a referral, section by section, each writing into the draft as it is typed. */
@Tag("lq-form")
@JavaScript("context://ui/lq-form.js")
final class ReferralForm extends Div {

    private final Draft draft;
    private final Runnable changed;
    private final Map<String, Place> places = new LinkedHashMap<>();
    private final Map<FormSection, List<Place>> placesOf = new LinkedHashMap<>();
    private final LesionEdits lesions;
    private Optional<LegArteries> arteries = Optional.empty();

    /**
     * How far a section is filled in.
     *
     * @param known fields with a value
     * @param fields fields in all, each side counted, a list once
     * @param problems values that cannot be right
     * @param questions open questions that the proposal asks
     */
    record Progress(int known, int fields, int problems, int questions) {}

    /** @param changed called after each change of the draft */
    ReferralForm(Draft draft, Runnable changed) {
        this.draft = draft;
        this.changed = changed;
        this.lesions = new LesionEdits(draft);
        addClassName("lq-form");
        for (var section : ReferralFields.SECTIONS) {
            placesOf.put(section, new ArrayList<>());
            add(section.paired() ? pairedSection(section) : plainSection(section));
        }
    }

    /** Asks the browser to save a moment after the last change. */
    void saveSoon() {
        getElement().callJsFunction("saveSoon");
    }

    /** Shows problems and contradictions at their fields. */
    void tell(List<Problem> problems, List<Contradiction> contradictions) {
        var problemsAt = new LinkedHashMap<Place, List<String>>();
        for (var problem : problems) {
            placeFor(problem.path())
                    .ifPresent(place -> problemsAt
                            .computeIfAbsent(place, _ -> new ArrayList<>())
                            .add(problem.text()));
        }
        var contradictionsAt = new LinkedHashMap<Place, List<String>>();
        for (var contradiction : contradictions) {
            for (var path : contradiction.fields()) {
                placeFor(path)
                        .ifPresent(place -> contradictionsAt
                                .computeIfAbsent(place, _ -> new ArrayList<>())
                                .add(contradiction.text()));
            }
        }
        for (var place : places.values()) {
            place.tell(problemsAt.getOrDefault(place, List.of()), contradictionsAt.getOrDefault(place, List.of()));
        }
    }

    /** Draws the arteries as the draft has them now. */
    void showArteries(Reading reading, TriageResult result) {
        arteries.ifPresent(
                picture -> picture.show(LegPicture.of(reading.document(), result), lesions.typed(reading.problems())));
    }

    /** The problems in the order in which their places stand on the form. */
    List<Problem> inOrder(List<Problem> problems) {
        var order = List.copyOf(places.values());
        return problems.stream()
                .sorted(Comparator.comparing(
                        problem -> placeFor(problem.path()).map(order::indexOf).orElse(-1)))
                .toList();
    }

    /** The place of the value at {@code path}, or the one nearest to it. */
    Optional<Place> placeFor(String path) {
        var exact = places.get(path);
        if (exact != null) {
            return Optional.of(exact);
        }
        return places.values().stream()
                .filter(place -> within(place.path(), path))
                .findFirst()
                .or(() -> places.values().stream()
                        .filter(place -> within(path, place.path()))
                        .findFirst());
    }

    Progress progress(FormSection section, List<Problem> problems, List<Question> questions) {
        var own = placesOf.getOrDefault(section, List.of());
        var known = own.stream()
                .filter(place -> place instanceof EntriesCell
                        ? draft.sizeOf(place.path()).isPresent()
                        : draft.get(place.path()).isPresent())
                .count();
        return new Progress(
                (int) known,
                own.size(),
                (int) problems.stream()
                        .filter(problem -> isOf(section, problem.path()))
                        .count(),
                (int) questions.stream()
                        .filter(question -> isOf(section, question.field()))
                        .count());
    }

    private boolean isOf(FormSection section, String path) {
        return !path.isEmpty()
                && placesOf.getOrDefault(section, List.of()).stream()
                        .anyMatch(place -> place.path().equals(path) || within(path, place.path()));
    }

    /** Whether {@code inner} lies somewhere within {@code outer}. */
    private static boolean within(String inner, String outer) {
        return !outer.isEmpty() && (inner.startsWith(outer + ".") || inner.startsWith(outer + "["));
    }

    private Div plainSection(FormSection section) {
        var fields = new Div();
        fields.addClassName("lq-fields");
        for (var field : section.fields()) {
            if (field.kind() instanceof Entries entries) {
                var cell = new EntriesCell(field, entries, draft, new ListChanges());
                put(section, cell);
                cell.cells().forEach(inner -> places.put(inner.path(), inner));
                if (field.path().equals(LesionEdits.PATH)) {
                    var picture = LegArteries.toEdit(lesions, cell::refresh);
                    arteries = Optional.of(picture);
                    fields.add(picture);
                }
                fields.add(new LabelledField(field, cell));
            } else {
                var cell = new FieldCell(field.path(), field, field.label(), draft.get(field.path()), this::write);
                put(section, cell);
                fields.add(new LabelledField(field, cell));
            }
        }
        return sectionOf(section, fields);
    }

    private Div pairedSection(FormSection section) {
        var grid = new Div();
        grid.addClassName("lq-pairs");
        grid.add(pairLabel(new Div()));
        for (var field : section.fields()) {
            grid.add(pairLabel(LabelledField.label(field)));
        }
        for (var side : Side.values()) {
            grid.add(pairColumn(section, side));
        }
        return sectionOf(section, grid);
    }

    private static Div pairLabel(Div label) {
        label.addClassName("lq-pair-label");
        return label;
    }

    /** The fields of one side; they follow one another, so that the Tab key stays with one leg. */
    private Div pairColumn(FormSection section, Side side) {
        var code = side.name().toLowerCase(Locale.ROOT);
        var limb = section.fields().getFirst().path().startsWith("legs.") ? " leg" : " arm";
        var title = new Span((side == Side.LEFT ? "Left" : "Right") + limb);
        title.addClassName("lq-pair-title");
        var column = new Div(title);
        column.addClassNames("lq-pair-column", "lq-pair-" + code);
        column.getElement()
                .setAttribute("role", "group")
                .setAttribute("aria-label", section.title() + ", " + code + limb);
        for (var field : section.fields()) {
            var path = field.path().replace(FormField.SIDE, code);
            var cell = new FieldCell(path, field, field.label() + ", " + code + limb, draft.get(path), this::write);
            put(section, cell);
            column.add(cell);
        }
        return column;
    }

    private static Div sectionOf(FormSection section, Div fields) {
        var title = new H2(section.title());
        title.setId(idOf(section) + "-title");
        var block = new Div(title, fields);
        block.setId(idOf(section));
        block.addClassName("lq-section");
        block.getElement().setAttribute("role", "group").setAttribute("aria-labelledby", idOf(section) + "-title");
        return block;
    }

    /** The id of the section's element on the page. */
    static String idOf(FormSection section) {
        return "section-" + section.id();
    }

    private void put(FormSection section, Place place) {
        places.put(place.path(), place);
        placesOf.computeIfAbsent(section, _ -> new ArrayList<>()).add(place);
    }

    private void write(String path, Optional<Object> value) {
        if (value.isPresent()) {
            draft.set(path, value.get());
        } else {
            draft.clear(path);
        }
        lesions.noticed(path);
        changed.run();
    }

    private final class ListChanges implements EntriesCell.Listener {

        @Override
        public void changed(String path, Optional<Object> value) {
            write(path, value);
        }

        @Override
        public void restructured(EntriesCell list) {
            remove(places.keySet(), list.path());
            list.cells().forEach(cell -> places.put(cell.path(), cell));
            lesions.noticed("");
            changed.run();
        }

        private static void remove(Collection<String> paths, String list) {
            paths.removeIf(path -> path.startsWith(list + "["));
        }
    }
}
