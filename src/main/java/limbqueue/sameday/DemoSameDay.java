package limbqueue.sameday;

import limbqueue.access.ActingAs;
import limbqueue.practice.DemoRequested;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Chooses for the demo's practice where its same-day cases go, as {@code same-day.json} tells. */
@Component
class DemoSameDay {

    private static final String FILE = "same-day.json";

    private final SameDayChoices choices;
    private final ActingAs actingAs;
    private final JsonMapper json;

    DemoSameDay(SameDayChoices choices, ActingAs actingAs, JsonMapper json) {
        this.choices = choices;
        this.actingAs = actingAs;
        this.json = json;
    }

    @EventListener
    @Order(4)
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(DemoRequested demo) {
        demo.read(FILE, SameDayChoice.class, json).ifPresent(choice -> {
            actingAs.person(
                    demo.physician(),
                    () -> choices.choose(choices.inForce().version(), choice, "Agreed with the hospital."));
        });
    }
}
