package limbqueue.intake.ui;

import com.vaadin.flow.component.Key;
import com.vaadin.flow.component.KeyModifier;
import com.vaadin.flow.component.Tag;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.upload.Upload;
import com.vaadin.flow.component.upload.UploadFormat;
import com.vaadin.flow.component.upload.UploadI18N;
import com.vaadin.flow.data.value.ValueChangeMode;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.HasDynamicTitle;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.NotFoundException;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.UploadEvent;
import com.vaadin.flow.server.streams.UploadHandler;
import jakarta.annotation.security.RolesAllowed;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import limbqueue.access.Role;
import limbqueue.document.Draft;
import limbqueue.file.DroppedFile;
import limbqueue.file.Extracted;
import limbqueue.file.Received;
import limbqueue.file.ReferralFiles;
import limbqueue.intake.Answer;
import limbqueue.intake.LetterIntake;
import limbqueue.intake.OpenLetter;
import limbqueue.intake.Proposal;
import limbqueue.referral.Merging;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SaveOutcome;
import limbqueue.referral.ui.FormWords;
import limbqueue.triage.TriageResult;
import tools.jackson.databind.JsonNode;

/** A letter, pasted or dropped, beside what it proposes to enter: for a new referral, or for one that is there. */
@Route("intake/letter")
@Menu(order = 2.5, title = "From a letter")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/letter.css")
@JavaScript("context://ui/lq-letter.js")
class LetterView extends Div implements BeforeEnterObserver, HasDynamicTitle {

    /** The parameter of the address that names the referral to which the letter goes. */
    static final String REFERRAL = "referral";

    private final LetterIntake intake;
    private final ReferralFiles files;
    private final Referrals referrals;
    private final Merging merging;
    private final KeptLetters letters;

    private final H1 title = new H1("From a letter");
    private final Span count = new Span();
    private final Div told = new Div();
    private final List<ProposalRow> rows = new ArrayList<>();

    private Optional<Referral> referral = Optional.empty();
    private KeptLetters.Kept kept;

    /** Where the letter is pasted or typed. */
    private TextArea pasted = new TextArea();

    LetterView(LetterIntake intake, ReferralFiles files, Referrals referrals, Merging merging, KeptLetters letters) {
        this.intake = intake;
        this.files = files;
        this.referrals = referrals;
        this.merging = merging;
        this.letters = letters;
        this.kept = letters.of(Optional.empty());
        addClassName("lq-letter-view");
        count.addClassName("lq-quiet");
        count.getElement().setAttribute("role", "status");
        told.addClassName("lq-letter-told");
        told.getElement().setAttribute("role", "alert");
    }

    @Override
    public String getPageTitle() {
        return "From a letter · LimbQueue";
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var asked = event.getLocation().getQueryParameters().getSingleParameter(REFERRAL);
        try {
            referral = asked.map(Long::valueOf).map(referrals::get);
        } catch (NumberFormatException | ReferralNotFoundException unknown) {
            event.rerouteToError(NotFoundException.class, "There is no referral with this number.");
            return;
        }
        kept = letters.of(referral.map(Referral::id));
        tell("");
        if (referral.filter(there -> !isOpen(there)).isPresent()) {
            showDecided(referral.get());
        } else {
            readWhatTheFormHas();
            // The referral may have been filled in further meanwhile.
            kept.letter().ifPresent(before -> readAgain(before, before.text()));
            kept.letter().ifPresentOrElse(this::showRead, this::showEmpty);
        }
    }

    /** Whether more may be entered; a part of another referral rests. */
    private boolean isOpen(Referral referral) {
        return merging.wholeOf(referral.id()).isEmpty() && isOpen(referral.state());
    }

    private static boolean isOpen(ReferralState state) {
        return switch (state) {
            case DRAFT, QUEUED, INFORMATION_NEEDED -> true;
            case APPROVED, RETURNED, SENT_TO_HOSPITAL -> false;
        };
    }

    /** A referral that has its letter and nothing on its way here begins with that letter. */
    private void readWhatTheFormHas() {
        if (kept.letter().isEmpty() && kept.typed().isBlank() && kept.file().isEmpty()) {
            referral.ifPresent(there ->
                    letterOf(there).ifPresent(text -> kept.letter(Optional.of(intake.read(text, there)))));
        }
    }

    private static Optional<String> letterOf(Referral referral) {
        return Draft.of(referral.document())
                .get("letterText")
                .filter(JsonNode::isString)
                .map(JsonNode::stringValue)
                .filter(text -> !text.isBlank());
    }

    private void showDecided(Referral there) {
        removeAll();
        add(
                head(),
                new Paragraph("Referral " + there.reference()
                        + " has been decided, or is part of another, and is not changed any more."));
    }

    private Div head(Button... buttons) {
        title.setText(
                referral.map(there -> "The letter of " + there.reference()).orElse("From a letter"));
        var actions = new Div(count);
        actions.add(buttons);
        actions.addClassName("lq-letter-actions");
        var head = new Div(title, actions);
        head.addClassName("lq-letter-head");
        return head;
    }

    // ---- Bringing the letter ----

    private void showEmpty() {
        removeAll();
        rows.clear();
        count.setText("");
        var words = new TextArea("Paste or type the letter");
        pasted = words;
        words.addClassName("lq-letter-paste");
        words.setMinRows(14);
        words.setMaxRows(28);
        words.setValueChangeMode(ValueChangeMode.LAZY);
        words.setValue(kept.typed());
        words.addValueChangeListener(event -> kept.type(event.getValue()));
        words.getElement().setAttribute("dir", "auto");
        words.focus();

        var read = new Button("Read the letter", _ -> whenTyped(this::read));
        read.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        read.addClickShortcut(Key.ENTER, KeyModifier.CONTROL);
        var keys = new Span("or Ctrl + Enter");
        keys.addClassName("lq-quiet");
        var go = new Div(read, keys);
        go.addClassName("lq-letter-go");

        var hint = new Paragraph("Text, PDF, Word (.docx), or a picture (PNG, JPEG, TIFF), at most "
                + files.largest() / (1024 * 1024) + " MB. The file is kept with the referral.");
        hint.addClassName("lq-quiet");
        var file = new Section(new H2("Or bring a file"), upload(), hint, fileLine());
        file.addClassName("lq-letter-file");
        var paste = new Section(words, go);
        paste.addClassName("lq-letter-pasting");
        paste.getElement().setAttribute("aria-label", "The words of the letter");
        file.getElement().setAttribute("aria-label", "A file");
        var columns = new Div(paste, file);
        columns.addClassName("lq-letter-bringing");
        add(head(), told, columns);
    }

    /** What was typed last may not have been sent yet: it is fetched first, so that none of it is lost. */
    private void whenTyped(Runnable then) {
        if (!pasted.isAttached()) {
            then.run();
            return;
        }
        pasted.getElement().executeJs("return this.value").then(String.class, typed -> {
            kept.type(typed);
            then.run();
        });
    }

    private Upload upload() {
        var upload = new Upload(new Intake());
        upload.addClassName("lq-letter-upload");
        upload.setUploadFormat(UploadFormat.RAW);
        upload.setMaxFiles(1);
        upload.setMaxFileSize(files.largest());
        var words = new UploadI18N();
        words.setDropFiles(new UploadI18N.DropFiles().setOne("or drop it here").setMany("or drop it here"));
        words.setAddFiles(new UploadI18N.AddFiles().setOne("Choose a file").setMany("Choose a file"));
        words.setError(new UploadI18N.Error()
                .setTooManyFiles("One file at a time.")
                .setFileIsTooBig("The file is too large.")
                .setIncorrectFileType("This kind of file is not taken."));
        words.setUploading(new UploadI18N.Uploading()
                .setStatus(new UploadI18N.Uploading.Status()
                        .setConnecting("Connecting")
                        .setStalled("Stalled")
                        .setProcessing("Reading the letter")
                        .setHeld("Waiting"))
                .setRemainingTime(new UploadI18N.Uploading.RemainingTime()
                        .setPrefix("time left: ")
                        .setUnknown(""))
                .setError(new UploadI18N.Uploading.Error()
                        .setServerUnavailable("The server did not answer. Try again.")
                        .setUnexpectedServerError("This file was not taken.")
                        .setForbidden("You may not bring files here.")));
        words.setFile(
                new UploadI18N.File().setRetry("Try again").setStart("Start").setRemove("Remove"));
        words.setUnits(new UploadI18N.Units(List.of("bytes", "kB", "MB", "GB", "TB")));
        upload.setI18n(words);
        // The browser does not even begin to send what is too large, and so tells only that it is.
        upload.getElement()
                .addEventListener("file-reject", event -> {
                    var size = event.getEventData().get("event.detail.file.size");
                    tell(
                            size != null && size.asLong() > files.largest()
                                    ? files.tooLarge(size.asLong())
                                    : "The file was not taken. Bring one file at a time.");
                    upload.clearFileList();
                })
                .addEventData("event.detail.file.size");
        // What became of the file is shown with the answer to the browser's telling that it was sent.
        upload.getElement().addEventListener("upload-success", _ -> upload.clearFileList());
        upload.getElement().addEventListener("upload-error", _ -> upload.clearFileList());
        return upload;
    }

    /** Takes the bytes as they arrive, and never more than may be kept. */
    private final class Intake implements UploadHandler {

        @Override
        public void handleUploadRequest(UploadEvent event) throws IOException {
            var came = files.receive(event.getInputStream(), event.getFileName(), event.getFileSize());
            var _ = event.getUI().access(() -> whenTyped(() -> take(came)));
        }

        @Override
        public long getFileSizeMax() {
            return files.largest();
        }

        @Override
        public long getRequestSizeMax() {
            return files.largest() + 64L * 1024;
        }
    }

    private void take(Received came) {
        switch (came) {
            case Received.Refused(var sentence) -> {
                tell(sentence);
                showEmpty();
            }
            case Received.Sound(var file, var letter) -> {
                kept.file(Optional.of(file));
                switch (letter) {
                    case Extracted.NotRead(var sentence, var _) -> {
                        tell(sentence);
                        showEmpty();
                    }
                    case Extracted.Read read -> {
                        kept.type(
                                kept.typed().isBlank()
                                        ? read.text()
                                        : kept.typed().stripTrailing() + "\n\n" + read.text());
                        tell(String.join(" ", read.notes()));
                        read();
                    }
                }
            }
        }
    }

    private Div fileLine() {
        var line = new Div();
        line.addClassName("lq-letter-file-line");
        kept.file().ifPresent(file -> {
            var name = new Span(file.name());
            name.getElement().setAttribute("dir", "auto");
            name.addClassName("lq-letter-file-name");
            var remove = new NativeButton("Remove", _ -> {
                kept.file(Optional.empty());
                tell("");
                showEmpty();
            });
            remove.addClassName("lq-button");
            remove.setAriaLabel("Remove the file " + file.name());
            var alone = new NativeButton("Go on with the file alone", _ -> {
                kept.letter(Optional.of(read("")));
                kept.letter().ifPresent(this::showRead);
            });
            alone.addClassName("lq-button");
            line.add(name, new Span(", " + file.type().words() + ", is kept with the referral."), remove);
            if (kept.typed().isBlank()) {
                line.add(alone);
            }
        });
        return line;
    }

    private void read() {
        if (kept.typed().isBlank()) {
            tell("There is nothing to read yet. Paste the letter, or bring a file.");
            return;
        }
        kept.before()
                .ifPresentOrElse(
                        before -> readAgain(before, kept.typed()), () -> kept.letter(Optional.of(read(kept.typed()))));
        kept.letter().ifPresent(this::showRead);
    }

    private void readAgain(OpenLetter before, String text) {
        var again = read(text);
        again.takeOver(before);
        kept.letter(Optional.of(again));
    }

    private OpenLetter read(String text) {
        return referral.map(there -> intake.read(text, there)).orElseGet(() -> intake.read(text));
    }

    private void tell(String sentence) {
        told.removeAll();
        told.setVisible(!sentence.isEmpty());
        if (!sentence.isEmpty()) {
            told.add(new Paragraph(sentence));
        }
    }

    // ---- Answering what it proposes ----

    /** The letter and its proposals side by side; each lights up what belongs to it on the other side. */
    @Tag("lq-letter")
    private static final class SideBySide extends Div {}

    private void showRead(OpenLetter letter) {
        removeAll();
        rows.clear();
        var all = new Button("Accept all", _ -> acceptAll(letter));
        all.getElement().setAttribute("data-act", "all");
        all.setEnabled(letter.proposals().stream().anyMatch(proposal -> !proposal.contradicts()));
        var change = new Button("Change the letter", _ -> {
            kept.type(letter.text());
            kept.putAside();
            showEmpty();
        });
        var finish =
                new Button(referral.isPresent() ? "Take into the referral" : "Make the referral", _ -> finish(letter));
        finish.addThemeVariants(ButtonVariant.LUMO_PRIMARY);

        var side = new SideBySide();
        side.addClassName("lq-letter-sides");
        side.add(letterSide(letter), proposalSide(letter));
        add(head(change, all, finish), told, side);
        showCount(letter);
    }

    private Section letterSide(OpenLetter letter) {
        var words = new Section(new H2("The letter"));
        words.addClassName("lq-letter-side");
        kept.file().ifPresent(file -> words.add(fromFile(file)));
        if (letter.text().isBlank()) {
            words.add(new Paragraph("The words of the letter are not known. Fill in the form from the file."));
        } else {
            words.add(new LetterWords(letter));
        }
        return words;
    }

    private static Paragraph fromFile(DroppedFile file) {
        var name = new Span(file.name());
        name.getElement().setAttribute("dir", "auto");
        var line = new Paragraph(name, new Span(", " + file.type().words() + ", is kept with the referral."));
        line.addClassName("lq-quiet");
        return line;
    }

    private Section proposalSide(OpenLetter letter) {
        var side = new Section(new H2("What it proposes"));
        side.addClassName("lq-proposals-side");
        var notice = new Paragraph("Read by a program: look at the words of each. " + TriageResult.NOTICE);
        notice.addClassName("lq-quiet");
        side.add(notice);
        if (letter.proposals().isEmpty() && letter.unclear().isEmpty()) {
            side.add(new Paragraph(
                    letter.alreadyThere() > 0
                            ? "The form says all of it already."
                            : "Nothing was recognised in this letter. Its words are kept; fill in the"
                                    + " form from them."));
        }
        if (!letter.proposals().isEmpty()) {
            var keys = new Paragraph("On a proposal: Y accepts, N refuses, C corrects, the arrow keys go up and down."
                    + " A accepts all that contradicts nothing.");
            keys.addClassName("lq-keys");
            side.add(keys);
        }
        contradictions(letter).ifPresent(side::add);
        grouped(letter).forEach((part, proposals) -> side.add(new H3(part), list(letter, proposals)));
        questions(letter).ifPresent(side::add);
        if (letter.alreadyThere() > 0
                && !(letter.proposals().isEmpty() && letter.unclear().isEmpty())) {
            var there = new Paragraph(letter.alreadyThere() + " more it says are on the form already.");
            there.addClassName("lq-quiet");
            side.add(there);
        }
        return side;
    }

    private Optional<Section> contradictions(OpenLetter letter) {
        var contradicting =
                letter.proposals().stream().filter(Proposal::contradicts).toList();
        if (contradicting.isEmpty()) {
            return Optional.empty();
        }
        var section = new Section(new H3("The form says something else"), list(letter, contradicting));
        section.addClassName("lq-contradicting");
        return Optional.of(section);
    }

    /** Proposals by the part of the form they go to, in its order; within a part in the order of the letter. */
    private static Map<String, List<Proposal>> grouped(OpenLetter letter) {
        var byPlace = new TreeMap<Integer, List<Proposal>>();
        var titles = new LinkedHashMap<Integer, String>();
        for (var proposal : letter.proposals()) {
            if (!proposal.contradicts()) {
                var part = FormWords.partOf(proposal.parts().getFirst().path());
                byPlace.computeIfAbsent(part.place(), _ -> new ArrayList<>()).add(proposal);
                titles.put(part.place(), part.title());
            }
        }
        var grouped = new LinkedHashMap<String, List<Proposal>>();
        byPlace.forEach((place, proposals) -> grouped.put(titles.getOrDefault(place, ""), proposals));
        return grouped;
    }

    private UnorderedList list(OpenLetter letter, List<Proposal> proposals) {
        var list = new UnorderedList();
        list.addClassName("lq-proposed-list");
        for (var proposal : proposals) {
            var row = new ProposalRow(letter, proposal, referrals.today(), () -> showCount(letter));
            rows.add(row);
            list.add(row);
        }
        return list;
    }

    private static Optional<Section> questions(OpenLetter letter) {
        if (letter.unclear().isEmpty()) {
            return Optional.empty();
        }
        var list = new UnorderedList();
        list.addClassName("lq-proposed-list");
        for (var i = 0; i < letter.unclear().size(); i++) {
            var unclear = letter.unclear().get(i);
            var item = new ListItem(new Span(unclear.sentence()));
            item.setId(LetterWords.idOfUnclear(i));
            item.addClassNames("lq-proposed", "lq-unclear");
            item.getElement().setAttribute("data-proposal", true).setAttribute("tabindex", "-1");
            list.add(item);
        }
        var section = new Section(new H3("To ask"), list);
        section.addClassName("lq-asking");
        return Optional.of(section);
    }

    private void acceptAll(OpenLetter letter) {
        letter.acceptAll();
        rows.forEach(ProposalRow::show);
        showCount(letter);
    }

    private void showCount(OpenLetter letter) {
        var all = letter.proposals().size();
        count.setText(
                all == 0
                        ? ""
                        : String.format(
                                Locale.ROOT,
                                "%d proposed: %d accepted, %d refused, %d open",
                                all,
                                letter.count(Answer.ACCEPTED),
                                letter.count(Answer.REFUSED),
                                letter.count(Answer.OPEN)));
    }

    private void finish(OpenLetter letter) {
        if (referral.isEmpty()) {
            var begun = intake.begin(letter, kept.file());
            letters.forget(Optional.empty());
            open(begun);
            return;
        }
        var seen = referral.get();
        switch (intake.add(seen, letter, kept.file())) {
            case SaveOutcome.Saved(var saved) -> {
                letters.forget(Optional.of(saved.id()));
                open(saved);
            }
            case SaveOutcome.Conflict(var theirs, var _) -> {
                referral = Optional.of(theirs);
                if (isOpen(theirs)) {
                    readAgain(letter, letter.text());
                    tell(theirs.savedBy()
                            + " has saved another version meanwhile. This is the letter beside that version:"
                            + " answer what is still open.");
                    kept.letter().ifPresent(this::showRead);
                } else {
                    showDecided(theirs);
                }
            }
        }
    }

    private void open(Referral there) {
        getUI().ifPresent(ui -> ui.navigate("referrals/" + there.id() + "/edit"));
    }
}
