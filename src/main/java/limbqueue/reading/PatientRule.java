package limbqueue.reading;

import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** When the patient was born, the sex, numbers and address, and when he or she is away. */
final class PatientRule implements Rule {

    private static final Pattern BORN = Pattern.compile(
            "\\b(?:dob|d o b|date of birth|birth ?date|born(?: on)?|birth|bom|d0b|b(?=[ .:]*$)|d/o/b)\\b(?: ?\\((?:dd|mm|d|m|y|day|month|year|/|-|\\.| )+\\))?[ :.=,-]*(?:on |the |is |was )*$");
    private static final Pattern BESIDE_NAME = Pattern.compile("[ \\t,(;]*(?:[MFmf]|[Mm]ale|[Ff]emale)?[ \\t,();]*");
    private static final Pattern SEX_STATED = Pattern.compile(
            "\\b(?:sex|gender)\\b ?[:=]? ?(?:\\[ ?x ?\\] ?|\\( ?x ?\\) ?)?(m(?:ale)?|f(?:emale)?|w(?:oman)?)\\b");
    private static final Pattern SEX_AGED = Pattern.compile(
            "\\b(?:(?:this|a|an|the|is|elderly|old|pleasant|delightful|retired|frail|year|y/?o|yo|aged|charming|lovely|nice|young|active|independent|diabetic|diabetes|hypertensive|heavy|smoking)[ -]+(?:[a-z]+[ -]+){0,3}?)(?<w>man|woman|lady|gentleman|male|female|gent|widow(?:er)?|chap|fellow|girl|boy)(?:'s)?\\b|\\b(?<a>\\d{2,3}) ?(?:y(?:ear)?s?[ /-]?o(?:ld)?[ -]?|yo ?|y ?|yr[ -]?old ?|-?year[ -]?old ?|,? ?)(?<l>m|f|male|female|man|woman|lady|gentleman)\\b(?!')");
    private static final Pattern SEX_ALONE = Pattern.compile("(?:^|[ ,;(/])(?<l>m|f|male|female)(?=$|[ ,;)./])");
    private static final Set<String> FEMALE = Set.of("f", "female", "woman", "lady", "w", "widow", "girl");

    private static final Pattern IDENTIFIER = Pattern.compile(
            "(?i)\\b((?:MRN|M\\.R\\.N\\.|NHS(?:[ \\t]+(?:number|nurnber|no\\.?|#))?|CHI(?:[ \\t]+(?:number|no\\.?))?|hospital[ \\t]+(?:number|no\\.?|id|#)|hosp\\.?[ \\t]+(?:number|no\\.?|id)|chart(?:[ \\t]+(?:number|no\\.?|#))?|unit[ \\t]+(?:number|no\\.?)|case[ \\t]+(?:number|no\\.?)|record[ \\t]+(?:number|no\\.?)|(?:medical[ \\t]+)?record[ \\t]+(?:number|no\\.?|#)|patient[ \\t]+(?:id|number|no\\.?|#)|acct(?:\\.|[ \\t]+(?:no\\.?|#|number))?|account(?:[ \\t]+(?:no\\.?|#|number))?|health[ \\t]+(?:card|number|no\\.?)(?:[ \\t]+(?:no\\.?|number))?|medicare(?:[ \\t]+(?:no\\.?|number|id))?|insurance[ \\t]+(?:no\\.?|number|id)|[A-Z]{2,4}[ \\t]+(?:number|no\\.?)|file[ \\t]+(?:no\\.?|number)|ID(?:[ \\t]+(?:no\\.?|number))?))[ \\t]*(?:[:#=]|\\.{1,60})?[ \\t]*#?[ \\t]*((?-i:[A-Z]{1,4})?[ /-]?\\d[\\d]{0,14}(?:[ -]?\\d{2,12}){0,4}(?:-?(?-i:[A-Z])\\b)?|(?-i:[A-Z]{1,4}-)\\d[\\d-]*)");

    private static final String MONTHS =
            "(?:January|February|March|April|May|June|July|August|September|October|November|December|Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\\b";
    private static final String NO_STREET = "(?:" + MONTHS
            + "|NHS|DOB|MRN|MALE|FEMALE|FAX|TEL|PAGE|PAGES|OF|ABI|ABPI|Male|Female|Fax|Tel|Page|Years?|Yrs?)\\b";
    private static final String CAPITAL = "[A-Z][\\w'\u2019-]*";
    private static final String STREET = "(?!" + NO_STREET + ")[A-Z][\\w'\u2019-]+(?:[ \\t]+" + CAPITAL + "){0,6}";
    private static final String NUMBERED = "(?!(?:19|20)\\d\\d\\b)\\d{1,5}[A-Za-z]?[ \\t,]+" + STREET;
    private static final String NAMED_HOUSE =
            "(?:[A-Z][\\w'\u2019-]{1,30}[ \\t]+){1,4}(?:House|Cottage|Cottages|Cottge|Farm|Lodge|Villa|Court|Mill|Hall|Barn|Manor|Grange|Bungalow|Residential Home|Nursing Home|Care Home|Rest Home)\\b";
    private static final String HOUSE =
            "(?:(?:Flat|Apt\\.?|Apartment|Unit|Room)[ \\t]+\\d+[A-Za-z]?,[ \\t]*(?:\\d{1,5}[A-Za-z]?[ \\t]+)?" + STREET
                    + "|" + NUMBERED + "|" + NAMED_HOUSE + ")";
    private static final String PLACES = "(?:,[ \\t\\n]*" + CAPITAL
            + "(?:(?:[ \\t]+|[ \\t]*\\n[ \\t]*(?=Lane|Road|Street|Avenue|Close|Row|Place|Terrace|Court))" + CAPITAL
            + "){0,6})";

    private static final Pattern ADDRESS_LABEL = Pattern.compile(
            "(?im)\\b(?:patient(?:['\u2019]s)?[ \\t]+address|home[ \\t]+address|usual[ \\t]+address|add?ress|addr)(?:[ \\t]*:[ \\t]*|[ \\t]+(?-i:(?="
                    + HOUSE
                    + ",)))([^\\n\\r]{5,120}?)(?=[ \\t]{2,}|[ \\t]+(?:tel|phone|dob|sex|mrn|nhs|mobile|mob)\\b|,?[ \\t]*(?:tel|phone|mob|mobile|ph)\\b|[.][ \\t]|$)");
    private static final Pattern ADDRESS_PROSE = Pattern.compile(
            "\\b(?:liv(?:es?|ing)(?:[ \\t]+(?:alone|independently|with[ \\t]+\\w+[ \\t]+\\w+))?[ \\t]+at|resid(?:es|ing)[ \\t]+at|[Aa]ddress(?:[ \\t]+is)?|who[ \\t]+lives[ \\t]+at|of(?=[ \\t]+(?:\\d|"
                    + NAMED_HOUSE + ",)))[ \\t\\n]+((?:" + CAPITAL + "(?: " + CAPITAL + "){0,6},[ \\t\\n]+)?" + HOUSE
                    + PLACES + "{0,3})");
    private static final Pattern ADDRESS_BESIDE =
            Pattern.compile("(?:,|;|^|(?<!\\d)\\.)[ \\t]*(" + HOUSE + PLACES + "{1,3})");
    private static final Pattern ADDRESS_BELOW =
            Pattern.compile("\\G[^\\n]{0,60}\\n[ \\t]*(" + HOUSE + PLACES + "{1,3})[.]?[ \\t]*(?=\\n|$)");

    private static final Pattern LEAVES = Pattern.compile(
            "\\b(?:leav(?:es?|ing)|out of (?:the )?(?:area|town|country)(?: from)?|flies|fly(?:ing)?|sails?|sailing|depart\\w*|travels?|travelling|traveling|goes (?:away|abroad|on|(?:back )?to (?:his|her) \\w+)|going (?:away|abroad)|away from|moves?|off to|cruise|heads? (?:off|south|north))\\b[^.;]{0,60}?$");
    private static final Pattern RETURNS = Pattern.compile(
            "\\b(?:return(?:s|ing|ed)?|retuning|home(?= ?$)|home by|back(?: home)?(?: on| by| in)?|comes? home(?: on)?|home on|comes? back|coming back|home again|until|be back)\\b[^.;]{0,25}$");
    private static final Pattern AWAY = Pattern.compile(
            "\\b(?:not available|unavailable|isn't available|absent|away|gone|(?:not|isn't) able to (?:come|attend)|cannot (?:drive|travel)|isn't free|cannot (?:come|attend|make)|can not come|unable to (?:attend|come)|on holiday|on vacation|out of (?:town|the country)|not be available|not free|no appointments?|avoid|cannot make|booked for|dates to avoid|in hospital)\\b");

    private static final Pattern FIRST_DAY =
            Pattern.compile("\\b(?<day>\\d{1,2}) ?(?:st|nd|rd|th)? ?(?:-|to|until|till|through|thru|and) ?(?:the )?$");
    private static final Pattern OTHERS_AWAY = Pattern.compile(
            "^(?:please note )?(?:i|we|our|the (?:practice|clinic|surgery|office|doctor)|dr \\w+)\\b[a-z ]{0,20}\\b(?:am|are|is|will|shall)\\b|\\bwas in hospital\\b");

    @Override
    public void read(Page page, Findings findings) {
        PatientName.read(page, findings);
        born(page, findings);
        sex(page, findings);
        identifiers(page, findings);
        address(page, findings);
        absences(page, findings);
    }

    private static void born(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            for (var date : page.dates.in(sentence.plain)) {
                if (date.full()
                        && BORN.matcher(sentence.plain.substring(0, date.start()))
                                .find()
                        && (!Polarity.isOthers(sentence, date.start(), date.end())
                                || besideName(sentence, date, findings))) {
                    put(page, sentence, date, findings);
                    return;
                }
            }
        }
        for (var sentence : page.sentences) {
            if (sentence.number > 14) {
                return;
            }
            for (var date : page.dates.in(sentence.plain)) {
                var name = findings.words("patient.family")
                        .map(family -> findings.words("patient.given")
                                .filter(given -> given.start() >= family.end() && given.start() - family.end() < 4)
                                .orElse(family));
                var words = sentence.span(date.start(), date.end());
                if (date.full()
                        && name.isPresent()
                        && words.start() >= name.get().end()
                        && (words.start() - name.get().end() <= 4
                                || BESIDE_NAME
                                        .matcher(page.text.substring(
                                                name.get().end(),
                                                Math.min(
                                                        words.start(),
                                                        name.get().end() + 20)))
                                        .matches())
                        && date.date()
                                .filter(day -> page.written.isEmpty()
                                        || day.isBefore(page.written.get().minusYears(15)))
                                .isPresent()) {
                    put(page, sentence, date, findings);
                    return;
                }
            }
        }
    }

    /** "My dad, Cuthbert Astbury, born 24 July 1945". */
    private static boolean besideName(Sentence sentence, Dates.Found date, Findings findings) {
        var start = sentence.span(date.start(), date.end()).start();
        return findings.words("patient.family")
                .filter(name -> name.end() < start && start - name.end() < 24)
                .isPresent();
    }

    private static void put(Page page, Sentence sentence, Dates.Found date, Findings findings) {
        var day = date.date().orElseThrow();
        if (day.isAfter(LocalDate.of(1900, 1, 1)) && (page.written.isEmpty() || day.isBefore(page.written.get()))) {
            findings.put("patient.born", birth(day, page).toString(), sentence.span(date.start(), date.end()));
        }
    }

    /** A birth year of two digits lies in the past. */
    private static LocalDate birth(LocalDate day, Page page) {
        return page.written.filter(day::isAfter).map(_ -> day.minusYears(100)).orElse(day);
    }

    private record Word(int position, String sex, Span words) {}

    private static void sex(Page page, Findings findings) {
        Optional<Word> best = Optional.empty();
        for (var sentence : page.sentences) {
            var stated = SEX_STATED.matcher(sentence.plain);
            if (stated.find()) {
                best = earlier(best, word(sentence, stated.start(), stated.end(), stated.group(1)));
                break;
            }
        }
        var titled = PatientName.TITLED.matcher(page.text);
        while (titled.find()) {
            if (!PatientName.isDoctor(page, titled) && !PatientName.isRelative(page, titled)) {
                var female = Fit.matches(
                        titled.group(1).toLowerCase(java.util.Locale.ROOT), "mrs|ms|miss|lady|mrs\\.|ms\\.|miss\\.");
                best = earlier(
                        best,
                        new Word(
                                titled.start(1), female ? "female" : "male", new Span(titled.start(1), titled.end(1))));
                break;
            }
        }
        for (var sentence : page.sentences) {
            var aged = SEX_AGED.matcher(sentence.plain);
            var found = false;
            while (!found && aged.find()) {
                if (Polarity.isOthers(sentence, aged.start(), aged.end()) && !sentence.plain.contains("'s")) {
                    continue;
                }
                var word = aged.group("w") != null ? aged.group("w") : aged.group("l");
                if (aged.group("a") != null
                        && (Integer.parseInt(aged.group("a")) < 15 || Integer.parseInt(aged.group("a")) > 110)) {
                    continue;
                }
                if (word.equals("m")
                        && Fit.matches(sentence.plain.substring(aged.start()), "(?s)\\d+ ?m\\b.*")
                        && !page.original(sentence.span(aged.start(), aged.end()))
                                .contains("M")) {
                    continue;
                }
                best = earlier(best, word(sentence, aged.start(), aged.end(), word));
                found = true;
            }
            if (found) {
                break;
            }
        }
        if (best.isEmpty()) {
            best = alone(page, findings.words("patient.family")).or(() -> pronoun(page));
        }
        best.ifPresent(word -> findings.put("patient.sex", word.sex(), word.words()));
    }

    private static Optional<Word> earlier(Optional<Word> one, Word two) {
        return one.filter(word -> word.position() <= two.position()).or(() -> Optional.of(two));
    }

    private static Word word(Sentence sentence, int start, int end, String word) {
        var span = sentence.span(start, end);
        return new Word(span.start(), FEMALE.contains(word) ? "female" : "male", span);
    }

    /** A lone M or F on the line of name or birth date. */
    private static Optional<Word> alone(Page page, Optional<Span> name) {
        for (var sentence : page.sentences) {
            var named = name.filter(
                            words -> words.start() >= sentence.whole.start() && words.end() <= sentence.whole.end())
                    .isPresent();
            if (!named
                    && !Fit.matches(sentence.plain, "(?s).*\\b(?:dob|born|date of birth|name|patient|surname)\\b.*")) {
                continue;
            }
            var match = SEX_ALONE.matcher(sentence.plain);
            while (match.find()) {
                var original = page.original(sentence.span(match.start("l"), match.end("l")));
                if (original.equals("M")
                        || original.equals("F")
                        || original.length() > 1
                        || sentence.plain.startsWith("(" + match.group("l") + ")", match.start("l") - 1)
                        || Fit.matches(sentence.plain.substring(0, match.start("l")), "(?s).*, ")
                                && Fit.matches(sentence.plain.substring(match.end("l")), "(?s),.*")) {
                    return Optional.of(word(sentence, match.start("l"), match.end("l"), match.group("l")));
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<Word> pronoun(Page page) {
        for (var sentence : page.sentences) {
            var match = Fit.of("\\b(he|she|his|her|himself|herself|him)\\b").matcher(sentence.plain);
            while (match.find()) {
                if (!Polarity.isOthers(sentence, match.start(), match.end())
                        && !Fit.matches(
                                sentence.plain.substring(0, match.start()),
                                "(?s).*\\b(?:husband|wife|daughter|son|sister|brother|nurse|doctor|mother|father|dr)\\b.*")) {
                    var span = sentence.span(match);
                    return Optional.of(new Word(
                            span.start(), Fit.matches(match.group(), "she|her|herself") ? "female" : "male", span));
                }
            }
        }
        return Optional.empty();
    }

    private static void identifiers(Page page, Findings findings) {
        var match = IDENTIFIER.matcher(page.text);
        var seen = new java.util.HashSet<String>();
        while (match.find()) {
            var value = match.group(2).strip();
            var digits = value.replaceAll("\\D", "");
            var system = match.group(1)
                    .strip()
                    .replaceAll("\\s+", " ")
                    .replaceAll("[.#]$", "")
                    .replace("nurnber", "number")
                    .strip();
            if (digits.length() < 4
                    || !seen.add(value)
                    || Fit.matches(system, "(?i)tel no|fax no|phone no|ref no|bp no|our number|gp no|id")
                            && !system.equals("ID")
                    || Fit.matches(
                            system, "(?i)(?:her|his|the|my|our|fax|tel|page|room|flat|ext|bed|ward) (?:number|no)")) {
                continue;
            }
            var entry = findings.add("patient.identifiers");
            entry.put("system", system, new Span(match.start(1), match.end(1)));
            entry.put(
                    "value",
                    value,
                    new Span(
                            match.start(2),
                            match.start(2) + match.group(2).stripTrailing().length()));
        }
    }

    private static void address(Page page, Findings findings) {
        var label = ADDRESS_LABEL.matcher(page.text);
        while (label.find()) {
            var before = page.text.substring(Math.max(0, label.start() - 80), label.start());
            if (Fit.matches(before, "(?is).*\\b(?:practice|surgery|referrer|clinic|e-?mail|doctor|gp)[^\\n]*$")) {
                continue;
            }
            if (findings.words("patient.family")
                            .filter(words -> words.start() < label.start())
                            .isPresent()
                    || label.group().toLowerCase(java.util.Locale.ROOT).contains("patient")) {
                put(label, findings);
                return;
            }
        }
        var prose = ADDRESS_PROSE.matcher(page.text);
        if (prose.find()) {
            put(prose, findings);
            return;
        }
        var name = findings.words("patient.family");
        var born = findings.words("patient.born");
        if (name.isEmpty()) {
            return;
        }
        var from = Math.max(
                name.get().end(),
                born.filter(words -> words.start() - name.get().end() < 60
                                && words.start() > name.get().start())
                        .map(Span::end)
                        .orElse(0));
        var lineEnd = page.text.indexOf('\n', from);
        var region =
                ADDRESS_BESIDE.matcher(page.text).region(name.get().end(), lineEnd < 0 ? page.text.length() : lineEnd);
        var below = ADDRESS_BELOW.matcher(page.text).region(name.get().end(), page.text.length());
        if (region.find()) {
            put(region, findings);
        } else if (below.find()) {
            put(below, findings);
        }
    }

    private static void put(Matcher match, Findings findings) {
        var value = match.group(1).strip().replaceAll("\\s+", " ").replaceAll("[.,;]$", "");
        findings.put(
                "patient.address",
                value,
                new Span(
                        match.start(1),
                        match.start(1) + match.group(1).stripTrailing().length()));
    }

    private static void absences(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            var dates = page.dates.in(plain);
            if (dates.isEmpty()
                    || Fit.matches(
                            plain,
                            "(?s)(?:the |his |her )?(?:son|daughter|wife|husband|sister|brother|carer)s? (?:is|will|leaves|flies|goes|are)\\b.*")
                    || sentence.section == Sentence.Section.FAMILY) {
                continue;
            }
            if (AWAY.matcher(plain).find()
                    && !OTHERS_AWAY.matcher(plain).find()
                    && daysOfAMonth(page, sentence, dates.get(0), findings)) {
                continue;
            }
            if (dates.size() >= 2
                    && !OTHERS_AWAY.matcher(plain).find()
                    && AWAY.matcher(plain).find()
                    && between(plain, dates.get(0), dates.get(1))
                    && !Fit.matches(plain, "(?s).*\\b(?:out of the area|leaves?|leaving|returns?|returning)\\b.*")) {
                var to = day(dates.get(1), page);
                var from = day(dates.get(0), page, to);
                if (from.isPresent()
                        && to.isPresent()
                        && !to.get().isBefore(from.get())
                        && page.written.filter(to.get()::isBefore).isEmpty()) {
                    var entry = findings.add("patient.unavailable");
                    var words = sentence.span(dates.get(0).start(), dates.get(1).end());
                    entry.put("from", from.get().toString(), words);
                    entry.put("to", to.get().toString(), words);
                }
                continue;
            }
            for (var i = 0; i < dates.size(); i++) {
                var date = dates.get(i);
                var before = plain.substring(i == 0 ? 0 : dates.get(i - 1).end(), date.start());
                var returns = RETURNS.matcher(before).find()
                        || i > 0
                                && Fit.matches(
                                        before, " ?(?:to|until|till|-|and back|and returns?(?: on)?) ?(?:the )?");
                var leaves = LEAVES.matcher(before).find() || Fit.matches(before, "(?s).*\\baway (?:from )?(?:the )?$");
                if (returns
                        && (findings.get("patient.leavesArea").isPresent()
                                || Fit.matches(
                                        plain,
                                        "(?s).*\\b(?:area|cruise|holiday|fl\\w+|sail\\w*|travel\\w*|trip|abroad|away|winter\\w*|visit\\w*|vacation|leaves?|leaving|moves|off to)\\b.*"))) {
                    future(page, sentence, date, "patient.returnsToArea", findings);
                } else if (leaves
                        && !Fit.matches(
                                before,
                                "(?s).*\\b(?:hospital|work|left|discharged|school|died|care home|bungalow|flat|ward|theatre|rehab\\w*)\\b.*")
                        && Fit.matches(
                                plain,
                                "(?s).*\\b(?:area|cruise|holiday|fl(?:y|ies|ying|ight)|sail\\w*|travel\\w*|trip|abroad|away|winter\\w*|country|town|vacation|leaves|leaving|overseas|depart\\w*|home for|moves? to|moving to|off to)\\b.*")) {
                    future(page, sentence, date, "patient.leavesArea", findings);
                }
            }
        }
    }

    /** "12-19 April 2026": the last day alone has its month. */
    private static boolean daysOfAMonth(Page page, Sentence sentence, Dates.Found last, Findings findings) {
        var first = FIRST_DAY.matcher(sentence.plain.substring(0, last.start()));
        var to = day(last, page);
        if (!first.find() || to.isEmpty()) {
            return false;
        }
        var number = Integer.parseInt(first.group("day"));
        if (number < 1
                || number > to.get().getDayOfMonth()
                || page.written.filter(to.get()::isBefore).isPresent()) {
            return false;
        }
        var entry = findings.add("patient.unavailable");
        var words = sentence.span(first.start("day"), last.end());
        entry.put("from", to.get().withDayOfMonth(number).toString(), words);
        entry.put("to", to.get().toString(), words);
        return true;
    }

    private static boolean between(String plain, Dates.Found one, Dates.Found two) {
        return Fit.matches(
                plain.substring(one.end(), two.start()),
                " ?(?:to|until|till|-|through|and|up to|thru|inclusive to) ?(?:the )?");
    }

    private static Optional<LocalDate> day(Dates.Found found, Page page) {
        return Dates.next(found, page.written);
    }

    private static Optional<LocalDate> day(Dates.Found found, Page page, Optional<LocalDate> to) {
        if (found.full()) {
            return found.date();
        }
        if (to.isPresent()) {
            var year = to.get().getYear();
            var same = Dates.next(found, Optional.of(LocalDate.of(year, 1, 1)));
            return same.map(day -> day.isAfter(to.get()) ? day.minusYears(1) : day);
        }
        return Dates.next(found, page.written);
    }

    private static void future(Page page, Sentence sentence, Dates.Found date, String field, Findings findings) {
        Dates.next(date, page.written)
                .or(() -> page.year.flatMap(year -> Dates.next(date, Optional.of(LocalDate.of(year, 1, 1)))))
                .filter(day -> page.written.isEmpty()
                        || !day.isBefore(page.written.get())
                                && day.isBefore(page.written.get().plusYears(3)))
                .ifPresent(
                        day -> findings.putIfUnknown(field, day.toString(), sentence.span(date.start(), date.end())));
    }
}
