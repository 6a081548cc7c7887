package limbqueue.letter;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.letter.wording.ShippedWordings;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Benefit;
import limbqueue.triage.TriageResult.FhirPriority;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.LegResults;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Rutherford;
import limbqueue.triage.TriageResult.RutherfordGrade;
import limbqueue.triage.TriageResult.Urgency;
import limbqueue.triage.TriageResult.Who;
import limbqueue.triage.TriageResult.Wifi;
import limbqueue.triage.TriageResult.WorkUpItem;

/** Invented referrals and decisions for the tests of letters. */
final class Samples {

    static final LocalDate RECEIVED = LocalDate.of(2026, 3, 2);
    static final LocalDate DECIDED = LocalDate.of(2026, 3, 3);

    static final Practice PRACTICE = new Practice(
            "Hollin Bridge Vascular Practice",
            List.of("4 Weir Lane", "Hollin Bridge", "Arven Valley"),
            "01632 960100",
            "01632 960101",
            "office@hollinbridge.example.org",
            "01632 960199",
            "Dr Maren Oakshott",
            EnvelopeWindow.DIN_5008_B,
            1);

    static final ShippedWordings WORDINGS = ShippedWordings.load();

    private Samples() {}

    /** Writes by the words that are shipped. */
    static LetterWriter writer(String language) {
        return new LetterWriter(PRACTICE, WORDINGS, language);
    }

    static ReferralDocument document() {
        var document = Facts.nothingKnown();
        document = Facts.with(document, "patient.given", "Zoë");
        document = Facts.with(document, "patient.family", "Ångström-Łuczak");
        document = Facts.with(document, "patient.born", LocalDate.of(1951, 5, 3));
        document = Facts.with(document, "referrer.name", "Dr Ines Farrow");
        document = Facts.with(document, "referrer.organisation", "Millbeck Surgery");
        return Facts.with(document, "referrer.address", "12 Tannery Row\nMillbeck\nArven Valley");
    }

    static Referral referral(ReferralState state) {
        return new Referral(
                7,
                3,
                "LQ-2026-0001",
                state,
                RECEIVED,
                "{}",
                "Nell Coombe",
                Instant.parse("2026-03-02T09:00:00Z"),
                Optional.of(Instant.parse("2026-03-02T10:00:00Z")));
    }

    static TriageResult proposal(Tier tier, LegResult left, LegResult right) {
        return new TriageResult(
                Optional.of("LQ-2026-0001"),
                DECIDED,
                "standard-1",
                "0123456789abcdef",
                TriageResult.NOTICE,
                new LegResults(left, right),
                List.of(),
                new Urgency(
                        tier,
                        List.of(tier),
                        Policy.standard().targetDate(tier, RECEIVED),
                        RECEIVED,
                        FhirPriority.URGENT,
                        "Because."),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                Optional.empty(),
                List.of());
    }

    static TriageResult with(
            TriageResult proposal,
            List<RedFlag> flags,
            List<Question> questions,
            List<WorkUpItem> workUp,
            List<Reason> reasons) {
        return new TriageResult(
                proposal.reference(),
                proposal.asOf(),
                proposal.policy(),
                proposal.ruleBook(),
                proposal.notice(),
                proposal.legs(),
                proposal.anatomy(),
                proposal.urgency(),
                flags,
                proposal.contradictions(),
                questions,
                workUp,
                proposal.procedurePlan(),
                reasons);
    }

    static LegResult leg(Rutherford category, Fontaine fontaine, Tier tier) {
        return new LegResult(
                Optional.empty(),
                Optional.empty(),
                new FontaineGrade(fontaine, List.of(fontaine)),
                new RutherfordGrade(category, List.of(category)),
                Optional.of(new Wifi(0, 0, 0, 1, Benefit.VERY_LOW, List.of(1))),
                Answer.NO,
                List.of(Answer.NO),
                tier);
    }

    static LegResult soundLeg() {
        return leg(Rutherford.CHRONIC_0, Fontaine.I, Tier.ADVICE_ONLY);
    }

    static WorkUpItem needed(String code) {
        return new WorkUpItem(
                code,
                "text of " + code,
                "why of " + code,
                true,
                Optional.empty(),
                "common-practice",
                Who.COORDINATOR,
                Optional.empty(),
                false,
                List.of(),
                List.of());
    }

    static ReferralDecided decided(
            ReferralDocument document, TriageResult proposal, DecisionKind kind, Tier tier, String reason) {
        return decided(document, proposal, kind, tier, Map.of(), reason);
    }

    static ReferralDecided decided(
            ReferralDocument document,
            TriageResult proposal,
            DecisionKind kind,
            Tier tier,
            Map<Side, Rutherford> categories,
            String reason) {
        var decision = new DecisionRecord(
                11,
                7,
                kind,
                "Dr Tomas Reyk",
                Instant.parse("2026-03-03T11:30:00Z"),
                "standard-1",
                Optional.of("0123456789abcdef"),
                DECIDED,
                "{}",
                "{}",
                proposal.urgency().tier(),
                tier,
                kind == DecisionKind.SENT_TO_HOSPITAL
                        ? Optional.of(DECIDED)
                        : Policy.standard().targetDate(tier, RECEIVED),
                categories,
                reason);
        return new ReferralDecided(referral(ReferralState.APPROVED), decision, document, proposal, Policy.standard());
    }
}
