package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Pulses that were felt or not. Signals that were heard are no pulses. */
final class PulseRule implements Rule {

    private static final List<String> ALL = List.of("femoral", "popliteal", "dorsalisPedis", "posteriorTibial");

    private static final Pattern ITEM = Pattern.compile(
            "\\b(?<side>left|right|bilateral|both(?= (?:femoral|popliteal|pedal|foot|present|palpable|absent|weak|good|easily)))\\b"
                    + "|\\b(?<below>(?:below|distal to|beyond) (?:it\\b|that\\b|this\\b|there\\b|(?:the )?(?:level of the )?(?:left |right )?(?:femoral|groin|inguinal|cfa|common femoral)s?(?: pulses?)?))\\b"
                    + "|\\b(?<site>femoral|cfa|popliteal|dp|postib|pedal|pulses (?:of|in) (?:the |his |her )?(?:left |right |bilateral )?foot|foot(?= pulse)|(?<=pulses )(?:in the |of the )?foot|foot(?= (?:absent|palpable|not palpable|impalpable|weak))(?<=pulses (?:left|right) foot)|(?<=nothing (?:palpable )?in the )foot|ankle(?= pulse)|distal(?= pulse)|tibial(?= pulse))s?\\b"
                    + "|\\b(?<all>all (?!the pulses of|pulses (?:of|in) the (?:left |right )?foot)(?:\\d |peripheral |the |of the |lower limb |leg |foot )*pulses|full set of pulses|full (?:leg |lower limb )?pulses|pulses (?:all |are all |were all )(?=palp|pres|full|norm|felt|good|intact)|pulses (?=(?:are |were )?(?:full|normal|intact|palpable|present) throughout))"
                    + "|(?<absent>\\b(?:isn't(?= ?[.,;]|$)|not (?:readily |easily |clearly |convincingly )?(?:be )?(?:palpable|felt|present|detected|detectable|found)|non[- ]?palpable|nonpalpable|impalpable|unpalpable|isn't (?:palpable|felt|present)|cannot (?:be )?(?:feel|felt|find|palpable|palpate|detect\\w*)(?: (?:any|a|the))?|absent|missing|no palpable|no|nothing|neither|nil|none|lost|never felt|not palpable)\\b|\\b0(?:/[234])?(?!\\d|\\.\\d|/|\\+)|(?<=[a-z] )-(?= ?(?:[,;]|dp|postib|popliteal|femoral|left|right|$))|(?<=[a-z])-(?=[,; ]|$)(?! \\d)|(?<=: |= )-ve)"
                    + "|(?<weak>\\b(?:weak(?:ly)?(?: palpable| present| felt)?|diminished|faint(?:ly)?(?: palpable| present| felt)?|reduced|feeble|thready|(?:just|barely|only just) (?:palpable|felt|present)|poor|decreased|trace|dampened|attenuated|difficult to (?:feel|palpable))\\b|\\b1\\+|(?<=[ (:=])\\+/-|\\btr\\b|\\b1/[234]\\b(?!/))"
                    + "|(?<present>\\b(?:(?:easily |readily |both |clearly |strongly |all |well )?(?:palpable|present|felt)|(?:can|could) (?:easily |just |readily )?feel|good|full|strong(?:ly)?|normal|bounding|brisk|intact|excellent)\\b|\\b(?:are|is) (?:all )?there\\b|\\bok\\b|\\b[234]\\+|\\b[2-4]/[34]\\b(?!/)|(?<=[ (:=a-z])\\+(?: ?\\+){0,2}(?![/\\d-]))");

    private static final Pattern TRAILING =
            Pattern.compile("^ ?(?:in|on|at|over)?(?: the| his| her)? ?[(]?(?:in the |on the )?$");

    private record Group(List<String> sites, String value, int start, int end, Optional<Set<Side>> sides) {}

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            if (speaksOfPulses(page, sentence)) {
                read(page, sentence, findings);
            }
        }
    }

    private static boolean speaksOfPulses(Page page, Sentence sentence) {
        var plain = sentence.plain;
        if (plain.contains("pulse")
                || plain.contains("feel the ")
                        && Fit.matches(
                                plain,
                                "(?s).*\\bfeel the (?:left |right )?(?:femoral|popliteal|dp|postib|pedal)\\b.*")) {
            return true;
        }
        if (Fit.matches(
                        plain,
                        "(?s).*\\b(?:femoral|popliteal|pedal|dp|postib)s?\\b.*(?:palpable|\\d\\+|absent|impalpable|\\bfelt\\b).*")
                && !Fit.matches(
                        plain, "(?s).*(?:occlu|stenos|monophasic|biphasic|duplex|disease|mmhg|bypass|stent).*")) {
            return true;
        }
        if (Fit.matches(plain, "(?s).*\\bno (?:femorals?|popliteals?|pedals?|dp|postib)\\b.*")
                && !Fit.matches(plain, "(?s).*(?:stenos|occlus).*")) {
            return true;
        }
        if (Fit.matches(
                                plain,
                                "(?s)(?:.*[,;] ?|.*(?:right|left|bilateral) (?:leg )?|)(?:femoral|popliteal|dp|postib|pedal|dp/postib)s? ?[:=]? ?,? ?(?:0|[1-4]\\+|\\+|-|nil|absent|present|faint|weak|diminished|bounding|(?:are |is )?(?:good|full|ok|strong|present|there))(?!\\d|\\.\\d).*")
                        && !Fit.matches(plain, "(?s).*(?:occlu|stenos|mmhg|duplex|bypass|stent).*")
                || Fit.matches(plain, "(?s).*\\bno (?:left|right) (?:popliteal|femoral|pedal|dp|postib)\\b.*")
                        && !Fit.matches(plain, "(?s).*(?:stenos|occlus|lesion).*")) {
            return true;
        }
        return page.before(sentence)
                        .filter(before -> Fit.matches(before.plain, "(?:.* )?pulses? ?:?"))
                        .isPresent()
                || Fit.matches(
                        plain,
                        "(?s)(?:right|left)?(?: leg)? ?:? ?(?:femoral|dp) ?(?:[:=] ?)?(?:\\+|-|absent|present|weak|[0-3]\\+|0).*");
    }

    private static void read(Page page, Sentence sentence, Findings findings) {
        var plain = sentence.plain;
        var groups = new ArrayList<Group>();
        var pending = new ArrayList<String>();
        var pendingStart = -1;
        Optional<Set<Side>> side = Optional.empty();
        var valueFirst = Optional.<String>empty();
        var valueStart = -1;
        var valueEnd = -1;
        var lastEnd = -1;
        var lastKind = "";
        var item = ITEM.matcher(plain);
        while (item.find()) {
            if (item.group("side") != null) {
                var named = Fit.matches(item.group("side"), "bilateral|both")
                        ? Side.both()
                        : (Set<Side>) EnumSet.of(item.group("side").equals("left") ? Side.LEFT : Side.RIGHT);
                var after = plain.substring(item.end());
                if (!groups.isEmpty()
                        && (lastKind.equals("value") || lastKind.equals("site") && valueFirst.isPresent())
                        && TRAILING.matcher(
                                        plain.substring(lastEnd, item.start()).replaceFirst("^ pulses?", ""))
                                .matches()
                        && !Fit.matches(
                                after, "(?s) (?:leg )?(?:femoral|cfa|popliteal|dp|postib|pedal|foot pulse).*")) {
                    var last = groups.removeLast();
                    groups.add(new Group(last.sites(), last.value(), last.start(), item.end(), Optional.of(named)));
                } else if (!pending.isEmpty() && lastKind.equals("site")) {
                    side = Optional.of(named);
                } else {
                    side = Optional.of(named);
                    if (!lastKind.equals("value")
                            || !Fit.matches(
                                    after, "(?s) (?:leg )?(?:femoral|cfa|popliteal|dp|postib|pedal|foot pulse).*")
                            || !plain.substring(lastEnd, item.start()).isBlank()) {
                        valueFirst = Optional.empty();
                    } else {
                        lastEnd = item.end();
                        continue;
                    }
                }
                lastKind = "side";
            } else if (item.group("below") != null) {
                var negative = valueFirst.filter("absent"::equals).isPresent()
                        || groups.isEmpty() && Fit.matches(plain.substring(item.end()), "(?s).{0,25}absent.*")
                        || !groups.isEmpty()
                                && groups.getLast().value().equals("absent")
                                && groups.getLast().sites().isEmpty();
                if (negative) {
                    groups.add(new Group(
                            ALL.subList(1, 4), "absent", valueStart < 0 ? item.start() : valueStart, item.end(), side));
                    groups.add(new Group(
                            item.group("below").contains("femoral")
                                            || item.group("below").contains("groin")
                                            || item.group("below").contains("cfa")
                                            || item.group("below").contains("inguinal")
                                    ? ALL.subList(0, 1)
                                    : List.of(),
                            "present",
                            valueStart < 0 ? item.start() : valueStart,
                            item.end(),
                            side));
                }
                valueFirst = Optional.empty();
                pending.clear();
                lastKind = "value";
            } else if (item.group("site") != null || item.group("all") != null) {
                var sites = item.group("all") != null ? ALL : sites(item.group("site"));
                var inside = Fit.of("\\b(left|right|bilateral)\\b").matcher(item.group());
                if (inside.find()) {
                    side = Optional.of(
                            inside.group().equals("bilateral")
                                    ? Side.both()
                                    : EnumSet.of(inside.group().equals("left") ? Side.LEFT : Side.RIGHT));
                }
                if (valueFirst.isPresent()
                        && (lastKind.equals("value") || lastKind.equals("site"))
                        && Fit.matches(
                                plain.substring(lastEnd, item.start()),
                                "(?: (?:palpable|detectable|pulses?|or|and|both|the|his|her|any|of|in|bilateral|peripheral|obvious|discernible|nor|no|/))* ?[/,&]? ?(?:or |and |nor )?")
                        && item.group("all") == null) {
                    groups.add(new Group(sites, valueFirst.get(), valueStart, item.end(), side));
                } else {
                    valueFirst = Optional.empty();
                    if (pending.isEmpty()) {
                        pendingStart = item.start();
                    } else if (!Fit.matches(
                            plain.substring(lastEnd, item.start()),
                            "(?:s|'s)?(?: pulses?)? ?(?:,|/|and|&|\\+|or|,? and)? ?(?:the |both )?(?:left |right )?")) {
                        pending.clear();
                        pendingStart = item.start();
                    }
                    pending.addAll(sites);
                }
                lastKind = "site";
            } else {
                var value = item.group("absent") != null ? "absent" : item.group("weak") != null ? "weak" : "present";
                var after = plain.substring(item.end());
                if (item.group().equals("no") && Fit.matches(after, "(?s) (?:palpable|detectable).*")) {
                    value = "absent";
                } else if (lastKind.equals("value")
                        && valueFirst.filter("absent"::equals).isPresent()
                        && value.equals("present")
                        && plain.substring(lastEnd, item.start()).isBlank()) {
                    lastEnd = item.end();
                    continue;
                }
                if (Fit.matches(item.group(), "\\+ \\+|(\\S+) ?/ ?\\1")) {
                    side = Optional.of(Side.both());
                }
                if (!pending.isEmpty()
                        && item.start() - lastEnd < 45
                        && !item.group().equals("no")) {
                    groups.add(new Group(
                            List.copyOf(new LinkedHashSet<>(pending)), value, pendingStart, item.end(), side));
                    pending.clear();
                    valueFirst = Optional.empty();
                } else if (!groups.isEmpty()
                        && !item.group().equals("no")
                        && !Fit.matches(
                                after,
                                "(?s) (?:pulses? )?(?:femoral|cfa|popliteal|dp|postib|pedal|foot|pulses|ankle|distal).*")
                        && item.start() - lastEnd < 30
                        && (lastKind.equals("side")
                                || Fit.matches(
                                                plain.substring(lastEnd, item.start()),
                                                ",? ?(?:and|but) ?(?:is |are |were |was )?")
                                        && Fit.matches(after, "(?s) ?(?:on|in|at)?(?: the)? ?\\(?(?:left|right).*"))) {
                    groups.add(new Group(groups.getLast().sites(), value, item.start(), item.end(), side));
                    valueFirst = Optional.empty();
                } else {
                    valueFirst = Optional.of(value);
                    valueStart = item.start();
                    valueEnd = item.end();
                    pending.clear();
                }
                lastKind = "value";
            }
            lastEnd = item.end();
        }
        for (var group : groups) {
            put(page, sentence, group, findings);
        }
        if (valueEnd < 0) {
            return;
        }
    }

    private static List<String> sites(String word) {
        return switch (word) {
            case "femoral", "cfa" -> List.of("femoral");
            case "popliteal" -> List.of("popliteal");
            case "dp" -> List.of("dorsalisPedis");
            case "postib" -> List.of("posteriorTibial");
            default -> List.of("dorsalisPedis", "posteriorTibial");
        };
    }

    private static void put(Page page, Sentence sentence, Group group, Findings findings) {
        if (Polarity.isOthers(sentence, group.start(), group.end()) || Polarity.isOpen(sentence, group.start())) {
            return;
        }
        var around = sentence.plain.substring(
                sentence.pieceStart(group.start()), Math.min(sentence.plain.length(), group.end() + 15));
        if (Fit.matches(
                around,
                "(?s).*\\b(?:doppler|waveform|monophasic|biphasic|triphasic|graft|stent|occlusion|stenosis|bruit|aneurysm)\\b.*")) {
            return;
        }
        var place = group.sides()
                .map(sides -> new Legs.Place(sides, Findings.Ground.WORDS))
                .orElseGet(() -> page.legs.mentions(sentence).isEmpty()
                        ? page.legs.carriedTo(sentence)
                        : page.legs.of(sentence, group.start(), group.end()));
        for (var side : place.sides()) {
            for (var site : group.sites()) {
                findings.put(
                        side.leg("pulses." + site),
                        group.value(),
                        sentence.span(group.start(), group.end()),
                        place.ground());
            }
        }
    }
}
