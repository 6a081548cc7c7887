package limbqueue.shell;

import com.vaadin.flow.component.Component;

/** What a module has to say while a referral is entered. It never stands in the way of entering. */
public interface EntryWatch {

    /** Looks on while this referral is entered. */
    Watching watch(long referral);

    /** The place where something is said, and how it hears of changes. */
    interface Watching {

        /** Shown above the form; hidden as long as there is nothing to say. */
        Component component();

        /**
         * @param document as it is typed now, as JSON text
         */
        void typed(String document);
    }
}
