package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import java.util.Optional;
import limbqueue.referral.Referrals;
import limbqueue.shell.ReferralAside;
import org.springframework.core.annotation.Order;

/** On the page of a referral that one has just decided: the way back, while there is one. */
@org.springframework.stereotype.Component
@Order(4)
class TakeBackAside implements ReferralAside {

    private final Referrals referrals;

    TakeBackAside(Referrals referrals) {
        this.referrals = referrals;
    }

    @Override
    public Optional<Component> of(long referral, Runnable again) {
        return TakeBack.button(referrals, referral).map(Line::new);
    }

    @StyleSheet("context://ui/sameday.css")
    private static final class Line extends Div {

        Line(Component button) {
            super(new Span("You decided this just now; its letter waits until the decision is final."), button);
            addClassName("lq-can-take-back");
        }
    }
}
