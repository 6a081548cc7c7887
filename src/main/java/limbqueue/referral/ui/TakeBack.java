package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.notification.Notification;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import limbqueue.access.NotPossibleException;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referrals;
import limbqueue.referral.TakeBackOutcome;

/** Takes the decision back that one has just made. */
final class TakeBack {

    private static final int NOTICE_MILLIS = 8000;

    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private TakeBack() {}

    /** The button, while the decision that stands on this referral can be taken back by whoever is signed in. */
    static Optional<Component> button(Referrals referrals, long id) {
        return referrals.canTakeBack(id).map(decision -> {
            var button = new Button("Take it back, until " + time(decision.finalFrom()), _ -> of(referrals, decision));
            button.addThemeVariants(ButtonVariant.LUMO_SMALL);
            button.addClassName("lq-take-back");
            button.setDisableOnClick(true);
            Keys.TAKE_BACK.on(button);
            return button;
        });
    }

    static String time(Instant at) {
        return TIME.format(at);
    }

    private static void of(Referrals referrals, DecisionRecord decision) {
        var why = tried(referrals, decision);
        why.ifPresentOrElse(
                words -> Notification.show(words, NOTICE_MILLIS, Notification.Position.TOP_CENTER),
                () -> UI.getCurrent().navigate(ReferralView.class, JustDecided.parameters(decision.referralId())));
    }

    /** @return why it cannot be taken back, if it cannot */
    private static Optional<String> tried(Referrals referrals, DecisionRecord decision) {
        try {
            return switch (referrals.takeBack(decision.id())) {
                case TakeBackOutcome.TakenBack _ -> Optional.empty();
                case TakeBackOutcome.Refused(var why) -> Optional.of(why);
            };
        } catch (NotPossibleException not) {
            return Optional.of(Objects.requireNonNullElse(not.getMessage(), "The decision stands."));
        }
    }
}
