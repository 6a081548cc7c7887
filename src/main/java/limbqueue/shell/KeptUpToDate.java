package limbqueue.shell;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.UIDetachedException;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import limbqueue.access.StandingSignIn;
import limbqueue.live.Changed;
import limbqueue.live.Changes;

/** Keeps an open page up to date with what others commit, for as long as it is shown. */
public final class KeptUpToDate {

    private final StandingSignIn signIn;
    private final Consumer<Changed> refresh;

    /** What has changed since the page was last refreshed. */
    private final AtomicReference<Optional<Changed>> waiting = new AtomicReference<>(Optional.empty());

    private KeptUpToDate(StandingSignIn signIn, Consumer<Changed> refresh) {
        this.signIn = signIn;
        this.refresh = refresh;
    }

    /**
     * Calls {@code refresh} when {@code page} is shown, and after changes for as long as it is, with the rights of the person
     * in front of it. Changes that come while the page is busy are told together.
     */
    public static void whileShown(Component page, Changes changes, StandingSignIn signIn, Consumer<Changed> refresh) {
        page.addAttachListener(attached -> {
            var kept = new KeptUpToDate(signIn, refresh);
            var stop = changes.listen(changed -> kept.told(attached.getUI(), changed));
            page.addDetachListener(detached -> {
                detached.unregisterListener();
                stop.run();
            });
            // Listening already, so that nothing is missed between what is read now and what is told.
            refresh.accept(Changed.anything());
        });
    }

    private void told(UI ui, Changed changed) {
        var before = waiting.getAndUpdate(
                earlier -> Optional.of(earlier.map(known -> known.and(changed)).orElse(changed)));
        if (before.isPresent()) {
            return;
        }
        try {
            ui.access(() -> refresh(ui));
        } catch (UIDetachedException closed) {
            // Its browser has gone; the page is told nothing any more.
            return;
        }
    }

    private void refresh(UI ui) {
        var changed = waiting.getAndSet(Optional.empty());
        if (signIn.counts()) {
            changed.ifPresent(refresh);
        } else {
            // The request that this makes is answered with the sign-in page.
            ui.getPage().reload();
        }
    }
}
