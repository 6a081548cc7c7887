package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
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
        this.own = new long[Math.min(conclusions.size(), Long.SIZE)];
        Arrays.setAll(own, Diagram::bit);
    }

    /**
     * The bit that stands for the conclusion, or the meaning, of this number.
     *
     * @throws IllegalArgumentException if a long has not so many
     */
    static long bit(int number) {
        if (number >= Long.SIZE) {
            throw new IllegalArgumentException("too many meanings to be told apart: more than " + Long.SIZE);
        }
        return 1L << number;
    }

    /** Runs {@code rules} for every way of answering what they ask. */
    public static <R> Diagram<R> of(Function<Answers, R> rules) {
        return of(rules, List.of());
    }

    /** As {@link #of(Function)}, with the conclusions in a given order; those that are not reached may stand in it too. */
    public static <R> Diagram<R> of(Function<Answers, R> rules, List<R> order) {
        var numbers = new LinkedHashMap<R, Integer>();
        order.forEach(conclusion -> numbers.putIfAbsent(conclusion, numbers.size()));
        var places = new Places();
        var walk = new Walk();
        OptionalInt root;
        do {
            var conclusion = rules.apply(walk);
            int number = numbers.computeIfAbsent(conclusion, _ -> numbers.size());
            root = walk.turn(~number, places);
        } while (root.isEmpty());
        return new Diagram<>(List.copyOf(numbers.keySet()), places, root.getAsInt());
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

    /** What is left of it while everything is open. */
    public Reading<R> readOpen() {
        var open = new Fact<?>[topics.length];
        for (var i = 0; i < open.length; i++) {
            open[i] = Fact.open(topics[i]);
        }
        return new Reading<>(this, open);
    }

    int root() {
        return root;
    }

    /**
     * One bit for each conclusion.
     *
     * @throws IllegalArgumentException if a long has not so many
     */
    long[] own() {
        if (own.length < conclusions.size()) {
            throw new IllegalArgumentException("too many conclusions to be told apart: " + conclusions);
        }
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

    /**
     * One way after another of answering what the rules ask. A question that is new on a way gets the first of its answers;
     * at the end of the way the last question that has an answer left gets the next one, and the rules are run again.
     */
    private static final class Walk implements Answers {

        /** A question on the way that is gone, and where those of its answers lead to that have been gone through. */
        private static final class Step {
            private final Topic<?> topic;
            private final int[] leadsTo;
            private int answer;

            Step(Topic<?> topic) {
                this.topic = topic;
                this.leadsTo = new int[topic.answers().size()];
            }
        }

        private final List<Step> steps = new ArrayList<>();

        @Override
        public <T> T of(Topic<T> topic) {
            for (var step : steps) {
                if (step.topic.equals(topic)) {
                    return topic.answers().get(step.answer);
                }
            }
            steps.add(new Step(topic));
            return topic.answers().getFirst();
        }

        /**
         * Goes back from the end of a way to where the next one branches off.
         *
         * @param end what the way led to
         * @return the root of the diagram, when every way has been gone
         */
        OptionalInt turn(int end, Places places) {
            var to = end;
            while (!steps.isEmpty()) {
                var last = steps.getLast();
                last.leadsTo[last.answer] = to;
                last.answer++;
                if (last.answer < last.leadsTo.length) {
                    return OptionalInt.empty();
                }
                steps.removeLast();
                to = places.place(last.topic, last.leadsTo);
            }
            return OptionalInt.of(to);
        }
    }
}
