package limbqueue.reading;

import java.time.temporal.ChronoUnit;
import java.util.regex.Pattern;

/** Another hospital that put treatment off, and for how long. */
final class DeferralRule implements Rule {

    private static final Pattern PUT_OFF = Pattern.compile(
            "\\b(?:(?:has |was |and )?(?:now|since|then) (?:been )?(?:given|offered|moved to|rebooked for|rescheduled)(?: (?:the |for )?)?(?=\\d|january|february|march|april|may|june|july|august|september|october|november|december)|postpon\\w+|cancel(?:led|ed|s|lation|lations)?|(?:put|puts|putting) (?:(?:him|her|it|them|this|the \\w+|his \\w+|her \\w+|mr \\w+|mrs \\w+|us) )?off|put back|deferred(?! to (?:you|your)\\b)|told (?:him |her |them |mr \\w+ |mrs \\w+ |\\w+ )?(?:to )?(?:come back|return|wait|that (?:he|she) (?:must|would have to) (?:wait|come back))|(?:asked|advised|instructed) to (?:come back|wait|return)|come back (?:in|after)|(?:wait(?:ing)?[ -]?list|wait|waiting time|waiting(?= (?:\\d|since|for|nearly|over))|waited|list)(?: (?:there|for|of|is|at|time|elsewhere|now|surgery|procedure|an|the|angiogram|bypass|angioplasty)){0,6}|rescheduled|bumped|delayed|earliest (?:date|slot|appointment)|cannot (?:see|offer|treat|take) (?:him|her)"
                    + "|told (?:him |her |them )?(?:in \\w+ |last \\w+ )?(?:that )?(?:he|she|they) (?:must|would have to|will have to|has to|had to) (?:wait|come back))\\b");
    /** Before a verb that then says what the patient or the writer did, not a hospital. */
    private static final Pattern OWN_WISH =
            Pattern.compile("\\b(?:i|we|he|she|patient|mr \\w+|mrs \\w+)(?: (?:have|has|had))? $");

    private static final Pattern CLINIC = Pattern.compile(
            "\\b(?:holiday|cruise|wedding|dentist|gp appointment|physiotherapy|knee|hip|cataract|eye|hernia)\\b");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            if (sentence.section == Sentence.Section.FAMILY || sentence.section == Sentence.Section.PLAN) {
                continue;
            }
            var match = PUT_OFF.matcher(plain);
            if (!match.find()
                    || CLINIC.matcher(plain).find()
                    || Polarity.of(sentence, match) != Polarity.STATED
                            && !match.group().startsWith("told")
                            && !match.group().startsWith("cannot")) {
                continue;
            }
            var words = match.group();
            var place = place(page, sentence, match.start());
            var list = Fit.matches(words, "(?:wait|list|earliest|delayed|come back).*");
            if (OWN_WISH.matcher(plain.substring(0, match.start())).find()
                    || Fit.matches(
                            plain.substring(match.end()),
                            "(?s)(?: \\w+)? ?\\(?(?:himself|herself|themselves|by (?:him|her|the patient)|at (?:his|her) (?:own )?(?:wish|request))\\b.*")) {
                continue;
            }
            if (list && place.isEmpty() && Fit.matches(plain, "(?s).*\\b(?:their|there|they)\\b.*")) {
                earlierPlace(page, sentence, findings);
                if (findings.get("deferredElsewhere.where").isPresent()) {
                    days(page, sentence, match.start(), findings);
                }
                continue;
            }
            if (list && place.isEmpty()
                    || Fit.matches(words, "told.*(?:wait|return).*")
                            && place.isEmpty()
                            && !Fit.matches(plain, "(?s).*\\b(?:week|month|year)\\b.*")) {
                continue;
            }
            if (!Fit.matches(
                    plain,
                    "(?s).*\\b(?:operation|surgery|procedure|angiogram|angioplasty|bypass|treatment|stent|date|list(?:ed)?|theatre|admission|come back|intervention|revascularisation|him|her|it|they|slot|hospital|week|month|cancel\\w*|postpon\\w*|cta|return)\\b.*")) {
                continue;
            }
            place.ifPresent(named -> findings.putIfUnknown("deferredElsewhere.where", named.name(), named.words()));
            days(page, sentence, match.start(), findings);
            if (place.isEmpty()) {
                earlierPlace(page, sentence, findings);
            }
            var next = page.after(sentence);
            if (findings.get("deferredElsewhere.days").isEmpty()
                    && next.isPresent()
                    && Fit.matches(next.get().plain, "(?s).*\\b(?:past|since|ago|later|wait\\w*|new date|now)\\b.*")
                    && next.get().paragraph == sentence.paragraph) {
                days(page, next.get(), 0, findings);
            }
        }
    }

    private static java.util.Optional<Places.Place> place(Page page, Sentence sentence, int start) {
        return Places.behind(page, sentence, start, sentence.plain.length())
                .or(() -> Places.behind(page, sentence, 0, start))
                .or(() -> subject(page, sentence, start));
    }

    /** "Marrow Point General cancelled twice." */
    private static java.util.Optional<Places.Place> subject(Page page, Sentence sentence, int start) {
        if (start == 0) {
            return java.util.Optional.empty();
        }
        var span = sentence.span(0, start);
        var text = page.original(span);
        var match = Fit.of(
                        "((?:St\\.?\\s+)?[A-Z][A-Za-z'\u2019-]+(?:\\s+(?:of\\s+)?[A-Z][A-Za-z'\u2019-]+){0,4})(?:\\s+(?:has|have|had|then|twice|now|also|again|first|since|already)){0,2}\\s*$")
                .matcher(text);
        if (match.find()
                && !Fit.matches(match.group(1), "(?:Dr|Mr|Mrs|Ms|Miss|Sister|Prof)\\b.*")
                && (sentence.plain.startsWith("told", start) && Fit.matches(match.group(1), "[A-Z]\\w+ [A-Z]\\w+")
                        || Fit.matches(
                                match.group(1),
                                "(?s).*(?:Hospital|Infirmary|General|Center|Centre|Clinic|Memorial|Royal|Hosp).*"))) {
            return java.util.Optional.of(new Places.Place(
                    match.group(1).replaceAll("\\s+", " "),
                    new Span(span.start() + match.start(1), span.start() + match.end(1))));
        }
        return java.util.Optional.empty();
    }

    /** The hospital of the sentences before: "They put him off for four months." */
    private static void earlierPlace(Page page, Sentence sentence, Findings findings) {
        for (var i = sentence.number - 1; i >= Math.max(0, sentence.number - 4); i--) {
            var before = page.sentences.get(i);
            if (before.paragraph < sentence.paragraph - 1) {
                return;
            }
            var place = Places.behind(page, before, 0, before.plain.length())
                    .or(() -> subject(page, before, before.plain.length()));
            if (place.isPresent()
                    && Fit.matches(
                            place.get().name(),
                            "(?s).*(?:Hospital|Infirmary|General|Center|Centre|Clinic|Memorial|Royal|Hosp|[A-Z]\\w+ [A-Z]\\w+).*")) {
                findings.putIfUnknown(
                        "deferredElsewhere.where",
                        place.get().name(),
                        place.get().words());
                return;
            }
        }
    }

    private static void days(Page page, Sentence sentence, int at, Findings findings) {
        var plain = sentence.plain;
        var dates = page.dates.in(plain).stream().filter(Dates.Found::full).toList();
        if (dates.size() == 2
                && Fit.matches(plain, "(?s).*\\b(?:from|due)\\b.*\\b(?:to|until|given|offered|for)\\b.*")) {
            var days = (int) ChronoUnit.DAYS.between(
                    dates.get(0).date().orElseThrow(), dates.get(1).date().orElseThrow());
            if (days > 0 && days < 3_000) {
                findings.putIfUnknown(
                        "deferredElsewhere.days",
                        days,
                        sentence.span(dates.get(0).start(), dates.get(1).end()));
                return;
            }
        }
        for (var found : Durations.in(plain, 0, plain.length())) {
            var before = plain.substring(Math.max(0, found.start() - 40), found.start());
            if (Fit.matches(
                            before,
                            "(?s).*\\b(?:history|smok\\w*|pain|ulcer|claudication|antibiotic\\w*|stay\\w*|holiday|bed)\\b.*")
                    || Fit.matches(plain.substring(found.end()), "(?s)(?:'s)? (?:history|old).*")) {
                continue;
            }
            if (found.start() >= at
                    || Fit.matches(
                            before, "(?s).*\\b(?:for|by|nearly|now|wait(?:ed|ing)?|of|a|another|further)\\b.*")) {
                findings.putIfUnknown(
                        "deferredElsewhere.days", found.days(), sentence.span(found.start(), found.end()));
                return;
            }
        }
    }
}
