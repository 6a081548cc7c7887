package limbqueue.letter.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Pre;
import com.vaadin.flow.component.html.Section;
import java.util.List;
import java.util.function.Consumer;
import limbqueue.letter.WordingVersion;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;

/** Every version that was published, to be read and taken up again. */
class WordingHistory extends Section {

    /**
     * @param versions the newest first
     * @param take takes an earlier text up again
     */
    WordingHistory(List<WordingVersion> versions, Consumer<String> take) {
        addClassNames("lq-card", "lq-words-history");
        add(new H2("Published versions, newest first"));
        if (versions.isEmpty()) {
            add(Pieces.paragraph("lq-quiet", "None yet: the shipped words have counted all the time."));
            return;
        }
        var list = new OrderedList();
        list.getElement().setAttribute("reversed", true);
        versions.forEach(version -> {
            var item = new ListItem(
                    Pieces.text("lq-strong", "Version " + version.version()),
                    Pieces.text("lq-quiet", version.author() + ", " + DayWords.moment(version.at())));
            version.text()
                    .ifPresentOrElse(
                            text -> item.add(
                                    new NativeDetails("Read version " + version.version(), new Pre(text)),
                                    Pieces.small(
                                            "Take up again",
                                            "Take up version " + version.version() + " again",
                                            () -> take.accept(text))),
                            () -> item.add(Pieces.text("lq-words-back", "Back to the shipped words.")));
            list.add(item);
        });
        add(list);
    }
}
