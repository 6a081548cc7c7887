package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.reading.PulseWords.Kind;
import limbqueue.reading.PulseWords.Word;

/** Pairs the places of one sentence with what was felt there, and both with the side. */
final class PulsePairing {

    /** What may stand between places of one list, or between a value and its place. */
    private static final Pattern LIST = Pattern.compile(
            "(?: pulses?)?(?: ?(?:,|/|&|\\+|and|or|nor|, ?and|, ?or)) ?(?:the |both |his |her |all )*(?:left |right |bilateral )?|(?: pulses?)? ?");

    private static final Pattern BEFORE_PLACE = Pattern.compile(
            "(?: (?:palpable|detectable|pulses?|or|and|at|both|the|a|an|his|her|any|of|in|on|either|peripheral|obvious|discernible|nor|no|felt|"
                    + "/|left|right|bilateral|there|is|are|at all|anything|pulse|level))* ?[/,&+]? ?");
    private static final Pattern TRAILING =
            Pattern.compile("(?: pulses?| 1)? ?,? ?(?:in|on|at|over|to)?(?: the| his| her)? ?[(]?(?:in the |on the )?");
    private static final Pattern SAME_FEELING = Pattern.compile(
            "(?:,? but)?(?: (?:and|though|although|if|rather|very|easily|quite|only|a|is|are|to be))* ?");

    private static final Pattern LEADING = Pattern.compile(
            " ?(?:leg |foot |side |limb |groin |on |in )?(?:the |his |her |a |an |any |both |all )*[:=-]? ?");
    /** "No pulses were" felt. */
    private static final Pattern NO_PULSE_IS =
            Pattern.compile("(?: pulses?)?(?: (?:is|are|was|were|could be|can be))? ");

    private static final Pattern PREFIX =
            Pattern.compile("no|nothing|neither|not|(?:cannot|can|could|unable|failed) .*");
    private static final Pattern ENDS = Pattern.compile("(?: (?:them|it|those|either|any))?(?: there)? ?(?:[.,;)]|$)");

    /** What was felt at places of one leg or both. */
    static final class Group {
        final List<String> places;
        final int start;
        int end;
        String value;
        Optional<Set<Side>> sides;
        /** The side was named with the group itself and not taken over from words before. */
        boolean own;

        Group(List<String> places, String value, Optional<Set<Side>> sides, boolean own, int start, int end) {
            this.places = places;
            this.value = value;
            this.sides = sides;
            this.own = own;
            this.start = start;
            this.end = end;
        }
    }

    /** A place that waits for what was felt there. */
    private record Waiting(List<String> places, Optional<Set<Side>> sides, boolean own, int start) {}

    private final String plain;
    private final List<Word> words;
    private final List<Group> groups = new ArrayList<>();
    private final List<Waiting> waiting = new ArrayList<>();
    private Optional<Set<Side>> side = Optional.empty();
    /** The side was named since the last group. */
    private boolean fresh;

    private Optional<Word> ahead = Optional.empty();
    private boolean aheadUsed;
    /** How many groups were told before the last semicolon. */
    private int border;

    PulsePairing(Sentence sentence, Legs legs) {
        this.plain = sentence.plain;
        this.words = PulseWords.of(sentence, legs);
    }

    List<Group> groups() {
        for (var i = 0; i < words.size(); i++) {
            var word = words.get(i);
            switch (word.kind()) {
                case SIDE -> side(i, word.sides());
                case BOTH -> both(i);
                case PLACE -> place(i, word.places());
                case EVERY -> every(i);
                case REST -> place(i, rest());
                case BELOW -> below(i);
                case DOWN_TO -> downTo(word);
                case NEITHER -> neither(i);
                case FELT -> felt(i);
                case BORDER -> {
                    border = groups.size();
                    waiting.clear();
                    ahead = Optional.empty();
                }
            }
        }
        return groups;
    }

    private boolean is(int i, Kind kind) {
        return i >= 0 && i < words.size() && words.get(i).kind() == kind;
    }

    /** The word behind {@code i}, "both" and "all" left out. */
    private int next(int i) {
        var at = i + 1;
        while (is(at, Kind.BOTH) || is(at, Kind.EVERY)) {
            at++;
        }
        return at;
    }

    /** The word before {@code i}, "both" and "all" left out. */
    private int previous(int i) {
        var at = i - 1;
        while (is(at, Kind.BOTH) || is(at, Kind.EVERY)) {
            at--;
        }
        return at;
    }

    private String gap(int i) {
        return i <= 0 || i >= words.size()
                ? ""
                : plain.substring(
                        words.get(i - 1).end(),
                        Math.max(words.get(i - 1).end(), words.get(i).start()));
    }

    private String between(int i, int j) {
        return plain.substring(
                words.get(i).end(), Math.max(words.get(i).end(), words.get(j).start()));
    }

    private boolean isPlace(int i) {
        return is(i, Kind.PLACE) || is(i, Kind.REST) || is(i, Kind.BELOW);
    }

    private void side(int i, Set<Side> named) {
        if (trails(i)) {
            for (var at = groups.size() - 1; at >= border && !groups.get(at).own; at--) {
                if (at < groups.size() - 1 && groups.get(at).sides.isPresent()) {
                    break;
                }
                groups.get(at).sides = Optional.of(named);
            }
            groups.getLast().own = true;
            groups.getLast().end = words.get(i).end();
            side = Optional.of(named);
            fresh = false;
            return;
        }
        side = Optional.of(named);
        fresh = true;
        if (!waiting.isEmpty()
                && is(next(i), Kind.FELT)
                && Fit.matches(gap(i), "(?: pulses?)?[,:]? ?(?:in|on|:)?(?: the)? ?")) {
            waiting.replaceAll(place -> place.own() ? place : new Waiting(place.places(), side, true, place.start()));
        } else if (ahead.isPresent() && !aheadUsed && is(i - 1, Kind.FELT) && !leads(i)) {
            sameAgain(words.get(i).end());
        }
    }

    /** Whether the side at {@code i} is that of a place behind it: "left DP", but not "left, with DP". */
    private boolean leads(int i) {
        return isPlace(i + 1) && LEADING.matcher(gap(i + 1)).matches();
    }

    /** Whether the side at {@code i} belongs to what was told just before it. */
    private boolean trails(int i) {
        if (groups.isEmpty()
                || groups.getLast().own
                || !TRAILING.matcher(gap(i)).matches()) {
            return false;
        }
        var closed = is(i - 1, Kind.FELT) && ahead.isEmpty() || isPlace(i - 1) && waiting.isEmpty();
        if (!closed) {
            return false;
        }
        var next = gap(i + 1);
        if (leads(i)) {
            return false;
        }
        return !(is(i + 1, Kind.FELT) && groups.getLast().sides.isPresent() && next.isBlank());
    }

    /** "Both femoral pulses" are of two legs, "both DP and PT" are two places. */
    private void both(int i) {
        var ofPlaces = isPlace(i + 1)
                        && isPlace(i + 2)
                        && LIST.matcher(gap(i + 2)).matches()
                || side.filter(named -> named.size() == 1).isPresent()
                        && (fresh || !waiting.isEmpty() && waiting.stream().allMatch(Waiting::own));
        if (ofPlaces) {
            return;
        }
        if (isPlace(i + 1)) {
            side = Optional.of(Side.both());
            fresh = false;
        } else if (!waiting.isEmpty() && is(i + 1, Kind.FELT)) {
            waiting.replaceAll(place -> new Waiting(place.places(), Optional.of(Side.both()), false, place.start()));
        } else if (trails(i)) {
            var before = side;
            side(i, Side.both());
            side = before;
        }
    }

    private void place(int i, List<String> places) {
        var start = words.get(i).start();
        if (ahead.isPresent()
                && BEFORE_PLACE
                        .matcher(plain.substring(
                                words.get(i - 1).end(),
                                Math.max(words.get(i - 1).end(), start)))
                        .matches()
                && !waitsForWhatFollows(i)) {
            groups.add(new Group(
                    places,
                    ahead.get().value(),
                    side,
                    fresh,
                    ahead.get().start(),
                    words.get(i).end()));
            fresh = false;
            aheadUsed = true;
            return;
        }
        ahead = Optional.empty();
        var before = previous(i);
        var goesOn = isPlace(before) && LIST.matcher(between(before, i)).matches()
                || is(before, Kind.SIDE) && isPlace(before - 1)
                || isPlace(before) && !is(before, Kind.PLACE);
        if (!goesOn || waiting.stream().anyMatch(place -> place.places().containsAll(places))) {
            waiting.clear();
        }
        waiting.add(new Waiting(places, side, fresh, start));
    }

    /** "Good femoral, popliteal absent": the second place waits for its own word. */
    private boolean waitsForWhatFollows(int i) {
        var felt = next(i);
        return aheadUsed
                && !deniedToo(gap(i))
                && is(felt, Kind.FELT)
                && !isPrefix(felt)
                && !(isPlace(felt + 1) && Fit.matches(gap(felt + 1), "(?: pulses?)? (?:the )?"));
    }

    /** "No DP or PT palpable", "neither DP nor PT": what was denied of the first place is denied of the second. */
    private boolean deniedToo(String gap) {
        return denies() && Fit.matches(gap, "(?: pulses?)?,? ?(?:or|nor) .*");
    }

    private boolean denies() {
        return ahead.filter(word -> Fit.matches(plain.substring(word.start(), word.end()), "no|neither"))
                .isPresent();
    }

    private void every(int i) {
        if (isPlace(i - 1) || isPlace(i + 1) && BEFORE_PLACE.matcher(gap(i + 1)).matches() || is(i - 1, Kind.BOTH)) {
            return;
        }
        if (is(i + 1, Kind.FELT) && Fit.matches(gap(i + 1), " ?(?:are |were |is )?(?:easily )?") && ahead.isEmpty()) {
            waiting.clear();
            waiting.add(new Waiting(PulseWords.ALL, side, fresh, words.get(i).start()));
        }
    }

    private List<String> rest() {
        var left = new ArrayList<>(PulseWords.ALL);
        groups.stream().filter(group -> group.sides.equals(side)).forEach(group -> left.removeAll(group.places));
        waiting.clear();
        return left;
    }

    private void below(int i) {
        var word = words.get(i);
        var places = word.places();
        if (places.isEmpty()) {
            var above = !waiting.isEmpty()
                    ? waiting.getLast().places()
                    : groups.isEmpty() ? List.of("femoral") : groups.getLast().places;
            places = PulseWords.ALL.subList(
                    Math.min(4, PulseWords.ALL.indexOf(above.getLast()) + 1), PulseWords.ALL.size());
        }
        if (places.isEmpty()) {
            return;
        }
        var nothing = ahead.filter(value -> value.value().equals("absent") && !aheadUsed)
                .isPresent();
        var fellAway = !nothing
                && is(i - 1, Kind.FELT)
                && words.get(i - 1).value().equals("absent")
                && gap(i).isBlank()
                && waiting.isEmpty();
        if (nothing || fellAway) {
            var start = words.get(i - 1).start();
            groups.add(new Group(places, "absent", side, fresh, start, word.end()));
            fresh = false;
            if (!word.value().isEmpty()) {
                groups.add(new Group(List.of(word.value()), "present", side, false, start, word.end()));
            }
            ahead = Optional.empty();
        } else {
            place(i, places);
        }
    }

    private void downTo(Word word) {
        groups.add(new Group(word.places(), word.value(), side, fresh, word.start(), word.end()));
        fresh = false;
        waiting.clear();
        ahead = Optional.empty();
    }

    /** "Neither popliteal" is of two legs, where the sentence names none; "neither palpable" is of all that was named. */
    private void neither(int i) {
        var word = words.get(i);
        if (isPlace(i + 1)) {
            if (side.isEmpty()) {
                side = Optional.of(Side.both());
            }
            waiting.clear();
            ahead = Optional.of(word);
            aheadUsed = false;
            return;
        }
        if (!waiting.isEmpty() && isPlace(i - 1)) {
            close(word);
            return;
        }
        var named = words.subList(0, i);
        var sides = EnumSet.noneOf(Side.class);
        named.forEach(before -> sides.addAll(before.sides()));
        var places = named.stream()
                .filter(before -> before.kind() == Kind.PLACE)
                .flatMap(before -> before.places().stream())
                .distinct()
                .toList();
        if (groups.isEmpty() && sides.size() == 2 && places.size() == 1) {
            groups.add(new Group(places, "absent", Optional.of(sides), true, word.start(), word.end()));
        }
    }

    /** Whether the word at {@code i} is one of those that stand before their place: "no", "I can feel". */
    private boolean isPrefix(int i) {
        var word = words.get(i);
        return PREFIX.matcher(plain.substring(word.start(), word.end())).matches()
                && !ENDS.matcher(plain).region(word.end(), plain.length()).lookingAt();
    }

    private void felt(int i) {
        var word = words.get(i);
        if (is(i - 1, Kind.FELT)
                && ahead.isPresent()
                && !aheadUsed
                && denies()
                && NO_PULSE_IS.matcher(gap(i)).matches()) {
            return;
        }
        if (is(i - 1, Kind.FELT) && SAME_FEELING.matcher(gap(i)).matches() && !isNone(i)) {
            if (isGrade(i - 1) && isGrade(i) && !is(i + 1, Kind.SIDE)) {
                ofTwoLegs();
            } else {
                worse(word);
            }
            return;
        }
        if (aheadUsed
                && ahead.filter(value -> value.value().equals("absent")).isPresent()
                && isPlace(i - 1)
                && (Fit.matches(gap(i), "(?: pulses?)? (?:is|are|was|were|can be|could be)(?: both)? ")
                        || denies() && !isPlace(i + 1) && Fit.matches(gap(i), "(?: pulses?)? "))) {
            groups.getLast().end = word.end();
            ahead = Optional.empty();
            return;
        }
        var placeFollows = (isPlace(i + 1) || is(i + 1, Kind.SIDE) && leads(i + 1))
                && BEFORE_PLACE.matcher(gap(i + 1)).matches();
        if (!waiting.isEmpty()
                && !(isPrefix(i) && placeFollows)
                && word.start() - words.get(i - 1).end() < 45) {
            close(word);
            return;
        }
        waiting.clear();
        ahead = Optional.of(word);
        aheadUsed = false;
        if (!placeFollows && fresh && !groups.isEmpty() && is(i - 1, Kind.SIDE) && !isPrefix(i)) {
            sameAgain(word.end());
        }
    }

    /** "None", "nothing below": no other word for what was felt before, but a finding of its own. */
    private boolean isNone(int i) {
        return isPrefix(i)
                || Fit.matches(
                        plain.substring(words.get(i).start(), words.get(i).end()), "none|nil|nothing|neither|no");
    }

    private boolean isGrade(int i) {
        return Fit.matches(plain.substring(words.get(i).start(), words.get(i).end()), "[0-4]\\+?");
    }

    /** "Popliteals 0 and 2+": one is of the right leg and one of the left, and nobody says which. */
    private void ofTwoLegs() {
        if (!groups.isEmpty() && !groups.getLast().own) {
            groups.removeLast();
        }
        ahead = Optional.empty();
    }

    /** "Weak but palpable": of two words for one feeling the worse counts. */
    private void worse(Word word) {
        var order = List.of("present", "weak", "absent");
        if (ahead.isPresent() && !aheadUsed) {
            if (order.indexOf(word.value()) > order.indexOf(ahead.get().value())) {
                ahead = Optional.of(new Word(
                        word.kind(), ahead.get().start(), word.end(), word.sides(), word.places(), word.value()));
            }
        } else if (!groups.isEmpty() && order.indexOf(word.value()) > order.indexOf(groups.getLast().value)) {
            groups.getLast().value = word.value();
            groups.getLast().end = word.end();
        }
    }

    private void close(Word word) {
        var legs = new LinkedHashSet<Optional<Set<Side>>>();
        waiting.forEach(place -> legs.add(place.sides()));
        for (var leg : legs) {
            var here =
                    waiting.stream().filter(place -> place.sides().equals(leg)).toList();
            var places = here.stream()
                    .flatMap(place -> place.places().stream())
                    .distinct()
                    .toList();
            var own = here.stream().anyMatch(Waiting::own);
            groups.add(new Group(
                    places,
                    word.value(),
                    twice(word) ? Optional.of(Side.both()) : leg,
                    own,
                    here.getFirst().start(),
                    word.end()));
        }
        waiting.clear();
        ahead = Optional.empty();
        fresh = false;
    }

    /** "+ +" is a sign for each leg. */
    private boolean twice(Word word) {
        return plain.substring(word.start(), word.end()).equals("+ +");
    }

    /** "…, absent on the right", "the left one full": what was felt at the places told last, on another side. */
    private void sameAgain(int end) {
        var value = ahead.orElseThrow();
        if (groups.isEmpty() || groups.getLast().sides.equals(side)) {
            return;
        }
        groups.add(new Group(groups.getLast().places, value.value(), side, true, value.start(), end));
        ahead = Optional.empty();
        fresh = false;
    }
}
