package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/**
 * Rules as a decision diagram. The rules are run once for each way of answering what they ask; ways that go on alike are
 * drawn once. What a referral leaves possible, and which of its unknowns matter, is then read off the diagram, without
 * running the rules again.
 *
 * @param <R> what the rules conclude
 */
public final class Diagram<R> {

    /** The places of the diagram, each behind those that it leads to; a negative number stands for a conclusion. */
    private static final class Places {
        private final List<Topic<?>> topics = new ArrayList<>();
        private final List<int[]> next = new ArrayList<>();
        private final Map<List<Integer>, Integer> drawn = new HashMap<>();

        /** The place that asks {@code topic} and leads on as said; none, if every answer leads to the same. */
        int place(Topic<?> topic, int[] leadsTo) {
            if (allTheSame(leadsTo)) {
                return leadsTo[0];
            }
            if (!topics.contains(topic)) {
                topics.add(topic);
            }
            var key = new ArrayList<Integer>(leadsTo.length + 1);
            key.add(topics.indexOf(topic));
            for (var to : leadsTo) {
                key.add(to);
            }
            return drawn.computeIfAbsent(key, _ -> {
                next.add(leadsTo);
                return next.size() - 1;
            });
        }
    }

    private static boolean allTheSame(int[] leadsTo) {
        for (var to : leadsTo) {
            if (to != leadsTo[0]) {
                return false;
            }
        }
        return true;
    }

    private final List<R> conclusions;
    private final Topic<?>[] topics;
    private final int[] topicOf;
    private final int[] numberOf;
    private final int[][] next;
    private final int root;
    private final long[] own;

    private Diagram(List<R> conclusions, Places places, int root) {
        this.conclusions = List.copyOf(conclusions);
        this.topics = places.topics.toArray(Topic<?>[]::new);
        this.next = places.next.toArray(int[][]::new);
        this.topicOf = new int[next.length];
        this.numberOf = new int[next.length];
        places.drawn.forEach((key, place) -> {
            topicOf[place] = key.getFirst();
            numberOf[place] = topics[topicOf[place]].number();
        });
        this.root = root;
        this.own = bits(conclusions.size());
    }

    /** One bit for each of {@code count}; none at all when a long has not so many. */
    private static long[] bits(int count) {
        var bits = new long[count > Long.SIZE ? 0 : count];
        for (var i = 0; i < bits.length; i++) {
            bits[i] = 1L << i;
        }
        return bits;
    }

    /** Runs {@code rules} for every way of answering what they ask. */
    public static <R> Diagram<R> of(Function<Answers, R> rules) {
        return of(rules, List.of());
    }

    /** As {@link #of(Function)}, with the conclusions in a given order; those that are not reached may stand in it too. */
    public static <R> Diagram<R> of(Function<Answers, R> rules, List<R> order) {
        var conclusions = new ArrayList<>(order);
        var places = new Places();
        var root = draw(rules, new ArrayList<>(), conclusions, places);
        return new Diagram<>(conclusions, places, root);
    }

    private static <R> int draw(Function<Answers, R> rules, List<Answered> before, List<R> conclusions, Places places) {
        var walk = new Walk(before);
        try {
            var conclusion = rules.apply(walk);
            if (!conclusions.contains(conclusion)) {
                conclusions.add(conclusion);
            }
            return ~conclusions.indexOf(conclusion);
        } catch (NotAnswered open) {
            var answers = open.topic.answers();
            var leadsTo = new int[answers.size()];
            for (var i = 0; i < leadsTo.length; i++) {
                before.add(new Answered(open.topic, answers.get(i)));
                leadsTo[i] = draw(rules, before, conclusions, places);
                before.removeLast();
            }
            return places.place(open.topic, leadsTo);
        }
    }

    /** The same rules, of which only {@code meaning} of the conclusion is wanted. */
    public <Q> Diagram<Q> map(Function<R, Q> meaning) {
        var meanings = List.copyOf(
                new LinkedHashSet<>(conclusions.stream().map(meaning).toList()));
        var places = new Places();
        var moved = new int[next.length];
        for (var place = 0; place < next.length; place++) {
            moved[place] = places.place(
                    topics[topicOf[place]],
                    Arrays.stream(next[place])
                            .map(to -> to >= 0 ? moved[to] : ~meanings.indexOf(meaning.apply(conclusions.get(~to))))
                            .toArray());
        }
        return new Diagram<>(
                meanings, places, root >= 0 ? moved[root] : ~meanings.indexOf(meaning.apply(conclusions.get(~root))));
    }

    /** Everything that the rules can conclude. */
    public List<R> conclusions() {
        return conclusions;
    }

    /** What the facts of one referral leave of the diagram; {@code facts} says something about every topic asked. */
    public Reading<R> read(Facts facts) {
        var said = new Fact<?>[topics.length];
        for (var i = 0; i < said.length; i++) {
            said[i] = facts.of(topics[i]);
        }
        return new Reading<>(this, said);
    }

    /** What to act on by the facts of one referral, which say something about every topic of its agenda. */
    public R actOn(Facts facts) {
        var place = root;
        while (place >= 0) {
            place = next[place][facts.acting(numberOf[place])];
        }
        return conclusions.get(~place);
    }

    /** Names of the topics whose answer makes a difference while everything is open, as {@link Reading#decisive}. */
    public Set<String> decisiveTopics() {
        var open = new Fact<?>[topics.length];
        for (var i = 0; i < open.length; i++) {
            open[i] = Fact.open(topics[i]);
        }
        return new Reading<>(this, open).decisiveFields();
    }

    int root() {
        return root;
    }

    /** One bit for each conclusion. */
    long[] own() {
        return own;
    }

    int places() {
        return next.length;
    }

    int topicOf(int place) {
        return topicOf[place];
    }

    int[] next(int place) {
        return next[place];
    }

    private record Answered(Topic<?> topic, Object answer) {}

    /** The rules ask something that the walk has no answer to yet. */
    private static final class NotAnswered extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient Topic<?> topic;

        NotAnswered(Topic<?> topic) {
            super(topic.toString(), null, false, false);
            this.topic = topic;
        }
    }

    private record Walk(List<Answered> answered) implements Answers {

        @Override
        @SuppressWarnings("unchecked") // an answered topic holds one of its own answers
        public <T> T of(Topic<T> topic) {
            for (var earlier : answered) {
                if (earlier.topic().equals(topic)) {
                    return (T) earlier.answer();
                }
            }
            throw new NotAnswered(topic);
        }
    }
}
