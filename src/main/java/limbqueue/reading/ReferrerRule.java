package limbqueue.reading;

import java.util.List;
import java.util.regex.Pattern;

/** Who wrote the letter, from its head and its signature; how he or she wants the answer; and when it was received. */
final class ReferrerRule implements Rule {

    private static final Pattern EMAIL = Pattern.compile(
            "(?<![A-Za-z0-9._%+-])[A-Za-z0-9._%+-]{1,64}+@[A-Za-z0-9-]{1,63}(?:\\.[A-Za-z0-9-]{1,63}){1,6}");
    private static final String WAY = "(fax|post|e-?mail|mail)\\b(?! address|[ -]?(?:order|shot))";

    /** What is sent back. */
    private static final String ANSWER =
            "(?:repl(?:y|ies)|answers?|responses?|letters?|reports?|results?|correspondence|opinions?)";

    /** How somebody says how the answer is wanted; the one group of each names the way. */
    private static final List<Pattern> PREFERENCES = List.of(
            // "please reply by fax", "letters by post", "let me know by post", "answer by letter in the post"
            Pattern.compile("\\b(?:" + ANSWER
                    + "|respond|write(?: back)?|send|get back to (?:me|us)|let (?:me|us) (?:know|have)|hear (?:back )?from you|(?:reach|contact|inform|tell) (?:me|us)|come back to (?:me|us))\\b[^.;]{0,30}?\\b(?:by|via|in the|through|per|using|:) ?(?:the |return of |return )?"
                    + WAY),
            // "e-mail is best", "fax is fine for replies", "post preferred"
            Pattern.compile(
                    "\\b" + WAY
                            + "(?: (?:reply|replies|is|would be|will do|works|to [\\d -]+|[\\d() -]{7,}|please|for (?:replies|answers?|letters?)))* ?[(,]? ?(?:the )?(?:best|fine|preferred|preferable|easiest|quickest|better|ideal|safest|suits (?:me|us))\\b"),
            // "prefers fax", "preferred reply: e-mail", "we prefer to be answered by post"
            Pattern.compile("\\bprefer(?:s|red|ence|ably)?\\b[^.;]{0,40}?\\b" + WAY),
            // "kindly fax your reply", "please post letters", "e-mail me back", "just fax us"
            Pattern.compile("\\b(?:please|kindly|pls|just|could you|can you|would you|do)(?: (?:please|kindly|just))? "
                    + WAY + "(?: me| us| your| the| any| all| a)*(?= (?:" + ANSWER + "|back)\\b|,? ?(?:please)?$)"),
            Pattern.compile("\\b" + WAY + " (?:me|us)(?: back| your (?:reply|answer)| with)\\b"),
            // "by fax to 01632 960423 only, please", "fax reply please", "reply post please"
            Pattern.compile("\\bby " + WAY + "(?: to [\\d -]{7,})?,? (?:only|please)\\b"),
            Pattern.compile("\\b" + WAY + " (?:reply|replies|answers?)(?: please| preferred|$)"),
            Pattern.compile("\\b(?:reply|replies|answers?)(?: please)?:? " + WAY),
            // "best to e-mail me", "drop me an e-mail", "fax results to 01632 960718", "(e-mail please)"
            Pattern.compile("\\bno fax[^a-z]{1,6}" + WAY),
            Pattern.compile("\\bbest to " + WAY + " (?:me|us)\\b"),
            Pattern.compile("\\b(?:drop|send) (?:me|us) (?:an? )?" + WAY),
            Pattern.compile("^(?:please )?" + WAY + " (?:the )?(?:" + ANSWER + ") (?:to|back)\\b"),
            Pattern.compile("\\b(?:reply|answer|respond)\\b[^;]{0,60}\\(" + WAY + " please\\)"));

    /** "Not by e-mail", "no faxes": another way is wanted. */
    private static final Pattern UNWANTED =
            Pattern.compile("\\b(?:not|no|never|don't|rather than|instead of)(?: (?:by|via|use|please|send))* $");

    /** The patient's own wish. */
    private static final Pattern PATIENTS_WISH =
            Pattern.compile("\\b(?:patient|he|she|mr \\w+|mrs \\w+)(?: would)? prefer");

    /** A report that came this way already. */
    private static final Pattern SENT =
            Pattern.compile("\\b(?:(?:was|were|has been|have been|came|will follow|to follow|sent)\\b[^.;]{0,25} by "
                    + WAY + "|by fax yesterday|fax(?:ed)? (?:the report|it) to)\\b");

    private static final Pattern BOX = Pattern.compile(
            "(?:\\[ ?x ?\\]|\\( ?x ?\\)|[\u2612\u2611\u2714]|\\bx) ?(post|fax|e-?mail)\\b|\\b(post|fax|e-?mail) ?(?:\\[ ?x ?\\]|\\( ?x ?\\)|[\u2612\u2611\u2714])");
    private static final Pattern BOX_FIRST =
            Pattern.compile("(?:\\[ ?x ?\\]|\\( ?x ?\\)|[\u2612\u2611\u2714]) ?(post|fax|e-?mail)\\b()?");
    /** The words of a stamp or of a fax machine before the day. */
    private static final Pattern RECEIVED = Pattern.compile(
            "\\b(?:received|rec'd|recd|rcvd|date stamp|stamped)\\b(?: (?:on|at|in|by|date|stamp|the|fax|post|mail|e-?mail|office|our|limbqueue|front|desk|reception|practice|clinic|department|admin|registry))*[ :.*-]*(?:[a-z]{3,9},? )?(?:\\d\\d:\\d\\d,? )?$");

    @Override
    public void read(Page page, Findings findings) {
        var lines = Addressees.without(Lines.of(page.text));
        Signatory.of(page, lines, findings)
                .ifPresent(span -> findings.put(
                        "referrer.name",
                        page.original(span).replaceAll("\\s+", " ").replaceAll("[,.]$", ""),
                        span));
        Letterhead.read(page, lines, findings);
        email(page, findings);
        preference(page, findings);
        received(page, findings);
    }

    private static void email(Page page, Findings findings) {
        var email = EMAIL.matcher(page.text);
        while (email.find()) {
            var line = page.text.substring(page.text.lastIndexOf('\n', email.start()) + 1, email.start());
            if (Fit.matches(line, "(?is).*\\b(?:patient|his|her|to|cc|daughter|son)\\b[^,;]*$")
                    && !Fit.matches(line, "(?is).*\\b(?:reply|answer|back|write|respond|send)\\b.*")) {
                continue;
            }
            findings.put("referrer.email", email.group(), new Span(email.start(), email.end()));
            break;
        }
    }

    private static void preference(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            if (!sentence.hasAny("fax", "post", "mail")) {
                continue;
            }
            var box = BOX.matcher(plain);
            var first = Fit.of("(?<box>\\[[ x]*\\]|\\([ x]*\\)|[\u2610\u2611\u2612])|\\b(?:post|fax|e-?mail)\\b")
                    .matcher(plain);
            var boxFirst = first.find() && first.group("box") != null;
            box = boxFirst ? BOX_FIRST.matcher(plain) : box;
            if (Fit.matches(plain, "(?s).*\\b(?:repl\\w+|answer|prefer\\w*|respon\\w+)\\b.*") && box.find()) {
                findings.put(
                        "referrer.prefers",
                        way(box.group(1) != null ? box.group(1) : String.valueOf(box.group(2))),
                        sentence.span(box));
                return;
            }
            if (Fit.matches(plain, "(?s).*(?:\\[ *\\]|\\( \\)|\u2610).*")
                    || SENT.matcher(plain).find()
                    || PATIENTS_WISH.matcher(plain).find()) {
                continue;
            }
            for (var preference : PREFERENCES) {
                var told = preference.matcher(plain);
                while (told.find()) {
                    if (!UNWANTED.matcher(plain.substring(0, told.start(1))).find()
                            && !Fit.matches(
                                    plain.substring(told.end(1)),
                                    "(?s) (?:address|is down|isn't|does not|is broken).*")) {
                        findings.putIfUnknown("referrer.prefers", way(told.group(1)), sentence.span(told));
                        return;
                    }
                }
            }
        }
    }

    private static String way(String word) {
        return word.startsWith("fax") ? "fax" : word.contains("e-mail") || word.equals("email") ? "email" : "post";
    }

    private static void received(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            for (var date : page.dates.in(sentence.plain)) {
                var before = sentence.plain.substring(0, date.start());
                if (date.full()
                        && RECEIVED.matcher(before).find()
                        && !Fit.matches(
                                before,
                                "(?s).*\\b(?:letter|report|he|she|we|i|was|images|has|been|not) (?:\\w+ )?(?:received|recd).*")) {
                    findings.put(
                            "received", date.date().orElseThrow().toString(), sentence.span(date.start(), date.end()));
                    return;
                }
            }
        }
    }
}
