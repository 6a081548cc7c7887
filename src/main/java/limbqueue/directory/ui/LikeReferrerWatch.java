package limbqueue.directory.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.directory.Directory;
import limbqueue.document.Draft;
import limbqueue.shell.EntryWatch;
import tools.jackson.databind.JsonNode;

/** While a referral is entered: whether the directory knows its referring doctor under a name much like the one typed. */
@org.springframework.stereotype.Component
class LikeReferrerWatch implements EntryWatch {

    private final Directory directory;

    LikeReferrerWatch(Directory directory) {
        this.directory = directory;
    }

    @Override
    public Watching watch(long referral) {
        return new Hint(directory);
    }

    @StyleSheet("context://ui/directory.css")
    private static final class Hint extends Section implements Watching {

        private final transient Directory directory;
        private final Span words = new Span();
        private transient Optional<Typed> looked = Optional.empty();

        private record Typed(Optional<String> name, Optional<String> organisation) {}

        Hint(Directory directory) {
            this.directory = directory;
            addClassName("lq-like-referrer");
            getElement().setAttribute("role", "status").setAttribute("aria-label", "Perhaps in the directory");
            add(words);
            setVisible(false);
        }

        @Override
        public Component component() {
            return this;
        }

        @Override
        public void typed(String document) {
            var draft = Draft.of(document);
            var typed = new Typed(text(draft.get("referrer.name")), text(draft.get("referrer.organisation")));
            if (looked.filter(typed::equals).isPresent()) {
                return;
            }
            looked = Optional.of(typed);
            var like = directory.like(typed.name(), typed.organisation());
            setVisible(!like.isEmpty());
            words.setText("The directory knows a referring doctor much like this: "
                    + like.stream().map(DirectoryView::called).collect(Collectors.joining("; "))
                    + ". Choose that name if the same person is meant.");
        }

        private static Optional<String> text(Optional<JsonNode> value) {
            return value.filter(JsonNode::isString).map(JsonNode::asString);
        }
    }
}
