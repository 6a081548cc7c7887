package limbqueue.dispatch.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.AnchorTarget;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.upload.Upload;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import com.vaadin.flow.server.streams.UploadEvent;
import com.vaadin.flow.server.streams.UploadHandler;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import limbqueue.access.NotPossibleException;
import limbqueue.dispatch.DaysPost;
import limbqueue.dispatch.Dispatch;
import limbqueue.dispatch.Dispatches;
import limbqueue.shell.Pieces;

/** What goes out by hand and what came back: the day's post to print, and mail that could not be delivered. */
final class PostPanel extends Div {

    /** A report brings back a message of ours at most: a letter of a few pages. */
    private static final int LARGEST = 5 * 1024 * 1024;

    private final transient Dispatches dispatches;
    private final transient DaysPost post;
    private final transient Runnable changed;
    private final Span waiting = new Span();
    private final Anchor print = new Anchor();
    private final Div printed = Pieces.div("lq-row-actions");
    private final Div said = Pieces.div("lq-said");
    private transient List<Dispatch> batch = List.of();

    /** @param changed called when something was done */
    PostPanel(Dispatches dispatches, DaysPost post, Runnable changed) {
        this.dispatches = dispatches;
        this.post = post;
        this.changed = changed;
        addClassName("lq-desk-post");
        said.getElement().setAttribute("role", "status");
        print.setText("Print the day’s post");
        print.setTarget(AnchorTarget.BLANK);
        print.setHref(DownloadHandler.fromInputStream(_ -> {
                    var bytes = post.batch(batch);
                    return new DownloadResponse(
                            new ByteArrayInputStream(bytes), "post.pdf", "application/pdf", bytes.length);
                })
                .inline());
        printed.add(
                waiting, print, Pieces.small("All of it is posted", "All of the day’s post is posted", this::posted));
        add(printed, bounce(), said);
    }

    void show() {
        batch = post.waiting();
        printed.setVisible(!batch.isEmpty());
        waiting.setText(batch.size() == 1 ? "1 letter goes by post" : batch.size() + " letters go by post");
    }

    private void posted() {
        var number = post.posted(batch);
        say(number == 1 ? "1 letter is recorded as posted." : number + " letters are recorded as posted.");
        changed.run();
    }

    private Upload bounce() {
        var upload = new Upload();
        upload.addClassName("lq-desk-bounce");
        upload.setUploadHandler(new Arriving(bytes -> {
            upload.clearFileList();
            cameBack(bytes);
        }));
        upload.setMaxFiles(1);
        upload.setMaxFileSize(LARGEST);
        upload.addFileRejectedListener(_ -> say("This file is not taken: a message that came back has no more than "
                + LARGEST / (1024 * 1024) + " MB."));
        upload.setUploadButton(new Button("Bring mail that came back"));
        upload.setDropLabel(new Span("or drop it here, as .eml"));
        return upload;
    }

    private void cameBack(byte[] message) {
        try {
            say(dispatches.cameBack(message));
            changed.run();
        } catch (NotPossibleException not) {
            say(Objects.requireNonNullElse(not.getMessage(), "This message cannot be read."));
        }
    }

    private void say(String words) {
        said.setText(words);
    }

    /** Reads what arrives up to the largest file, whatever a browser was told to hold back. */
    private record Arriving(Consumer<byte[]> taking) implements UploadHandler {

        @Override
        public void handleUploadRequest(UploadEvent event) throws IOException {
            byte[] bytes;
            try (var content = event.getInputStream()) {
                bytes = content.readNBytes(LARGEST + 1);
            }
            var _ = event.getUI().access(() -> taking.accept(bytes));
        }

        @Override
        public long getFileSizeMax() {
            return LARGEST + 1L;
        }

        @Override
        public long getRequestSizeMax() {
            return LARGEST + 65_536L;
        }
    }
}
