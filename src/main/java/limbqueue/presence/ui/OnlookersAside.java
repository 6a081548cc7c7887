package limbqueue.presence.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.DetachEvent;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Span;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.StandingSignIn;
import limbqueue.live.Changed;
import limbqueue.live.Changes;
import limbqueue.presence.Onlooker;
import limbqueue.presence.Onlookers;
import limbqueue.referral.Referrals;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.ReferralAside;
import org.springframework.core.annotation.Order;

/** On the page of a referral: who else has it open, and that it has changed under the eyes of whoever reads it. */
@org.springframework.stereotype.Component
@Order(1)
class OnlookersAside implements ReferralAside {

    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private final Onlookers onlookers;
    private final Referrals referrals;
    private final Changes changes;
    private final StandingSignIn signIn;

    OnlookersAside(Onlookers onlookers, Referrals referrals, Changes changes, StandingSignIn signIn) {
        this.onlookers = onlookers;
        this.referrals = referrals;
        this.changes = changes;
        this.signIn = signIn;
    }

    @Override
    public Optional<Component> of(long referral, Runnable again) {
        return Optional.of(new Line(referral, again));
    }

    /** Empty, and then not seen, while nobody else looks on and nothing has changed. */
    @StyleSheet("context://ui/sameday.css")
    private final class Line extends Div {

        private final long referral;
        private final int version;
        private final Span others = new Span();
        private final Span changed = new Span();
        private final NativeButton show;
        private Runnable leave = () -> {};

        Line(long referral, Runnable again) {
            this.referral = referral;
            this.version = referrals.get(referral).version();
            addClassName("lq-onlookers");
            getElement().setAttribute("role", "status");
            show = new NativeButton("Show it as it is now", _ -> again.run());
            show.addClassName("lq-button");
            show.setVisible(false);
            add(others, changed, show);
            // The page that shows itself is told of before it asks who else is there.
            addAttachListener(_ -> leave = onlookers.look(referral));
            KeptUpToDate.whileShown(this, changes, signIn, this::refresh);
        }

        @Override
        protected void onDetach(DetachEvent detached) {
            leave.run();
            super.onDetach(detached);
        }

        private void refresh(Changed what) {
            if (!what.concerns(referral)) {
                return;
            }
            var there = onlookers.others(referral);
            others.setText(there.isEmpty() ? "" : "Also looking at this referral: " + words(there) + ".");
            var now = referrals.get(referral);
            if (now.version() != version) {
                changed.setText(referrals
                        .decidedSince(referral, version)
                        .map(decision -> decision.author() + " has decided it meanwhile, " + TIME.format(decision.at())
                                + ". What stands below is what you opened.")
                        .orElse("It has changed since you opened it. What stands below is what you opened."));
            }
            show.setVisible(now.version() != version);
            setClassName("lq-to-say", !there.isEmpty() || now.version() != version);
        }

        private static String words(List<Onlooker> there) {
            return there.stream()
                    .map(one -> one.who() + " (" + one.role().word() + ", since " + TIME.format(one.since()) + ")")
                    .collect(Collectors.joining(", "));
        }
    }
}
