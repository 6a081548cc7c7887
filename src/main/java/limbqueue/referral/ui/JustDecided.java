package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.RouteParameters;
import com.vaadin.flow.router.RouterLink;
import java.util.Optional;
import limbqueue.referral.ReferralNotFoundException;
import limbqueue.referral.Referrals;

/** Says, above whatever opens next, what has just been decided. It reads the decision as it is stored. */
class JustDecided extends Div {

    static final String PARAMETER = "decided";

    private JustDecided(long id, String text) {
        addClassName("lq-just-decided");
        getElement().setAttribute("role", "status");
        var link = new RouterLink("Open it again", ReferralView.class, parameters(id));
        add(new Span(text), link);
    }

    /** With the way back, while there is one. */
    private JustDecided withTakeBack(Referrals referrals, long id) {
        TakeBack.button(referrals, id).ifPresent(this::add);
        return this;
    }

    /** The confirmation that the address asks for, if that referral is decided. */
    static Optional<JustDecided> from(QueryParameters parameters, Referrals referrals) {
        return parameters
                .getSingleParameter(PARAMETER)
                .flatMap(JustDecided::number)
                .flatMap(id -> {
                    try {
                        var referral = referrals.get(id);
                        return referrals.decisions(id).stream()
                                .findFirst()
                                .map(decision -> new JustDecided(
                                                id,
                                                ReferralPage.of(referrals, referral)
                                                                .patient() + " ("
                                                        + referral.reference() + "). " + DecisionWords.of(decision)
                                                        + ".")
                                        .withTakeBack(referrals, id));
                    } catch (ReferralNotFoundException gone) {
                        return Optional.empty();
                    }
                });
    }

    static QueryParameters asking(long id) {
        return QueryParameters.of(PARAMETER, Long.toString(id));
    }

    static RouteParameters parameters(long id) {
        return new RouteParameters(ReferralView.ID, Long.toString(id));
    }

    /** The number of a referral, if it is one. */
    static Optional<Long> number(String text) {
        try {
            return Optional.of(Long.parseLong(text));
        } catch (NumberFormatException notANumber) {
            return Optional.empty();
        }
    }
}
