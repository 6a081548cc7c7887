package limbqueue.referral.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.DescriptionList;
import com.vaadin.flow.component.html.Input;
import com.vaadin.flow.component.html.NativeLabel;

/** What each key does; and whether letters act at all, for those who dictate. */
class KeysDialog extends Dialog {

    private static final String ACT = "lq-keys-act";

    KeysDialog() {
        addClassName("lq-keys-dialog");
        setHeaderTitle("Keys");
        setWidth("34rem");
        var list = new DescriptionList();
        list.addClassName("lq-keys-list");
        for (var key : Keys.values()) {
            list.add(
                    new DescriptionList.Term(Markup.text("lq-key", key.cap())),
                    new DescriptionList.Description(key.does()));
        }
        var act = new Input();
        act.setType("checkbox");
        act.setId(ACT);
        var label = new NativeLabel("These keys act (kept in this browser)");
        label.setFor(ACT);
        act.getElement().executeJs("window.limbqueueKeys.bind(this)");
        var close = new Button("Close", click -> close());
        close.setAutofocus(true);
        getFooter().add(close);
        add(
                list,
                Markup.paragraph(
                        "lq-dialog-lead",
                        "Keys do nothing while something is typed or a dialog is open. What is decided with words is"
                                + " confirmed in its dialog: Ctrl+Enter confirms, Escape"
                                + " closes and keeps what is typed."),
                Markup.div("lq-keys-switch", act, label));
    }
}
