package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Arteries named in a sentence, as the segments of the format. */
final class Segments {

    private static final Pattern NAME = Pattern.compile(
            "\\b(?:(?<aorta>(?:infrarenal |distal |abdominal )?aorta|infrarenal aort\\w+|aortic(?= aneurysm)|aortic(?= (?:occlusion|stenosis|bifurcation|bypass)))|(?<cia>cia|common iliac)|(?<eia>eia|external iliac)|(?<iia>iia|internal iliac)|(?<cfa>cfa|common femoral)|(?<pfa>pfa)"
                    + "|(?<sfa>sfa|femoral(?= (?:artery )?(?:occlusion|stenosis|disease|segment))(?! (?:artery )?(?:aneurysm|pulse)))|(?<pop>popliteal|p[123](?= segment)?)|(?<tpt>tpt)|(?<ata>ata)|(?<pta>postib)|(?<per>peroneal)|(?<pedal>dp|pedal arch|plantar arch)|(?<iliac>iliac))(?: artery| arteries| segment)?\\b");

    /** An artery and where it is named. */
    record Named(int start, int end, String segment) {}

    private Segments() {}

    static List<Named> in(String plain, int start, int end) {
        var named = new ArrayList<Named>();
        var match = NAME.matcher(plain).region(start, end).useTransparentBounds(true);
        while (match.find()) {
            var segment = match.group("aorta") != null
                    ? "infrarenalAorta"
                    : match.group("cia") != null
                            ? "commonIliac"
                            : match.group("eia") != null
                                    ? "externalIliac"
                                    : match.group("iia") != null
                                            ? "internalIliac"
                                            : match.group("cfa") != null
                                                    ? "commonFemoral"
                                                    : match.group("pfa") != null ? "profundaFemoris" : below(match);
            if (!segment.isEmpty()) {
                named.add(new Named(match.start(), match.end(), segment));
            }
        }
        return named;
    }

    private static String below(java.util.regex.Matcher match) {
        return match.group("sfa") != null
                ? "superficialFemoral"
                : match.group("pop") != null
                        ? "popliteal"
                        : match.group("tpt") != null
                                ? "tibioperonealTrunk"
                                : match.group("ata") != null
                                        ? "anteriorTibial"
                                        : match.group("pta") != null
                                                ? "posteriorTibial"
                                                : match.group("per") != null
                                                        ? "peroneal"
                                                        : match.group("pedal") != null ? "pedal" : "";
    }
}
