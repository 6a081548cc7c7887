package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.server.streams.DownloadHandler;
import java.util.List;
import limbqueue.file.KeptFile;
import limbqueue.file.ReferralFiles;

/** The files of a referral, each to be saved. */
class FileList extends UnorderedList {

    FileList(List<KeptFile> kept, ReferralFiles files) {
        addClassName("lq-files");
        for (var file : kept) {
            var link = new Anchor(saving(file, files), file.name());
            link.getElement().setAttribute("dir", "auto").setAttribute("aria-label", "Save the file " + file.name());
            var facts = new Span(file.type().words() + ", " + file.sizeInWords() + ", brought by " + file.keptBy()
                    + ", " + TierWords.moment(file.keptAt()));
            facts.addClassNames("lq-quiet", "lq-soft");
            add(new ListItem(link, facts));
        }
    }

    /** Sends the bytes with headers by which no browser shows or runs them. */
    private static DownloadHandler saving(KeptFile file, ReferralFiles files) {
        return download -> {
            var served = files.serve(file.id());
            var response = download.getResponse();
            served.headers().forEach(response::setHeader);
            response.setContentType(served.headers().get("Content-Type"));
            response.setContentLength(served.content().length);
            try (var out = response.getOutputStream()) {
                out.write(served.content());
            }
        };
    }
}
