package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.Access;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.ProcedurePlan.Advice;
import limbqueue.triage.ProcedurePlan.BailOut;
import limbqueue.triage.ProcedurePlan.Caution;
import limbqueue.triage.ProcedurePlan.Projection;
import limbqueue.triage.ProcedurePlan.RoomItem;
import limbqueue.triage.ProcedurePlan.Sheath;
import limbqueue.triage.ProcedurePlan.Target;
import limbqueue.triage.ReferralDocument.Segment;
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
                Optional.of(plan()),
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
                                + "\"workUp\":[],"
                                + "\"procedurePlan\":{\"sides\":[\"left\"],"
                                + "\"targets\":[{\"order\":1,\"lesion\":\"lesions[0]\",\"side\":\"left\",\"segment\":\"externalIliac\",\"text\":\"closed\",\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"},"
                                + "{\"order\":2,\"lesion\":\"lesions[1]\",\"segment\":\"infrarenalAorta\",\"text\":\"closed\",\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"}],"
                                + "\"access\":[{\"order\":1,\"sides\":[\"left\"],\"sites\":[\"leftFemoral\",\"rightFemoral\",\"leftBrachial\",\"rightBrachial\",\"leftRadial\",\"rightRadial\",\"leftProfunda\",\"rightProfunda\",\"leftSuperficialFemoral\",\"rightSuperficialFemoral\",\"leftPopliteal\",\"rightPopliteal\",\"leftTibial\",\"rightTibial\"],\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"}],"
                                + "\"bailOut\":[{\"sides\":[\"left\"],\"sites\":[\"leftTibial\"],\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"}],"
                                + "\"sheath\":[{\"from\":\"the groin\",\"french\":7,\"lengthCm\":11,\"fits\":\"a covered stent\",\"rule\":\"r\",\"source\":\"s\"}],"
                                + "\"support\":[{\"text\":\"t\",\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"}],\"wires\":[],"
                                + "\"projections\":[{\"target\":\"foot\",\"view\":\"from the front\",\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"}],"
                                + "\"room\":[{\"item\":\"covered stent, sized to the vessel\",\"mustBeInRoom\":true,\"why\":\"w\",\"rule\":\"r\",\"source\":\"s\"}],"
                                + "\"sedation\":\"light\",\"expectedMinutes\":120,\"expectedMinutes90\":216,\"minutesBasis\":\"b\","
                                + "\"cautions\":[{\"text\":\"t\",\"because\":[\"history.dialysis\"],\"rule\":\"r\",\"source\":\"s\"}]},"
                                + "\"reasons\":[]}");
        assertThat(written).doesNotContain("\n").isEqualTo(ResultFormat.write(result));
    }

    private static ProcedurePlan plan() {
        return new ProcedurePlan(
                List.of(Side.LEFT),
                List.of(
                        new Target(
                                1,
                                "lesions[0]",
                                Optional.of(Side.LEFT),
                                Segment.EXTERNAL_ILIAC,
                                "closed",
                                "w",
                                "r",
                                "s"),
                        new Target(
                                2, "lesions[1]", Optional.empty(), Segment.INFRARENAL_AORTA, "closed", "w", "r", "s")),
                List.of(new Access(1, List.of(Side.LEFT), List.of(AccessSite.values()), "w", "r", "s")),
                List.of(new BailOut(List.of(Side.LEFT), List.of(AccessSite.LEFT_TIBIAL), "w", "r", "s")),
                List.of(new Sheath("the groin", 7, 11, "a covered stent", "r", "s")),
                List.of(new Advice("t", "w", "r", "s")),
                List.of(),
                List.of(new Projection("foot", "from the front", "w", "r", "s")),
                List.of(new RoomItem("covered stent, sized to the vessel", true, "w", "r", "s")),
                "light",
                120,
                216,
                "b",
                List.of(new Caution("t", List.of("history.dialysis"), "r", "s")));
    }
}
