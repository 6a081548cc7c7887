package limbqueue.triage.flag;

import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Limit;

/** In diabetes, a foot ulcer with fever, sepsis or ischaemia, a deep infection, or any gangrene. */
final class DiabeticFootRule implements FlagRule {

    @Override
    public String code() {
        return "diabetic-foot-emergency";
    }

    @Override
    public Outcome look(Case referral) {
        var evidence = referral.legsWith(leg -> true)
                .flatMap(leg -> evidence(leg, referral))
                .toList();
        var diabetes = referral.document().history().diabetes();
        if (evidence.isEmpty() || diabetes.equals(Optional.of(false))) {
            return Outcome.silent();
        }
        return diabetes.isEmpty()
                ? Outcome.cannotTell("history.diabetes")
                : Outcome.fires(
                        "Diabetic foot emergency: call the hospital's foot service today, whatever the place in the"
                                + " queue.",
                        Stream.concat(Stream.of("history.diabetes"), evidence.stream())
                                .toList());
    }

    /** Gangrene or deep infection, with an ulcer or without; an ulcer of the foot with fever, sepsis or ischaemia. */
    private static Stream<String> evidence(LegPicture leg, Case referral) {
        var ulcer = leg.ulcer() != Ulcer.NONE && !leg.leg().wound().site().equals(Optional.of(WoundSite.LEG));
        var worse = Stream.of(
                        ulcer && feverish(leg, referral) ? Stream.of("infection.temperatureC") : Stream.<String>empty(),
                        ulcer && leg.infection() == 3 ? Stream.of("infection") : Stream.<String>empty(),
                        ulcer && leg.perfusion().ischaemia() >= 1 ? Stream.of("pressures") : Stream.<String>empty())
                .flatMap(paths -> paths)
                .toList();
        return Stream.of(
                        leg.gangrene() != Gangrene.NONE ? Stream.of("wound.gangrene") : Stream.<String>empty(),
                        leg.leg().infection().deep().orElse(false)
                                ? Stream.of("infection.deep")
                                : Stream.<String>empty(),
                        worse.isEmpty() ? Stream.<String>empty() : Stream.of("wound.ulcer"),
                        worse.stream())
                .flatMap(paths -> paths)
                .map(leg.facts()::path);
    }

    private static boolean feverish(LegPicture leg, Case referral) {
        return leg.leg()
                .infection()
                .temperatureC()
                .map(degrees -> degrees.value() > referral.limits().of(Limit.SYSTEMIC_TEMPERATURE_MORE_THAN))
                .orElse(false);
    }
}
