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
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Stream;
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

    /** A line that was entered into a list, as the browser keeps it. */
    private static final Pattern LINE = Pattern.compile("(\\w+)#entered-\\d+");

    private final Draft draft;
    private final Suggestions suggestions;
    private final Runnable changed;
    private final EditHistory history;
    private final Map<String, Place> places = new LinkedHashMap<>();
    private final Map<FormSection, List<Place>> placesOf = new LinkedHashMap<>();
    private final LesionEdits lesions;
    private Optional<LegArteries> arteries = Optional.empty();
    private List<Asked> shownAsked = List.of();

    /**
     * How far a section is filled in.
     *
     * @param known fields with a value
     * @param fields fields in all, each side counted, a list once
     * @param problems values that cannot be right
     * @param questions open questions that the proposal asks
     */
    record Progress(int known, int fields, int problems, int questions) {}

    /**
     * @param suggestions what is offered while it is typed
     * @param changed called after each change of the draft
     */
    ReferralForm(Draft draft, Suggestions suggestions, Runnable changed) {
        this.draft = draft;
        this.suggestions = suggestions;
        this.changed = changed;
        this.history = new EditHistory(draft, roots());
        this.lesions = new LesionEdits(draft, history);
        addClassName("lq-form");
        for (var section : ReferralFields.SECTIONS) {
            placesOf.put(section, new ArrayList<>());
            add(section.paired() ? pairedSection(section) : plainSection(section));
        }
        add(suggestions);
        on("lq-picked", this::picked, "path", "id");
        on("lq-other-leg", this::sameForTheOtherLeg, "section", "from");
    }

    private void on(String name, Consumer<Function<String, String>> listener, String... data) {
        var registration = getElement()
                .addEventListener(
                        name,
                        event -> listener.accept(key ->
                                event.getEventData().get("event.detail." + key).asString()));
        for (var key : data) {
            registration.addEventData("event.detail." + key);
        }
    }

    /** The paths of all single values and lists. */
    private static List<String> roots() {
        return ReferralFields.all().stream()
                .flatMap(field -> field.paired()
                        ? Stream.of("left", "right").map(side -> field.path().replace(FormField.SIDE, side))
                        : Stream.of(field.path()))
                .toList();
    }

    /** Fills in what the directory knows of the referring doctor that was chosen. */
    private void picked(Function<String, String> data) {
        if (!data.apply("path").equals(Suggestions.REFERRER_PATHS.getFirst())) {
            return;
        }
        suggestions.find(Long.parseLong(data.apply("id"))).ifPresent(entry -> {
            var values = Suggestions.referrerValues(entry);
            for (var path : Suggestions.REFERRER_PATHS) {
                set(path, values.getOrDefault(path, ""));
            }
            changedTogether(Suggestions.REFERRER_PATHS, "referring doctor from the directory");
        });
    }

    /** Gives the fields of a section that are not known of one leg what is known of the other. */
    private void sameForTheOtherLeg(Function<String, String> data) {
        var from = data.apply("from").equals("right") ? "right" : "left";
        var to = from.equals("right") ? "left" : "right";
        ReferralFields.SECTIONS.stream()
                .filter(section -> section.paired() && idOf(section).equals(data.apply("section")))
                .findFirst()
                .ifPresent(section -> {
                    var paths = new ArrayList<String>();
                    for (var field : section.fields()) {
                        var path = field.path().replace(FormField.SIDE, to);
                        var known = draft.get(field.path().replace(FormField.SIDE, from));
                        if (known.isPresent() && draft.get(path).isEmpty()) {
                            draft.putBack(path, known);
                            paths.add(path);
                        }
                    }
                    changedTogether(paths, section.title().toLowerCase(Locale.ROOT) + ", the same for the " + to);
                });
    }

    private void set(String path, String value) {
        if (value.isEmpty()) {
            draft.clear(path);
        } else {
            draft.set(path, value);
        }
    }

    private void changedTogether(List<String> paths, String words) {
        history.severalChanged(paths, words);
        paths.forEach(this::showAgain);
        changed.run();
    }

    private void showAgain(String root) {
        switch (places.get(root)) {
            case FieldCell cell -> cell.show(draft.get(root));
            case EntriesCell list -> list.refresh();
            case null, default -> throw new IllegalStateException("no place on the form: " + root);
        }
    }

    /** Takes the last change back. */
    void undo() {
        history.undo().ifPresent(this::turned);
    }

    /** Makes again what was taken back last. */
    void redo() {
        history.redo().ifPresent(this::turned);
    }

    private void turned(EditHistory.Turned turned) {
        turned.roots().forEach(this::showAgain);
        changed.run();
        placeFor(turned.path()).ifPresent(Place::goTo);
    }

    /** What would be taken back, in words; empty when nothing can. */
    String undoWords() {
        return history.undoWords();
    }

    /** What would be made again, in words; empty when nothing can. */
    String redoWords() {
        return history.redoWords();
    }

    /** Puts the cursor where a new referral begins. */
    void begin() {
        getElement().callJsFunction("begin");
    }

    /** Tells the browser which questions are open, most decisive first. */
    void ask(List<Question> questions, Function<Question, String> by) {
        var asked = questions.stream()
                .map(question -> new Asked(question.field(), question.ask(), by.apply(question)))
                .toList();
        if (!asked.equals(shownAsked)) {
            shownAsked = asked;
            getElement().setPropertyList("asked", asked);
        }
    }

    /**
     * A question as the browser shows it.
     *
     * @param by until when it is to be asked
     */
    record Asked(String path, String ask, String by) {}

    /**
     * Takes in what was typed on an earlier page that could not hand it over.
     *
     * @return what was not taken in, since somebody else has typed something else there meanwhile
     */
    List<LeftOver> takeIn(List<LeftOver> leftOver) {
        var refused = new ArrayList<LeftOver>();
        for (var typed : leftOver) {
            var line = LINE.matcher(typed.path());
            if (line.matches()) {
                if (places.get(line.group(1)) instanceof EntriesCell list) {
                    list.enter(typed.value());
                }
            } else if (places.get(typed.path()) instanceof FieldCell cell
                    && !cell.shown().equals(typed.value())) {
                if (cell.shown().equals(typed.before())) {
                    cell.enter(typed.value());
                } else {
                    refused.add(typed);
                }
            }
        }
        return refused;
    }

    /** Tells the browser that all it had typed until then is saved. */
    void saved(int until) {
        getElement().callJsFunction("saved", until);
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
                    var picture = LegArteries.toEdit(lesions, () -> {
                        cell.refresh();
                        changed.run();
                    });
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
        for (var side : GradeWords.AS_PATIENT_FACES) {
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
        history.noticed(path);
        changed.run();
    }

    private final class ListChanges implements EntriesCell.Listener {

        @Override
        public void changed(String path, Optional<Object> value) {
            write(path, value);
        }

        @Override
        public void restructured(EntriesCell list) {
            history.listChanged(list.path());
            redrawn(list);
            changed.run();
        }

        @Override
        public void redrawn(EntriesCell list) {
            remove(places.keySet(), list.path());
            list.cells().forEach(cell -> places.put(cell.path(), cell));
        }

        private static void remove(Collection<String> paths, String list) {
            paths.removeIf(path -> path.startsWith(list + "["));
        }
    }
}
