package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.TriageResult.Anatomy;
import limbqueue.triage.TriageResult.AnkleBrachialIndex;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Benefit;
import limbqueue.triage.TriageResult.FhirPriority;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.IndexOrigin;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.LegResults;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Region;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.Tasc;
import limbqueue.triage.TriageResult.TbiBand;
import limbqueue.triage.TriageResult.ToeBrachialIndex;
import limbqueue.triage.TriageResult.Urgency;
import limbqueue.triage.TriageResult.Wifi;
import org.junit.jupiter.api.Test;

class ResultFormatTest {

    @Test
    void aResultIsWrittenAsThePublicFormatHasIt() {
        var day = LocalDate.of(2026, 3, 2);
        var left = new LegResult(
                Optional.of(new AnkleBrachialIndex(0.4, AbiBand.NONCOMPRESSIBLE, IndexOrigin.PRESSURES)),
                Optional.of(new ToeBrachialIndex(0.21, TbiBand.ABNORMAL, IndexOrigin.REPORTED)),
                new FontaineGrade(Fontaine.IIA, List.of(Fontaine.IIA, Fontaine.IIB, Fontaine.IV)),
                new RutherfordGrade(Rutherford.CHRONIC_5, List.of(Rutherford.CHRONIC_5, Rutherford.ACUTE_IIA)),
                Optional.of(new Wifi(1, 2, 0, 3, Benefit.VERY_LOW, List.of(3))),
                Answer.CANNOT_SAY,
                List.of(Answer.YES, Answer.NO),
                Tier.WITHIN_14_DAYS);
        var right = new LegResult(
                Optional.empty(),
                Optional.empty(),
                new FontaineGrade(Fontaine.I, List.of(Fontaine.I)),
                new RutherfordGrade(Rutherford.ACUTE_IIB, List.of(Rutherford.ACUTE_IIB)),
                Optional.of(new Wifi(0, 0, 0, 1, Benefit.HIGH, List.of(1))),
                Answer.NO,
                List.of(Answer.NO),
                Tier.ADVICE_ONLY);
        var result = new TriageResult(
                Optional.of("D-0031"),
                day,
                "standard-1",
                "0123456789abcdef",
                TriageResult.NOTICE,
                new LegResults(left, right),
                List.of(new Anatomy(
                        Region.AORTO_ILIAC,
                        Side.LEFT,
                        Optional.of(Tasc.D),
                        List.of(Tasc.NONE, Tasc.D),
                        Optional.of(3),
                        List.of(2, 3),
                        Optional.of(4),
                        Optional.empty(),
                        List.of("lesions[0]"),
                        "text")),
                new Urgency(
                        Tier.WITHIN_5_DAYS,
                        List.of(Tier.SAME_DAY, Tier.WITHIN_18_WEEKS),
                        Optional.of(day.plusDays(5)),
                        day,
                        FhirPriority.ASAP,
                        "because \"so\""),
                List.of(new RedFlag("only-leg", "text", List.of("legs.left.amputation"), "common-practice")),
                List.of(),
                List.of(new Question("Ask?", "legs.left.abi", Tier.WITHIN_6_WEEKS, day, List.of("wifi"))),
                List.of(),
                Optional.empty(),
                List.of());
        var written = ResultFormat.write(result);
        assertThat(written)
                .isEqualTo(
                        "{\"reference\":\"D-0031\",\"asOf\":\"2026-03-02\",\"policy\":\"standard-1\",\"ruleBook\":\"0123456789abcdef\",\"notice\":\""
                                + TriageResult.NOTICE + "\",\"legs\":{\"left\":{"
                                + "\"abi\":{\"value\":0.40,\"band\":\"noncompressible\",\"from\":\"pressures\"},"
                                + "\"tbi\":{\"value\":0.21,\"band\":\"abnormal\",\"from\":\"reported\"},"
                                + "\"fontaine\":{\"grade\":\"IIa\",\"possible\":[\"IIa\",\"IIb\",\"IV\"]},"
                                + "\"rutherford\":{\"scale\":\"chronic\",\"category\":5,\"possible\":[5,\"IIa\"]},"
                                + "\"wifi\":{\"wound\":1,\"ischaemia\":2,\"infection\":0,\"stage\":3,\"benefit\":\"veryLow\",\"possibleStages\":[3]},"
                                + "\"chronicLimbThreatening\":\"cannotSay\",\"chronicLimbThreateningPossible\":[\"yes\",\"no\"],\"tier\":\"within14Days\"},"
                                + "\"right\":{\"fontaine\":{\"grade\":\"I\",\"possible\":[\"I\"]},"
                                + "\"rutherford\":{\"scale\":\"acute\",\"category\":\"IIb\",\"possible\":[\"IIb\"]},"
                                + "\"wifi\":{\"wound\":0,\"ischaemia\":0,\"infection\":0,\"stage\":1,\"benefit\":\"high\",\"possibleStages\":[1]},"
                                + "\"chronicLimbThreatening\":\"no\",\"chronicLimbThreateningPossible\":[\"no\"],\"tier\":\"adviceOnly\"}},"
                                + "\"anatomy\":[{\"region\":\"aortoIliac\",\"side\":\"left\",\"tasc\":\"D\",\"possible\":[\"none\",\"D\"],"
                                + "\"glass\":3,\"glassPossible\":[2,3],\"glassFemoropopliteal\":4,\"because\":[\"lesions[0]\"],\"text\":\"text\"}],"
                                + "\"urgency\":{\"tier\":\"within5Days\",\"possible\":[\"sameDay\",\"within18Weeks\"],\"targetDate\":\"2026-03-07\","
                                + "\"waitingSince\":\"2026-03-02\",\"fhirPriority\":\"asap\",\"because\":\"because \\\"so\\\"\"},"
                                + "\"redFlags\":[{\"code\":\"only-leg\",\"text\":\"text\",\"evidence\":[\"legs.left.amputation\"],\"source\":\"common-practice\"}],"
                                + "\"contradictions\":[],"
                                + "\"questions\":[{\"ask\":\"Ask?\",\"field\":\"legs.left.abi\",\"couldReveal\":\"within6Weeks\",\"askBy\":\"2026-03-02\",\"couldChange\":[\"wifi\"]}],"
                                + "\"workUp\":[],\"reasons\":[]}");
        assertThat(written).doesNotContain("\n").isEqualTo(ResultFormat.write(result));
    }
}
