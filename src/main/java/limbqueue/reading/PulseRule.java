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

/** Pulses that were felt or not. Signals that were heard are no pulses. */
final class PulseRule implements Rule {

    private static final String VESSEL = "(?:femoral|popliteal|pedal|dp|postib)s?";
    private static final String FELT_FOR_SURE =
            "(?:(?:isn't |not |non[- ]?|im|un)?palpable|absent|present|felt|faint|weak|diminished|bounding|[1-4]\\+|nil|good|ok|fine|full|strong)";

    /** Words that tell without the word pulse that pulses are meant. */
    private static final Pattern VESSEL_FELT = Pattern.compile("\\b" + VESSEL
            + "(?: ?(?:[:=,]|and|&|/|\\+|pulses?|is|are|was|were|all|both|left|right|bilateral|" + VESSEL + "))*? ?"
            + "(?:" + FELT_FOR_SURE
            + "\\b|cannot be (?:felt|found)|[0-4]/[1-4](?!/)|0(?!\\d|\\.\\d|/\\d)|[1-4]\\+|\\+|-(?=[ ,;]|$))"
            + "|\\b(?:" + FELT_FOR_SURE + "|0|[1-4]\\+|no)(?: left| right| palpable)? " + VESSEL + "\\b"
            + "(?! (?:aneurysm|stenos|occlu|disease|lesion|arter|bypass|stent|pressure|graft))"
            + "|\\b(?:nothing|anything|none|nil)\\b[^.;]{0,20}\\b(?:palpable|felt)\\b[^.;]{0,15}\\bbelow\\b|\\bneither (?:is |was )?(?:palpable|felt)\\b|\\bfeel (?:the |his |her |a |any )?"
            + "(?:left |right |rather |faint )*" + VESSEL + "\\b");

    private static final Pattern GOES_ON = Pattern.compile(
            "\\b(?:feel|felt|palpable|impalpable|nothing|nil|none)\\b|^(?:on the |in the |the )?(?:left|right|bilateral)(?: leg| foot| side)? ?[:=-]? ?(?:all|\\d\\+|\\+|-|0)");
    private static final Pattern NO_PULSE = Pattern.compile(
            "\\b(?:doppler|waveform|monophasic|biphasic|triphasic|audible|graft|stent|occlusion|stenosis|bruit|aneurysm|mmhg|pressure|"
                    + "stenosed|oximeter|duplex|cta|mra|angiogram)\\b");

    private static final Pattern HEDGED = Pattern.compile(
            "^,? ?(?:i think|i believe|i suspect|perhaps|maybe|possibly|\\?|but (?:i am |i'm )?not (?:sure|certain))");

    /** What may stand between places of one list, or between a value and its place. */
    private static final Pattern LIST = Pattern.compile(
            "(?: pulses?)?(?: ?(?:,|/|&|\\+|and|or|nor|, ?and|, ?or)) ?(?:the |both |his |her )?(?:left |right |bilateral )?|(?: pulses?)? ?");

    private static final Pattern BEFORE_PLACE = Pattern.compile(
            "(?: (?:palpable|detectable|pulses?|or|and|at|both|the|a|an|his|her|any|of|in|on|either|peripheral|obvious|discernible|nor|no|felt|"
                    + "/|left|right|bilateral|there|is|are|at all))* ?[/,&+]? ?");
    private static final Pattern TRAILING =
            Pattern.compile("(?: pulses?| 1)? ?,? ?(?:in|on|at|over|to)?(?: the| his| her)? ?[(]?(?:in the |on the )?");
    private static final Pattern SAME_FEELING = Pattern.compile(
            "(?:,? but)?(?: (?:and|though|although|if|rather|very|easily|quite|only|a|is|are|to be))* ?");

    /** What was felt at places of one leg or both. */
    private static final class Group {
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

    /** "Fem/pop/DP/PT R 2/2/0/0": nobody writes the arteries so but for their pulses. */
    private static final Pattern PLACES_BY_SLASH =
            Pattern.compile("\\bfemorals? ?/ ?popliteals? ?/ ?dp ?/ ?postib (?:left|right|bilateral)\\b.{0,6}[0-4]");

    @Override
    public void read(Page page, Findings findings) {
        var last = -5;
        var order = Optional.<Side>empty();
        var paragraph = -1;
        for (var sentence : page.sentences) {
            if (sentence.paragraph != paragraph) {
                order = Optional.empty();
                paragraph = sentence.paragraph;
            }
            if (sentence.plain.contains("pulse") && sentence.plain.endsWith(":")) {
                order = PulseGrid.order(sentence.plain);
            }
            if (speaksOfPulses(sentence, sentence.number - last <= 2)) {
                last = sentence.number;
                for (var group : groups(sentence, page.legs, order)) {
                    put(page, sentence, group, findings);
                }
            }
        }
    }

    private static List<Group> groups(Sentence sentence, Legs legs, Optional<Side> order) {
        return PulseGrid.of(sentence.plain, order)
                .map(cells -> cells.stream()
                        .map(cell -> new Group(
                                cell.places(),
                                cell.value(),
                                cell.sides(),
                                cell.sides().isPresent(),
                                cell.start(),
                                cell.end()))
                        .toList())
                .orElseGet(() -> new Pairing(sentence, legs).groups());
    }

    private static boolean speaksOfPulses(Sentence sentence, boolean before) {
        var plain = sentence.plain;
        return plain.contains("pulse")
                        && !Fit.matches(
                                plain, "(?s)(?:.*\\b(?:hr|bp|temp\\w*|vitals)\\b.*)?pulse ?[:=]? ?\\d{2,3}\\b[^a-z]*")
                || VESSEL_FELT.matcher(plain).find()
                || PLACES_BY_SLASH.matcher(plain).find()
                || before && GOES_ON.matcher(plain).find();
    }

    /** Pairs the places of one sentence with what was felt there, and both with the side. */
    private static final class Pairing {
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

        Pairing(Sentence sentence, Legs legs) {
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

        private String gap(int i) {
            return i <= 0 || i >= words.size()
                    ? ""
                    : plain.substring(
                            words.get(i - 1).end(),
                            Math.max(words.get(i - 1).end(), words.get(i).start()));
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
                    && is(i + 1, Kind.FELT)
                    && Fit.matches(gap(i), "(?: pulses?)?[,:]? ?(?:in|on|:)?(?: the)? ?")) {
                waiting.replaceAll(
                        place -> place.own() ? place : new Waiting(place.places(), side, true, place.start()));
            } else if (ahead.isPresent() && !aheadUsed && is(i - 1, Kind.FELT) && !isPlace(i + 1)) {
                sameAgain(words.get(i).end());
            }
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
            if (isPlace(i + 1) && Fit.matches(next, " ?(?:leg |foot |side )?(?:the )?[:=]? ?")) {
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
                waiting.replaceAll(
                        place -> new Waiting(place.places(), Optional.of(Side.both()), false, place.start()));
            } else if (trails(i)) {
                side(i, Side.both());
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
            if (!waiting.isEmpty() && !(isPlace(i - 1) || is(i - 1, Kind.SIDE) && isPlace(i - 2))
                    || !waiting.isEmpty()
                            && is(i - 1, Kind.PLACE)
                            && !LIST.matcher(gap(i)).matches()) {
                waiting.clear();
            }
            waiting.add(new Waiting(places, side, fresh, start));
        }

        /** "Good femoral, popliteal absent": the second place waits for its own word. */
        private boolean waitsForWhatFollows(int i) {
            return aheadUsed
                    && !deniedToo(gap(i))
                    && is(i + 1, Kind.FELT)
                    && !isPrefix(i + 1)
                    && !(isPlace(i + 2) && Fit.matches(gap(i + 2), "(?: pulses?)? (?:the )?"));
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
            if (isPlace(i - 1)
                    || isPlace(i + 1) && BEFORE_PLACE.matcher(gap(i + 1)).matches()
                    || is(i - 1, Kind.BOTH)) {
                return;
            }
            if (is(i + 1, Kind.FELT)
                    && Fit.matches(gap(i + 1), " ?(?:are |were |is )?(?:easily )?")
                    && ahead.isEmpty()) {
                waiting.clear();
                waiting.add(
                        new Waiting(PulseWords.ALL, side, fresh, words.get(i).start()));
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

        private boolean isPrefix(int i) {
            return Fit.matches(
                    plain.substring(words.get(i).start(), words.get(i).end()),
                    "no|nothing|neither|(?:cannot|can|could|unable|failed) .*feel.*|cannot .*|(?:can|could) .*");
        }

        private void felt(int i) {
            var word = words.get(i);
            if (is(i - 1, Kind.FELT) && SAME_FEELING.matcher(gap(i)).matches()) {
                worse(word);
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
            var placeFollows = (isPlace(i + 1) || is(i + 1, Kind.SIDE) && isPlace(i + 2))
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
                var here = waiting.stream()
                        .filter(place -> place.sides().equals(leg))
                        .toList();
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

    private static void put(Page page, Sentence sentence, Group group, Findings findings) {
        var plain = sentence.plain;
        var around = plain.substring(sentence.pieceStart(group.start), Math.min(plain.length(), group.end + 15));
        if (Polarity.isOthers(sentence, group.start, group.end)
                || Polarity.isOpen(sentence, group.start)
                || NO_PULSE.matcher(around).find()
                || HEDGED.matcher(plain.substring(group.end)).find()) {
            return;
        }
        var place = group.sides
                .map(sides -> new Legs.Place(sides, group.own ? Findings.Ground.WORDS : Findings.Ground.SENTENCE))
                .orElseGet(() -> unsaid(page, sentence, group));
        var words = sentence.span(group.start, group.end);
        for (var side : place.sides()) {
            for (var site : group.places) {
                findings.put(side.leg("pulses." + site), group.value, words, place.ground());
            }
        }
    }

    /** The leg of a pulse whose side is not named with it: "femorals good" are two. */
    private static Legs.Place unsaid(Page page, Sentence sentence, Group group) {
        var words = page.original(sentence.span(group.start, group.end));
        if (Fit.matches(words, "(?is).*\\b(?:fems|femorals|femoral(?: and popliteal)? pulses|pops|popliteals)\\b.*")) {
            return new Legs.Place(Side.both(), Findings.Ground.SENTENCE);
        }
        if (!page.legs.mentions(sentence).isEmpty()) {
            return page.legs.of(sentence, group.start, group.end);
        }
        var carried = page.legs.carriedTo(sentence);
        return !carried.known() && Fit.matches(sentence.plain, "(?s).*\\ball\\b.*")
                ? new Legs.Place(EnumSet.copyOf(Side.both()), Findings.Ground.CARRIED)
                : carried;
    }
}
