package limbqueue.referral.ui;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import limbqueue.referral.ui.Finding.Gathering;
import limbqueue.triage.Quantity;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Acute;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Claudication;
import limbqueue.triage.ReferralDocument.Doppler;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Infection;
import limbqueue.triage.ReferralDocument.Leg;
import limbqueue.triage.ReferralDocument.Motor;
import limbqueue.triage.ReferralDocument.Pulse;
import limbqueue.triage.ReferralDocument.RestPain;
import limbqueue.triage.ReferralDocument.Sensory;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.Waveform;
import limbqueue.triage.ReferralDocument.Wound;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.AnkleBrachialIndex;
import limbqueue.triage.TriageResult.IndexOrigin;
import limbqueue.triage.TriageResult.ToeBrachialIndex;

/** What is known about the two legs, line by line, the right leg's finding before the left's. */
final class LegFacts {

    /** One line: the same thing looked for on both sides. */
    record Line(String label, Finding right, Finding left) {

        boolean anythingKnown() {
            return right.known() || left.known();
        }
    }

    private LegFacts() {}

    static List<Line> complaints(ReferralDocument document) {
        var lines = new ArrayList<Line>();
        lines.add(line(document, "Claudication", leg -> claudication(leg.claudication())));
        lines.add(line(document, "Rest pain", leg -> restPain(leg.restPain())));
        lines.add(line(document, "Wound", leg -> wound(leg.wound())));
        lines.add(line(document, "Infection", leg -> infection(leg.infection())));
        lines.add(line(document, "Sudden ischaemia", leg -> acute(leg.acute())));
        var amputation = line(document, "Amputation", leg -> amputation(leg.amputation()));
        if (amputation.anythingKnown()) {
            lines.add(amputation);
        }
        return lines;
    }

    /** The lines of {@link #pressures} that stand on the picture of the leg arteries as well. */
    static final Set<String> ON_THE_PICTURE = Set.of("Arm", "Dorsalis pedis", "Posterior tibial", "Toe", "ABI", "TBI");

    /** Pressures in mmHg and the indices; the less usual ones only where somebody measured them. */
    static List<Line> pressures(ReferralDocument document, TriageResult result) {
        var lines = new ArrayList<Line>();
        lines.add(new Line(
                "Arm",
                number(document.armPressures().right()),
                number(document.armPressures().left())));
        lines.add(line(document, "Dorsalis pedis", leg -> number(leg.pressures().dorsalisPedis())));
        lines.add(
                line(document, "Posterior tibial", leg -> number(leg.pressures().posteriorTibial())));
        lines.add(line(document, "Toe", leg -> number(leg.pressures().toe())));
        lines.add(new Line("ABI", ankleBrachialIndex(result, Side.RIGHT), ankleBrachialIndex(result, Side.LEFT)));
        lines.add(new Line("TBI", toeBrachialIndex(result, Side.RIGHT), toeBrachialIndex(result, Side.LEFT)));
        addIfKnown(
                lines,
                line(
                        document,
                        "Ankle after exercise",
                        leg -> number(leg.pressures().ankleAfterExercise())));
        addIfKnown(
                lines,
                line(
                        document,
                        "ABI after exercise",
                        leg -> leg.abiAfterExercise()
                                .map(ratio -> Finding.plain(TierWords.index(ratio.value())))
                                .orElseGet(Finding::notKnown)));
        addIfKnown(
                lines,
                line(
                        document,
                        "Oxygen through skin",
                        leg -> number(leg.pressures().tcpo2())));
        addIfKnown(
                lines,
                line(document, "Waveform", leg -> waveform(leg.pressures().waveform())));
        return lines;
    }

    static List<Line> pulses(ReferralDocument document) {
        return List.of(
                line(document, "Femoral", leg -> pulse(leg.pulses().femoral())),
                line(document, "Popliteal", leg -> pulse(leg.pulses().popliteal())),
                line(document, "Dorsalis pedis", leg -> pulse(leg.pulses().dorsalisPedis())),
                line(document, "Posterior tibial", leg -> pulse(leg.pulses().posteriorTibial())));
    }

    private static Line line(ReferralDocument document, String label, Function<Leg, Finding> finding) {
        return new Line(
                label,
                finding.apply(document.legs().of(Side.RIGHT)),
                finding.apply(document.legs().of(Side.LEFT)));
    }

    private static void addIfKnown(List<Line> lines, Line line) {
        if (line.anythingKnown()) {
            lines.add(line);
        }
    }

    static Finding claudication(Claudication claudication) {
        var said = new Gathering().answer(claudication.present(), "yes", "no");
        claudication.distanceMetres().ifPresent(distance -> said.plain("after " + whole(distance) + " m"));
        if (claudication.present().orElse(false)
                && claudication.distanceMetres().isEmpty()) {
            said.notKnown("distance");
        }
        said.detail(claudication.site(), LegFacts::words);
        claudication.course().ifPresent(course -> {
            switch (course) {
                case STABLE -> said.plain("stable");
                case WORSE -> said.present("getting worse");
                case SUDDEN -> said.present("suddenly worse");
            }
        });
        said.detail(claudication.sinceDays(), LegFacts::since);
        said.detail(claudication.relief(), relief -> "eased by " + words(relief));
        return said.answer(claudication.limitsLife(), "limits life", "does not limit life")
                .finding();
    }

    static Finding restPain(RestPain restPain) {
        var said = new Gathering().answer(restPain.present(), "yes", "no");
        said.detail(restPain.sinceDays(), LegFacts::since);
        if (restPain.present().orElse(false) && restPain.sinceDays().isEmpty()) {
            said.notKnown("since when");
        }
        return said.answer(restPain.needsOpioid(), "needs opioids", "no opioids")
                .answer(restPain.easedByHanging(), "eased by hanging the leg", "not eased by hanging the leg")
                .finding();
    }

    static Finding wound(Wound wound) {
        var said = new Gathering();
        wound.ulcer().ifPresent(ulcer -> {
            if (ulcer == Ulcer.NONE) {
                said.absent("no ulcer");
            } else {
                said.present(words(ulcer) + " ulcer");
            }
        });
        wound.gangrene().ifPresent(gangrene -> {
            switch (gangrene) {
                case NONE -> said.absent("no gangrene");
                case DIGITS -> said.present("gangrene of digits");
                case EXTENSIVE -> said.present("extensive gangrene");
            }
        });
        if (!said.isEmpty()) {
            if (wound.ulcer().isEmpty()) {
                said.notKnown("ulcer");
            }
            if (wound.gangrene().isEmpty()) {
                said.notKnown("gangrene");
            }
        }
        said.detail(wound.site(), LegFacts::words);
        wound.exposes().ifPresent(exposes -> {
            switch (exposes) {
                case NOTHING -> said.absent("nothing exposed");
                case DISTAL_PHALANX -> said.present("distal phalanx exposed");
                case BONE_JOINT_OR_TENDON -> said.present("bone, joint or tendon exposed");
                case CALCANEUS -> said.present("calcaneus exposed");
            }
        });
        said.detail(wound.sinceDays(), LegFacts::since);
        said.answer(wound.spreading(), "spreading", "not spreading");
        var open = wound.ulcer().filter(ulcer -> ulcer != Ulcer.NONE).isPresent()
                || wound.gangrene()
                        .filter(gangrene -> gangrene != Gangrene.NONE)
                        .isPresent();
        if (open && wound.sinceDays().isEmpty()) {
            said.notKnown("since when");
        }
        return said.finding();
    }

    static Finding infection(Infection infection) {
        var said = new Gathering();
        infection.localSigns().ifPresent(signs -> {
            if (signs == 0) {
                said.absent("no local signs");
            } else {
                said.present(signs + " of 5 local signs");
            }
        });
        infection.rednessMm().ifPresent(redness -> said.present("redness " + whole(redness) + " mm around"));
        said.answer(infection.deep(), "deep", "not deep");
        infection.temperatureC().ifPresent(temperature -> said.plain(whole(temperature) + " °C"));
        infection.heartRate().ifPresent(rate -> said.plain("heart rate " + whole(rate)));
        infection.respiratoryRate().ifPresent(rate -> said.plain("breathing rate " + whole(rate)));
        infection.paco2().ifPresent(pressure -> said.plain("PaCO₂ " + whole(pressure) + " mmHg"));
        infection.whiteCellsPerMicrolitre().ifPresent(cells -> said.plain("white cells " + whole(cells) + "/µl"));
        return said.finding();
    }

    static Finding acute(Acute acute) {
        var said = new Gathering().answer(acute.present(), "yes", "no");
        acute.onset().ifPresent(onset -> said.present("since " + TierWords.date(onset)));
        acute.sensory().ifPresent(loss -> {
            switch (loss) {
                case NONE -> said.absent("sensation normal");
                case TOES -> said.present("sensation lost in the toes");
                case BEYOND_TOES -> said.present("sensation lost beyond the toes");
                case COMPLETE -> said.present("no sensation");
            }
        });
        acute.motor().ifPresent(loss -> {
            switch (loss) {
                case NONE -> said.absent("movement normal");
                case MILD -> said.present("movement weak");
                case PARALYSIS -> said.present("paralysis");
            }
        });
        if (acute.present().orElse(acute.onset().isPresent())) {
            unlessKnown(said, acute.sensory().map(Sensory::name), "sensation");
            unlessKnown(said, acute.motor().map(Motor::name), "movement");
        }
        acute.arterialDoppler().ifPresent(doppler -> doppler(said, "arterial", doppler));
        acute.venousDoppler().ifPresent(doppler -> doppler(said, "venous", doppler));
        return said.answer(acute.pain(), "painful", "no pain")
                .answer(acute.pale(), "pale", "not pale")
                .answer(acute.cold(), "cold", "not cold")
                .finding();
    }

    private static void unlessKnown(Gathering said, Optional<String> value, String what) {
        if (value.isEmpty()) {
            said.notKnown(what);
        }
    }

    private static void doppler(Gathering said, String vessel, Doppler doppler) {
        if (doppler == Doppler.AUDIBLE) {
            said.absent(vessel + " Doppler audible");
        } else {
            said.present(vessel + " Doppler inaudible");
        }
    }

    private static Finding amputation(Optional<Amputation> amputation) {
        return amputation
                .map(level -> level == Amputation.NONE
                        ? new Gathering().absent("none").finding()
                        : new Gathering().present(words(level)).finding())
                .orElseGet(Finding::notKnown);
    }

    private static Finding waveform(Optional<Waveform> waveform) {
        return waveform.map(shape -> shape == Waveform.FLAT
                        ? new Gathering().present("flat").finding()
                        : Finding.plain(words(shape)))
                .orElseGet(Finding::notKnown);
    }

    private static Finding pulse(Optional<Pulse> pulse) {
        return pulse.map(felt -> felt == Pulse.PRESENT
                        ? new Gathering().absent("present").finding()
                        : new Gathering().present(words(felt)).finding())
                .orElseGet(Finding::notKnown);
    }

    private static Finding number(Optional<? extends Quantity> quantity) {
        return quantity.map(known -> Finding.plain(whole(known))).orElseGet(Finding::notKnown);
    }

    private static Finding ankleBrachialIndex(TriageResult result, Side side) {
        return result.legs().of(side).abi().map(LegFacts::index).orElseGet(Finding::notKnown);
    }

    private static Finding index(AnkleBrachialIndex abi) {
        var words = TierWords.index(abi.value()) + " " + TierWords.of(abi.band());
        var said = new Gathering();
        switch (abi.band()) {
            case ABNORMAL, NONCOMPRESSIBLE -> said.present(words);
            case BORDERLINE, NORMAL -> said.plain(words);
        }
        return origin(said, abi.from());
    }

    private static Finding toeBrachialIndex(TriageResult result, Side side) {
        return result.legs().of(side).tbi().map(LegFacts::index).orElseGet(Finding::notKnown);
    }

    private static Finding index(ToeBrachialIndex tbi) {
        var words = TierWords.index(tbi.value()) + " " + TierWords.of(tbi.band());
        var said = new Gathering();
        switch (tbi.band()) {
            case ABNORMAL -> said.present(words);
            case NORMAL -> said.plain(words);
        }
        return origin(said, tbi.from());
    }

    private static Finding origin(Gathering said, IndexOrigin from) {
        return from == IndexOrigin.REPORTED ? said.plain("as reported").finding() : said.finding();
    }

    private static String since(Quantity.Days since) {
        return since.days() == 0 ? "since today" : "for " + TimeWords.days(since.days());
    }

    private static String whole(Quantity quantity) {
        return plain(quantity.value());
    }

    /** Without a fraction that says nothing: {@code 38}, {@code 38.4}. */
    static String plain(double number) {
        var exact = BigDecimal.valueOf(number).stripTrailingZeros();
        return (exact.scale() < 0 ? exact.setScale(0, RoundingMode.UNNECESSARY) : exact).toPlainString();
    }

    private static String words(Enum<?> answer) {
        return answer.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
