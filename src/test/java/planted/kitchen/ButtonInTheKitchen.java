package planted.kitchen;

import com.vaadin.flow.component.button.Button;

/** Breaks: a component outside a ui package. */
public final class ButtonInTheKitchen {

    public Button button() {
        return new Button("Press");
    }
}
