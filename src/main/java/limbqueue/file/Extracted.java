package limbqueue.file;

import java.util.List;
import java.util.Optional;

/** What became of reading the text of a file. */
public sealed interface Extracted {

    /**
     * The text, with line ends of one kind ({@code \n}) and no control characters but these and tabs.
     *
     * @param notes what a person must know of it, such as a page that could not be read; mostly none
     */
    record Read(String text, FileType type, List<String> notes) implements Extracted {
        public Read {
            notes = List.copyOf(notes);
        }
    }

    /**
     * No text.
     *
     * @param sentence what is wrong and what to do, to the person who brought the file
     * @param type what the file is, if it is sound and only has no text that can be read here; empty if it is of no use
     */
    record NotRead(String sentence, Optional<FileType> type) implements Extracted {}
}
