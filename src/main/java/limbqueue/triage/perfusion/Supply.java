package limbqueue.triage.perfusion;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import limbqueue.triage.question.Fact;
import limbqueue.triage.question.Topic;

/**
 * The supply of one leg, known once a distal and an ankle figure are.
 *
 * @param path the field that would settle it
 * @param choices the supplies that are possible while it is unknown
 * @param ask the question, with {@code %s} for {@code words}
 */
public record Supply(
        String path, Optional<Perfusion> known, Perfusion actOn, List<Perfusion> choices, String ask, String words) {

    /**
     * What wounds depend on.
     *
     * @param ischaemia WIfI ischaemia grade, 0 to 3
     * @param distal whether the grade rests on a distal figure
     */
    public record OfTissue(int ischaemia, boolean distal) {

        public static final List<OfTissue> ALL = IntStream.rangeClosed(0, 3)
                .boxed()
                .flatMap(grade -> Stream.of(new OfTissue(grade, false), new OfTissue(grade, true)))
                .toList();

        static OfTissue of(Perfusion perfusion) {
            return ALL.get(2 * perfusion.ischaemia() + (perfusion.distal() ? 1 : 0));
        }
    }

    /**
     * What makes a symptom limb-threatening.
     *
     * @param ischaemic WIfI ischaemia grade 1 or more
     * @param poor pressures low enough to explain pain at rest
     */
    public record AtRest(boolean ischaemic, boolean poor) {

        public static final List<AtRest> ALL = List.of(
                new AtRest(false, false), new AtRest(false, true), new AtRest(true, false), new AtRest(true, true));

        static AtRest of(Perfusion perfusion) {
            return ALL.get((perfusion.ischaemia() >= 1 ? 2 : 0) + (perfusion.poorAtRest() ? 1 : 0));
        }
    }

    /** Nobody needs to ask any more. */
    public Supply settled() {
        return known.isPresent() ? this : new Supply(path, Optional.of(actOn), actOn, List.of(actOn), ask, words);
    }

    public Perfusion acting() {
        return known.orElse(actOn);
    }

    public Fact<OfTissue> ofTissue(Topic<OfTissue> topic) {
        return seen(topic, OfTissue::of);
    }

    public Fact<AtRest> atRest(Topic<AtRest> topic) {
        return seen(topic, AtRest::of);
    }

    public Fact<Boolean> low(Topic<Boolean> topic) {
        return seen(topic, Perfusion::low);
    }

    public Fact<Integer> ischaemia(Topic<Integer> topic) {
        return seen(topic, Perfusion::ischaemia);
    }

    /** One side of it, which is known when it is the same whatever the supply. */
    private <T> Fact<T> seen(Topic<T> topic, Function<Perfusion, T> side) {
        if (known.isPresent()) {
            return Fact.known(topic, side.apply(known.get()));
        }
        var seen = new ArrayList<T>(choices.size());
        for (var choice : choices) {
            var answer = side.apply(choice);
            if (!seen.contains(answer)) {
                seen.add(answer);
            }
        }
        return seen.size() == 1
                ? Fact.known(topic, seen.getFirst())
                : Fact.of(topic, "", path, Optional.empty(), side.apply(actOn), seen, ask, words);
    }
}
