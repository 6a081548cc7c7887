package limbqueue.sameday.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Paragraph;
import java.util.Optional;
import limbqueue.sameday.SameDayCases;
import limbqueue.shell.ReferralAside;
import org.springframework.core.annotation.Order;

/** On the page of a same-day case: who has taken it. While nobody has, the banner says so. */
@org.springframework.stereotype.Component
@Order(2)
class SameDayAside implements ReferralAside {

    private final SameDayCases cases;

    SameDayAside(SameDayCases cases) {
        this.cases = cases;
    }

    @Override
    public Optional<Component> of(long referral, Runnable again) {
        return cases.current(referral)
                .flatMap(current -> current.taken()
                        .map(taken -> new Line("Taken by " + taken.by() + ", " + RingWords.time(taken.at())
                                + ". Until it is decided it stays a same-day case.")));
    }

    @StyleSheet("context://ui/sameday.css")
    private static final class Line extends Paragraph {

        Line(String words) {
            super(words);
            addClassName("lq-taken");
        }
    }
}
