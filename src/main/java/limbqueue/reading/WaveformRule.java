package limbqueue.reading;

import java.util.regex.Pattern;

/** The shape of the flow at ankle or foot. */
final class WaveformRule implements Rule {

    private static final Pattern SHAPE = Pattern.compile(
            "\\b(triphasic|biphasic|monophasic|mono(?= (?:left|right|bilateral)\\b)|flat(?= (?:waveform|pvr|trace|tracing|line|doppler))|(?<=waveform )flat|(?<=waveform (?:is|are|was|were) )flat)\\b");
    private static final Pattern ABOVE =
            Pattern.compile("\\b(?:femoral|iliac|cfa|sfa|cia|eia|popliteal|groin|aort\\w*|pfa|graft)\\b");

    @Override
    public void read(Page page, Findings findings) {
        for (var sentence : page.sentences) {
            if (!sentence.hasAny("phasic", "flat")) {
                continue;
            }
            var match = SHAPE.matcher(sentence.plain);
            while (match.find()) {
                var pieceStart = sentence.pieceStart(match.start());
                var piece = sentence.plain.substring(pieceStart, sentence.pieceEnd(match.end()));
                if (ABOVE.matcher(piece).find() && !Fit.matches(piece, "(?s).*\\b(?:dp|postib|ankle|foot|pedal)\\b.*")
                        || Polarity.of(sentence, match) != Polarity.STATED) {
                    continue;
                }
                var place = page.legs.of(sentence, match.start(), match.end());
                for (var side : place.sides()) {
                    findings.put(
                            side.leg("pressures.waveform"),
                            match.group(1).equals("mono") ? "monophasic" : match.group(1),
                            sentence.span(match),
                            place.ground());
                }
            }
        }
    }
}
