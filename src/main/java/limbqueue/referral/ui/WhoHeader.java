package limbqueue.referral.ui;

import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Header;
import com.vaadin.flow.component.html.Span;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.referral.ReferralState;

/** Who is referred, by whom, and what was asked, in the referring doctor's words. */
class WhoHeader extends Header {

    WhoHeader(ReferralPage page) {
        addClassName("lq-patient-head");
        add(Still.of(patient(page)), Still.of(referrer(page)), Still.of(asked(page)));
    }

    private static Div patient(ReferralPage page) {
        var patient = page.document().patient();
        var name = new H1(page.patient());
        name.addClassName("lq-patient-name");
        var person = Markup.div("lq-facts");
        person.add(orNotKnown("age", patient.born().map(born -> TimeWords.age(born, page.today()))));
        person.add(orNotKnown(
                "sex",
                page.value("patient.sex")
                        .map(sex -> sex.toLowerCase(Locale.ROOT))
                        .filter(ReferralPage::stated)));
        person.add(orNotKnown("birth date", patient.born().map(born -> "born " + TierWords.date(born))));
        person.add(phone("patient's telephone", page.value("patient.phone")));
        var paper = Markup.div("lq-facts lq-soft");
        paper.add(Markup.text("lq-fact", page.referral().reference()));
        paper.add(Markup.text(
                "lq-fact", "received " + TierWords.date(page.referral().received())));
        if (page.referral().state() == ReferralState.QUEUED || page.referral().state() == ReferralState.DRAFT) {
            paper.add(Markup.text(
                    "lq-fact", "waiting " + TimeWords.waited(page.referral().received(), page.today())));
        }
        if (page.referral().state() != ReferralState.QUEUED) {
            paper.add(Markup.text(
                    "lq-fact lq-standing", TierWords.of(page.referral().state())));
        }
        switch (page.referral().state()) {
            case QUEUED, INFORMATION_NEEDED, APPROVED -> {
                var preparation = new Anchor("referrals/" + page.referral().id() + "/preparation", "Preparation");
                preparation.addClassName("lq-fact");
                paper.add(preparation);
            }
            case DRAFT, RETURNED, SENT_TO_HOSPITAL -> {}
        }
        var chasing = new Anchor("referrals/" + page.referral().id() + "/chasing", "Records and calls");
        chasing.addClassName("lq-fact");
        paper.add(chasing);
        page.value("patient.leavesArea")
                .ifPresent(day -> paper.add(Markup.text(
                        "lq-fact",
                        "leaves the area on " + day
                                + page.value("patient.returnsToArea")
                                        .map(back -> ", back on " + back)
                                        .orElse(""))));
        return Markup.div("lq-head-patient", name, person, paper);
    }

    private static Div referrer(ReferralPage page) {
        var name = Stream.of(page.value("referrer.name"), page.value("referrer.organisation"))
                .flatMap(Optional::stream)
                .collect(Collectors.joining(", "));
        return Markup.div(
                "lq-head-referrer",
                Markup.text("lq-caption", "Referred by"),
                name.isEmpty() ? Markup.notKnown() : new Span(name),
                phone("referring doctor's telephone", page.value("referrer.phone")));
    }

    private static Div asked(ReferralPage page) {
        var block = Markup.div("lq-head-asked", Markup.text("lq-caption", "What was asked"));
        page.value("asked.reason")
                .ifPresentOrElse(
                        reason -> block.add(Markup.text("lq-quote", "“" + reason + "”")),
                        () -> block.add(Markup.notKnown("reason not stated")));
        if (!page.asked().isEmpty()) {
            block.add(Markup.text("lq-soft", "Priority asked: " + page.asked() + ". It does not move the proposal."));
        }
        return block;
    }

    private static Span orNotKnown(String what, Optional<String> value) {
        return value.map(known -> Markup.text("lq-fact", known)).orElseGet(() -> Markup.notKnown(what + " not known"));
    }

    /** A number that can be called with one click. */
    static Span phone(String whose, Optional<String> number) {
        return number.map(digits -> {
                    var link = new Anchor("tel:" + digits.replaceAll("[^+0-9]", ""), digits);
                    link.setAriaLabel(whose + " " + digits);
                    link.addClassName("lq-phone");
                    return new Span(link);
                })
                .orElseGet(() -> Markup.notKnown("telephone not known"));
    }
}
