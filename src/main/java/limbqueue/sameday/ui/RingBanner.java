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
import limbqueue.shell.Pieces;

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
        private final Span count = new Span();
        private final Div numbers = Pieces.div("lq-ring-calls");
        private final Anchor more;
        private List<Telephone> shown = List.of();

        Ring(Role role) {
            this.role = role;
            addClassName("lq-ring");
            getElement().setAttribute("aria-label", "Same-day cases that nobody has taken");
            more = new Anchor(role == Role.PHYSICIAN ? "queue" : "referrals", "");
            more.addClassName("lq-ring-more");
            more.setVisible(false);
            count.addClassName("lq-ring-count");
            add(Pieces.div("lq-ring-head", count, numbers, more));
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
            leave(first.stream().map(one -> one.sameDay().id()).collect(Collectors.toSet()));
            for (var at = 0; at < first.size(); at++) {
                var one = first.get(at);
                var line = lines.get(one.sameDay().id());
                if (line == null) {
                    line = new Line(one, role);
                    lines.put(one.sameDay().id(), line);
                    // After the head.
                    addComponentAtIndex(at + 1, line);
                } else {
                    line.show(one);
                }
            }
            count.setText("Same day: " + ringing.size() + " taken by nobody");
            ringing.stream().findFirst().ifPresent(one -> call(Telephone.ofAll(one)));
            more.setText("All " + ringing.size());
            more.setAriaLabel("All " + ringing.size() + " same-day cases that nobody has taken");
            more.setVisible(ringing.size() > 1 && role != Role.MANAGER);
            setClassName("lq-rings", !first.isEmpty());
        }

        /** Whom to call in any case, changed only where it differs, so that it keeps the focus. */
        private void call(List<Telephone> now) {
            if (!now.equals(shown)) {
                shown = now;
                numbers.removeAll();
                now.forEach(number -> numbers.add(number.link()));
            }
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

        Line(RingingCase one, Role role) {
            addClassName("lq-ring-line");
            var whose = one.patient().map(RingingCase.Patient::name).orElse(one.reference());
            var title = new Span(whose);
            title.addClassName("lq-ring-patient");
            words.setText(RingWords.of(one));
            var alert = Pieces.div("lq-ring-words", title, words);
            alert.getElement().setAttribute("role", "alert").setAttribute("aria-label", "Same day");
            var calls = Pieces.div("lq-ring-calls");
            one.patient().ifPresent(patient -> Telephone.of(patient).forEach(number -> calls.add(number.link())));
            add(alert, calls);
            if (role != Role.MANAGER) {
                var open = new Anchor("referrals/" + one.sameDay().referral(), "Open");
                open.setAriaLabel("Open the same-day case " + whose);
                var take = new NativeButton("I take it", _ -> take(one));
                take.addClassName("lq-ring-take");
                take.getElement().setAttribute("aria-label", "I take it: the same-day case " + whose);
                add(Pieces.div("lq-ring-acts", open, take));
            }
        }

        void show(RingingCase one) {
            var now = RingWords.of(one);
            if (!now.equals(words.getText())) {
                words.setText(now);
            }
        }
    }

    /**
     * Whose telephone number, in a word and in full.
     *
     * @param kept whether the practice keeps it for every case; else it comes with the referral
     */
    private record Telephone(String whose, String name, Optional<String> digits, boolean kept) {

        static List<Telephone> of(RingingCase.Patient patient) {
            return List.of(
                    new Telephone("Patient", "", patient.phone(), false),
                    new Telephone("Referrer", patient.referrerName(), patient.referrerPhone(), false));
        }

        static List<Telephone> ofAll(RingingCase one) {
            var numbers = one.numbers();
            var hospital = new Telephone(
                    numbers.hospital().isBlank() ? "Hospital" : numbers.hospital(), "", numbers.hospitalPhone(), true);
            return one.sameDay().escalation().isEmpty()
                    ? List.of(hospital)
                    : List.of(hospital, new Telephone("Lead physician", numbers.lead(), numbers.leadPhone(), true));
        }

        Component link() {
            var one = Pieces.text("lq-ring-call", whose);
            if (!name.isEmpty()) {
                one.add(Pieces.text("lq-ring-name", ", " + name));
                one.setTitle(name);
            }
            one.add(" ");
            one.add(digits.<Component>map(number -> {
                        var link = new Anchor("tel:" + number.replaceAll("[^+0-9]", ""), number);
                        link.setAriaLabel(full() + ", telephone " + number);
                        return link;
                    })
                    .orElseGet(() -> kept ? new Anchor("same-day", "no number kept") : new Span("no number known")));
            return one;
        }

        private String full() {
            return name.isEmpty() ? whose : whose + ", " + name;
        }
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
