package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A diagram read with what one referral says: what to act on, everything that its unknown facts still allow, and which
 * of them matter. What is called possible is reached by some answers, and nothing else is.
 *
 * @param <R> what the rules conclude
 */
public final class Reading<R> {

    private final Diagram<R> diagram;
    private final Fact<?>[] facts;
    private long @Nullable [] ownReached;

    /** @param facts what is said of the topics of the diagram, in their order */
    Reading(Diagram<R> diagram, Fact<?>[] facts) {
        this.diagram = diagram;
        this.facts = facts;
    }

    List<R> conclusions() {
        return diagram.conclusions();
    }

    /** What to act on. */
    public R actOn() {
        var place = diagram.root();
        while (place >= 0) {
            place = diagram.next(place)[facts[diagram.topicOf(place)].actingIndex()];
        }
        return diagram.conclusions().get(~place);
    }

    /** Adds the unknown facts that decide what is acted on, by path, in the order of looking. */
    public void lookedAt(Map<String, Fact<?>> unknown) {
        var place = diagram.root();
        while (place >= 0) {
            var fact = facts[diagram.topicOf(place)];
            if (fact.part().isPresent()) {
                fact.part().get().lookedAt(unknown);
            } else if (!fact.known()) {
                unknown.put(fact.path(), fact);
            }
            place = diagram.next(place)[fact.actingIndex()];
        }
    }

    /** Every conclusion that some way of answering leads to, in the order of the diagram's conclusions. */
    public List<R> possible() {
        return conclusions(possibleBits());
    }

    long possibleBits() {
        return at(diagram.root(), ownReached(), own());
    }

    private long[] ownReached() {
        if (ownReached == null) {
            ownReached = reached(own());
        }
        return ownReached;
    }

    /**
     * For each unknown fact whose answer makes a difference, by path, the conclusions that answers to it can lead to:
     * with what was looked at before it answered alike, different answers to it lead to different conclusions.
     */
    public Map<String, List<R>> decisive() {
        var conclusions = new LinkedHashMap<String, List<R>>();
        decisiveBits().forEach((path, reached) -> conclusions.put(path, conclusions(reached)));
        return conclusions;
    }

    /** The fields of the unknown facts whose answer makes a difference. */
    public Set<String> decisiveFields() {
        return decisiveBits().keySet();
    }

    /**
     * As {@link #decisiveFields()}, where only {@code meaning} of each conclusion is wanted: an answer that leads to another
     * conclusion of the same meaning makes no difference.
     */
    public Set<String> decisiveFields(Function<R, ?> meaning) {
        var meanings = new ArrayList<Object>();
        var bits = new long[diagram.conclusions().size()];
        for (var i = 0; i < bits.length; i++) {
            var meant = meaning.apply(diagram.conclusions().get(i));
            var number = meanings.indexOf(meant);
            if (number < 0) {
                number = meanings.size();
                meanings.add(meant);
            }
            bits[i] = Diagram.bit(number);
        }
        if (meanings.size() <= 1) {
            return Set.of();
        }
        var decisive = new LinkedHashMap<String, Long>();
        decisive(bits, reached(bits), decisive);
        return decisive.keySet();
    }

    private Map<String, Long> decisiveBits() {
        var decisive = new LinkedHashMap<String, Long>();
        decisive(own(), ownReached(), decisive);
        return decisive;
    }

    /**
     * @param conclusions as bits, what each conclusion of this diagram means, or leads to in the diagram it is a part of
     * @param reached what lies beyond each place
     */
    private void decisive(long[] conclusions, long[] reached, Map<String, Long> decisive) {
        if (diagram.root() < 0) {
            return;
        }
        var byTopic = new long[facts.length];
        var live = new boolean[diagram.places()];
        live[diagram.root()] = true;
        for (var place = diagram.root(); place >= 0; place--) {
            if (!live[place] || Long.bitCount(reached[place]) <= 1) {
                continue;
            }
            var topic = diagram.topicOf(place);
            var fact = facts[topic];
            var next = diagram.next(place);
            var differ = false;
            for (var answer = 0; answer < next.length; answer++) {
                if (fact.allows(answer)) {
                    differ |= at(next[answer], reached, conclusions) != reached[place];
                    if (next[answer] >= 0) {
                        live[next[answer]] = true;
                    }
                }
            }
            if (differ && fact.part().isPresent()) {
                var part = fact.part().get();
                var beyond = beyond(place, reached, conclusions);
                part.decisive(beyond, part.reached(beyond), decisive);
            } else if (differ) {
                byTopic[topic] |= reached[place];
            }
        }
        for (var topic = 0; topic < byTopic.length; topic++) {
            if (byTopic[topic] != 0) {
                decisive.merge(facts[topic].path(), byTopic[topic], (one, other) -> one | other);
            }
        }
    }

    /** What lies beyond each possible answer at {@code place}. */
    private long[] beyond(int place, long[] reached, long[] conclusions) {
        var next = diagram.next(place);
        var beyond = new long[next.length];
        for (var answer = 0; answer < next.length; answer++) {
            if (facts[diagram.topicOf(place)].allows(answer)) {
                beyond[answer] = at(next[answer], reached, conclusions);
            }
        }
        return beyond;
    }

    /** For each place, what lies beyond it. */
    private long[] reached(long[] conclusions) {
        var live = live();
        var reached = new long[live.length];
        for (var place = 0; place < reached.length; place++) {
            if (!live[place]) {
                continue;
            }
            var fact = facts[diagram.topicOf(place)];
            var next = diagram.next(place);
            for (var answer = 0; answer < next.length; answer++) {
                if (fact.allows(answer)) {
                    reached[place] |= at(next[answer], reached, conclusions);
                }
            }
        }
        return reached;
    }

    /** Which places some way of answering comes upon: of most diagrams few. */
    private boolean[] live() {
        var live = new boolean[diagram.places()];
        if (diagram.root() >= 0) {
            live[diagram.root()] = true;
        }
        for (var place = live.length - 1; place >= 0; place--) {
            if (live[place]) {
                var fact = facts[diagram.topicOf(place)];
                var next = diagram.next(place);
                for (var answer = 0; answer < next.length; answer++) {
                    if (next[answer] >= 0 && fact.allows(answer)) {
                        live[next[answer]] = true;
                    }
                }
            }
        }
        return live;
    }

    private static long at(int place, long[] reached, long[] conclusions) {
        return place >= 0 ? reached[place] : conclusions[~place];
    }

    private long[] own() {
        return diagram.own();
    }

    private List<R> conclusions(long bits) {
        var conclusions = new ArrayList<R>(Long.bitCount(bits));
        for (var left = bits; left != 0; left &= left - 1) {
            conclusions.add(diagram.conclusions().get(Long.numberOfTrailingZeros(left)));
        }
        return conclusions;
    }
}
