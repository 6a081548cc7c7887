package limbqueue.sameday.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.notification.Notification;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.access.Person;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.live.Changes;
import limbqueue.sameday.RingingCase;
import limbqueue.sameday.SameDayCases;
import limbqueue.sameday.TakeOutcome;
import limbqueue.shell.Banner;
import limbqueue.shell.KeptUpToDate;

/** Across every page: same-day cases that nobody has taken, with whom to telephone. */
@org.springframework.stereotype.Component
class RingBanner implements Banner {

    private static final int NOTICE_MILLIS = 8000;

    /** So many have a line each; more would push the page out of sight. */
    private static final int LINES = 3;

    private final SameDayCases cases;
    private final Changes changes;
    private final StandingSignIn signIn;

    RingBanner(SameDayCases cases, Changes changes, StandingSignIn signIn) {
        this.cases = cases;
        this.changes = changes;
        this.signIn = signIn;
    }

    @Override
    public Optional<Component> of(Person person) {
        return Optional.of(new Ring(person.role()));
    }

    /** Not there to see or hear while nothing rings. */
    @StyleSheet("context://ui/sameday.css")
    private final class Ring extends Section {

        private final Role role;
        private final Map<Long, Line> lines = new HashMap<>();
        private final Anchor more;

        Ring(Role role) {
            this.role = role;
            addClassName("lq-ring");
            getElement().setAttribute("aria-label", "Same-day cases that nobody has taken");
            more = new Anchor(role == Role.PHYSICIAN ? "queue" : "referrals", "");
            more.addClassName("lq-ring-more");
            more.setVisible(false);
            add(more);
            KeptUpToDate.whileShown(this, changes, signIn, _ -> show());
        }

        @Override
        protected void onAttach(AttachEvent attached) {
            super.onAttach(attached);
            // What stays in sight below it has to know how high it is.
            getElement().executeJs("""
                    const told = () => document.documentElement.style
                      .setProperty('--lq-ring-height', this.offsetHeight + 'px');
                    new ResizeObserver(told).observe(this);
                    told();""");
        }

        private void show() {
            var ringing = role == Role.MANAGER ? cases.escalated() : cases.ringing();
            var first = ringing.stream().limit(LINES).toList();
            var shown = first.stream().map(one -> one.sameDay().id()).collect(Collectors.toSet());
            leave(shown);
            for (var at = 0; at < first.size(); at++) {
                var one = first.get(at);
                var line = lines.get(one.sameDay().id());
                if (line == null) {
                    line = new Line(one, role);
                    lines.put(one.sameDay().id(), line);
                    addComponentAtIndex(at, line);
                } else {
                    line.show(one);
                }
            }
            var further = ringing.size() - first.size();
            more.setText(further == 1 ? "1 more rings" : further + " more ring");
            more.setVisible(further > 0 && role != Role.MANAGER);
            setClassName("lq-rings", !first.isEmpty());
        }

        private void leave(Set<Long> shown) {
            lines.entrySet().removeIf(line -> {
                if (shown.contains(line.getKey())) {
                    return false;
                }
                remove(line.getValue());
                return true;
            });
        }
    }

    /** One case. What it says is changed only where it differs, so that it is not read out twice and keeps the focus. */
    private final class Line extends Div {

        private final Span words = new Span();
        private final Div alert = new Div();
        private RingingCase shown;

        Line(RingingCase one, Role role) {
            this.shown = one;
            addClassName("lq-ring-line");
            var what = one.patient().map(patient -> "Same day: " + patient).orElse("Same day: " + one.reference());
            var title = new Span(what);
            title.addClassName("lq-ring-patient");
            words.setText(RingWords.of(one));
            alert.add(title, words);
            alert.addClassName("lq-ring-words");
            alert.getElement().setAttribute("role", "alert");
            add(alert, calls(one));
            if (role != Role.MANAGER) {
                var open = new Anchor("referrals/" + one.sameDay().referral(), "Open");
                open.setAriaLabel("Open the same-day case " + what.substring("Same day: ".length()));
                var take = new NativeButton("I take it", _ -> take(one));
                take.addClassName("lq-ring-take");
                take.getElement()
                        .setAttribute(
                                "aria-label", "I take the same-day case " + what.substring("Same day: ".length()));
                var acts = new Div(open, take);
                acts.addClassName("lq-ring-acts");
                add(acts);
            }
        }

        void show(RingingCase one) {
            if (!one.equals(shown)) {
                shown = one;
                var now = RingWords.of(one);
                if (!now.equals(words.getText())) {
                    words.setText(now);
                }
            }
        }
    }

    private static Div calls(RingingCase one) {
        var numbers = new ArrayList<Component>();
        var calls = one.calls();
        if (one.patient().isPresent()) {
            numbers.add(number("Patient", calls.patient()));
            numbers.add(number(
                    calls.referrerName().isEmpty() ? "Referrer" : "Referrer, " + calls.referrerName(),
                    calls.referrer()));
        }
        numbers.add(number(
                calls.hospitalName().isBlank() ? "Hospital" : "Hospital, " + calls.hospitalName(), calls.hospital()));
        if (one.sameDay().escalation().isPresent()) {
            numbers.add(number(
                    calls.leadName().isBlank() ? "Lead physician" : "Lead physician, " + calls.leadName(),
                    calls.lead()));
        }
        var line = new Div();
        line.addClassName("lq-ring-calls");
        line.add(List.copyOf(numbers));
        return line;
    }

    private static Component number(String whose, Optional<String> number) {
        var one = new Span(new Span(whose + " "));
        one.addClassName("lq-ring-call");
        one.add(number.<Component>map(digits -> {
                    var link = new Anchor("tel:" + digits.replaceAll("[^+0-9]", ""), digits);
                    link.setAriaLabel(whose + ", telephone " + digits);
                    return link;
                })
                .orElseGet(() -> new Span("no number known")));
        return one;
    }

    private void take(RingingCase one) {
        switch (cases.take(one.sameDay().id())) {
            case TakeOutcome.Taken taken ->
                UI.getCurrent().navigate("referrals/" + taken.sameDay().referral());
            case TakeOutcome.TakenBefore before ->
                tell(before.by().by() + " took it at "
                        + RingWords.time(before.by().at()) + ".");
            case TakeOutcome.Over _ -> tell(one.reference() + " is no same-day case any more, or has been decided.");
        }
    }

    private static void tell(String words) {
        Notification.show(words, NOTICE_MILLIS, Notification.Position.TOP_CENTER);
    }
}
