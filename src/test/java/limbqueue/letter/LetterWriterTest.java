package limbqueue.letter;

import static limbqueue.letter.Samples.DECIDED;
import static limbqueue.letter.Samples.RECEIVED;
import static limbqueue.letter.Samples.decided;
import static limbqueue.letter.Samples.document;
import static limbqueue.letter.Samples.leg;
import static limbqueue.letter.Samples.needed;
import static limbqueue.letter.Samples.proposal;
import static limbqueue.letter.Samples.referral;
import static limbqueue.letter.Samples.soundLeg;
import static limbqueue.letter.Samples.with;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import limbqueue.document.Draft;
import limbqueue.letter.Parts.Kind;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.ReferralDecided;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.PreferredChannel;
import limbqueue.triage.ReferralDocument.Smoking;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Question;
import limbqueue.triage.TriageResult.Reason;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LetterWriterTest {

    /** The red flags of clinical-reference.md, "Red flags". */
    private static final List<String> EVERY_FLAG = List.of(
            "possible-undisclosed-attempt",
            "failed-attempt",
            "earlier-complication",
            "put-off-elsewhere",
            "pressure-without-findings",
            "leaves-before-follow-up",
            "sudden-change",
            "systemic-infection",
            "false-reassurance",
            "symptoms-do-not-fit",
            "arm-access-risk",
            "hard-to-see",
            "only-leg",
            "diabetic-foot-emergency",
            "atheroembolism",
            "aneurysm",
            "kidney-risk",
            "contrast-allergy",
            "bleeding-risk",
            "pregnancy");

    /** Words that would betray a suspicion, in any form. */
    private static final List<String> BETRAYING = List.of(
            "attempt",
            "undisclosed",
            "fail",
            "complication",
            "abandon",
            "put off",
            "postpone",
            "deferred",
            "personal",
            "grounds",
            "haste",
            "faster",
            "expedite",
            "suspic",
            "suspect",
            "red flag",
            "operator",
            "reassur",
            "unstated",
            "too hard",
            "leaves",
            "travel",
            "pregnan",
            "bleeding");

    private final LetterWriter writer = Samples.writer("en-GB");

    @Test
    void aReceivedLetterThanksAndHoldsNoGrade() {
        var letter = writer.received(referral(ReferralState.QUEUED), document(), DECIDED);

        assertThat(letter.kind()).isEqualTo(LetterKind.RECEIVED);
        assertThat(letter.parts().asText())
                .startsWith("Hollin Bridge Vascular Practice\n4 Weir Lane\nHollin Bridge\nArven Valley\n")
                .contains("Dr Ines Farrow\nMillbeck Surgery\n12 Tannery Row\nMillbeck\nArven Valley")
                .contains("Dear Dr Ines Farrow,")
                .contains("Patient: Zoë Ångström-Łuczak, born 3 May 1951")
                .contains("Our reference: LQ-2026-0001")
                .contains("reached us on 2 March 2026")
                .endsWith("With kind regards\nDr Maren Oakshott\nHollin Bridge Vascular Practice\n")
                .doesNotContainIgnoringCase("rutherford")
                .doesNotContainIgnoringCase("fontaine")
                .doesNotContainIgnoringCase("within")
                .doesNotContainIgnoringCase("urgent");
    }

    @Test
    void aTriagedLetterSaysHowSoonWhichLegTheGradeAndWhatToSend() {
        var proposal = with(
                proposal(Tier.WITHIN_14_DAYS, leg(Rutherford.CHRONIC_5, Fontaine.IV, Tier.WITHIN_14_DAYS), soundLeg()),
                List.of(),
                List.of(),
                List.of(needed("kidney-function"), needed("outside-report"), needed("operator-conversation")),
                List.of());

        var letter = writer.decided(decided(document(), proposal, DecisionKind.APPROVED, Tier.WITHIN_14_DAYS, ""));

        assertThat(letter.kind()).isEqualTo(LetterKind.TRIAGED);
        assertThat(letter.parts().asText())
                .contains("within 14 days: by 16 March 2026.")
                .contains("This concerns the left leg.")
                .contains("left leg: Rutherford category 5 (minor tissue loss), Fontaine stage IV")
                .contains("right leg: Rutherford category 0 (no symptoms), Fontaine stage I\n")
                .contains("creatinine and eGFR")
                .contains("reports of earlier imaging and procedures")
                .contains("This was decided by Dr Tomas Reyk, a physician at this practice")
                .contains("Local protocol prevails.")
                .doesNotContain("exercise");
    }

    @Test
    void aChangedTierAndCategoryAreToldWithoutTheReasonThatIsKept() {
        var proposal = proposal(
                Tier.WITHIN_18_WEEKS, soundLeg(), leg(Rutherford.CHRONIC_2, Fontaine.IIB, Tier.WITHIN_18_WEEKS));

        var text = writer.decided(decided(
                        document(),
                        proposal,
                        DecisionKind.CHANGED,
                        Tier.WITHIN_6_WEEKS,
                        Map.of(Side.RIGHT, Rutherford.CHRONIC_3),
                        "I know this patient and do not trust the distance given."))
                .parts()
                .asText();

        assertThat(text)
                .contains("within 6 weeks: by 13 April 2026.")
                .contains("right leg: Rutherford category 3 (severe claudication)\n")
                .contains("supervised exercise")
                .doesNotContain("do not trust");
    }

    @Test
    void aTargetDateThatHasPassedIsAdmitted() {
        var document = document();
        var proposal =
                proposal(Tier.WITHIN_5_DAYS, leg(Rutherford.CHRONIC_4, Fontaine.III, Tier.WITHIN_5_DAYS), soundLeg());
        var late = decided(document, proposal, DecisionKind.APPROVED, Tier.WITHIN_5_DAYS, "");
        var onTime = writer.decided(late).parts().asText();
        var decision = late.decision();
        var passed = new ReferralDecided(
                late.referral(),
                new DecisionRecord(
                        decision.id(),
                        decision.referralId(),
                        decision.kind(),
                        decision.author(),
                        decision.at(),
                        decision.policy(),
                        decision.ruleBook(),
                        RECEIVED.plusDays(6),
                        decision.document(),
                        decision.proposal(),
                        decision.proposedTier(),
                        decision.tier(),
                        decision.targetDate(),
                        decision.categories(),
                        decision.reason()),
                document,
                proposal,
                late.policy());

        assertThat(onTime).contains("by 7 March 2026").doesNotContain("has passed");
        assertThat(writer.decided(passed).parts().asText()).contains("by 7 March 2026. That day has passed");
    }

    @Test
    void adviceOnlyAsksToConsiderWhatHelpsAndNamesNoDose() {
        var document = Facts.with(document(), "history.statin", true);
        document = Facts.with(document, "history.smoking", Smoking.CURRENT);

        var text = writer.decided(decided(
                        document,
                        proposal(
                                Tier.ADVICE_ONLY,
                                leg(Rutherford.CHRONIC_1, Fontaine.IIA, Tier.ADVICE_ONLY),
                                soundLeg()),
                        DecisionKind.APPROVED,
                        Tier.ADVICE_ONLY,
                        ""))
                .parts()
                .asText();

        assertThat(text)
                .contains("no procedure is called for at present")
                .contains("Please consider:")
                .contains("supervised exercise programme")
                .contains("continuing the statin")
                .contains("an antiplatelet medicine, unless")
                .contains("help with giving up smoking\n")
                .doesNotContainPattern("\\d+ ?(mg|milligram)");
    }

    @Test
    void aPatientSentToHospitalGetsALetterThatSaysWhoWasTold() {
        var text = writer.decided(decided(
                        document(),
                        proposal(Tier.SAME_DAY, leg(Rutherford.ACUTE_IIA, Fontaine.I, Tier.SAME_DAY), soundLeg()),
                        DecisionKind.SENT_TO_HOSPITAL,
                        Tier.SAME_DAY,
                        "Surgeon on call, Tarn Edge Hospital, by telephone at 10:20"))
                .parts()
                .asText();

        assertThat(text)
                .contains("seen in hospital on the same day, 3 March 2026")
                .contains("Surgeon on call, Tarn Edge Hospital, by telephone at 10:20")
                .contains("left leg: acute limb ischaemia, Rutherford category IIa (marginally threatened)\n")
                .contains("Local protocol prevails.");
    }

    @Test
    void informationNeededListsWhatIsAskedInWords() {
        var proposal = with(
                proposal(Tier.WITHIN_14_DAYS, leg(Rutherford.CHRONIC_5, Fontaine.IV, Tier.WITHIN_14_DAYS), soundLeg()),
                List.of(),
                List.of(
                        new Question(
                                "Is the wound spreading?",
                                "legs.left.wound.spreading",
                                Tier.WITHIN_5_DAYS,
                                RECEIVED.plusDays(5),
                                List.of("urgency")),
                        new Question(
                                "On what grounds is faster handling asked for?",
                                "asked.expediteGrounds",
                                Tier.WITHIN_14_DAYS,
                                RECEIVED.plusDays(1),
                                List.of("redFlags")),
                        new Question(
                                "Was treatment attempted at the angiogram?",
                                "procedures[0].outcome",
                                Tier.WITHIN_14_DAYS,
                                RECEIVED.plusDays(1),
                                List.of("urgency", "redFlags"))),
                List.of(),
                List.of());

        var letter = writer.decided(decided(
                document(),
                proposal,
                DecisionKind.INFORMATION_ASKED,
                Tier.WITHIN_14_DAYS,
                "Please send the toe pressure.\nAnd the date of the last wound swab."));

        assertThat(letter.kind()).isEqualTo(LetterKind.INFORMATION_NEEDED);
        assertThat(letter.parts().asText())
                .contains("    Please send the toe pressure.\n    And the date of the last wound swab.")
                .contains("  - Is the wound spreading?")
                .contains("by 7 March 2026 if you can")
                .doesNotContain("grounds")
                .doesNotContain("attempted")
                .doesNotContainIgnoringCase("rutherford");
    }

    @Test
    void aReturnedLetterGivesTheReason() {
        var letter = writer.decided(decided(
                document(),
                proposal(Tier.ADVICE_ONLY, soundLeg(), soundLeg()),
                DecisionKind.RETURNED,
                Tier.ADVICE_ONLY,
                "The complaints come from varicose veins."));

        assertThat(letter.kind()).isEqualTo(LetterKind.RETURNED);
        assertThat(letter.parts().asText()).contains("The complaints come from varicose veins.");
    }

    @ParameterizedTest
    @EnumSource(DecisionKind.class)
    void noRedFlagReachesALetter(DecisionKind kind) {
        var flags = EVERY_FLAG.stream()
                .map(code -> new RedFlag(code, "Flagged: " + code + " suspected.", List.of("procedures[0]"), "source"))
                .toList();
        var workUp = EVERY_WORK_UP_CODE.stream().map(Samples::needed).toList();
        var questions = List.of(
                new Question(
                        "Why was treatment put off?",
                        "deferredElsewhere.reason",
                        Tier.WITHIN_14_DAYS,
                        DECIDED,
                        List.of("urgency")),
                new Question(
                        "Does the patient travel for personal reasons?",
                        "patient.leavesArea",
                        Tier.WITHIN_14_DAYS,
                        DECIDED,
                        List.of("redFlags")));
        var reasons = List.of(new Reason("rule", List.of(), "Reason kept: possible failed attempt.", "source"));
        var tier = kind == DecisionKind.SENT_TO_HOSPITAL ? Tier.SAME_DAY : Tier.WITHIN_14_DAYS;
        var proposal = with(
                proposal(tier, leg(Rutherford.CHRONIC_5, Fontaine.IV, tier), soundLeg()),
                flags,
                questions,
                workUp,
                reasons);
        var words = kind == DecisionKind.APPROVED ? "" : "Words of the physician.";

        var letters = List.of(
                writer.decided(decided(document(), proposal, kind, tier, words)),
                writer.received(referral(ReferralState.QUEUED), document(), DECIDED));

        for (var letter : letters) {
            var text = letter.parts().asText().toLowerCase(Locale.ROOT);
            for (var code : EVERY_FLAG) {
                assertThat(text).doesNotContain(code);
            }
            for (var word : BETRAYING) {
                assertThat(text).doesNotContain(word);
            }
            assertThat(text).doesNotContain("text of").doesNotContain("why of").doesNotContain("because.");
        }
    }

    @Test
    void noRedFlagOfADemoReferralReachesALetter() throws IOException {
        var flagged = new TreeSet<String>();
        try (var files = Files.newDirectoryStream(Path.of("demo-referrals"), "*.referral.json")) {
            for (var file : files) {
                var document = Draft.of(Files.readString(file)).read(DECIDED).document();
                var proposal = Triage.triage(document, Policy.standard(), DECIDED);
                proposal.redFlags().forEach(flag -> flagged.add(flag.code()));
                for (var kind : DecisionKind.values()) {
                    var tier = kind == DecisionKind.SENT_TO_HOSPITAL ? Tier.SAME_DAY : Tier.WITHIN_14_DAYS;
                    var text = writer.decided(decided(document, proposal, kind, tier, "Words of the physician."))
                            .parts()
                            .asText()
                            .toLowerCase(Locale.ROOT);
                    for (var word : BETRAYING) {
                        assertThat(text).as("%s %s", file, kind).doesNotContain(word);
                    }
                    for (var flag : proposal.redFlags()) {
                        assertThat(text)
                                .as("%s %s", file, kind)
                                .doesNotContain(flag.code())
                                .doesNotContain(flag.text().toLowerCase(Locale.ROOT));
                    }
                    for (var reason : proposal.reasons()) {
                        assertThat(text)
                                .as("%s %s", file, kind)
                                .doesNotContain(reason.text().toLowerCase(Locale.ROOT));
                    }
                }
            }
        }
        assertThat(flagged).contains("possible-undisclosed-attempt", "failed-attempt", "pressure-without-findings");
    }

    @Test
    void everyLetterWarnsThatWorseningMustNotWait() {
        for (var letter : everyLetter(document())) {
            assertThat(letter.parts().body().getLast().kind()).isEqualTo(Kind.CAUTION);
            assertThat(letter.parts().asText())
                    .contains(
                            "New pain at rest, a change of colour, numbness, a wound that spreads, or fever must not wait")
                    .contains("call us at once on 01632 960199");
        }
    }

    @Test
    void everyLetterThatHoldsADecisionNamesThePhysicianAndTheLocalProtocol() {
        for (var letter : everyLetter(document())) {
            if (letter.kind() == LetterKind.TRIAGED) {
                assertThat(letter.parts().asText())
                        .contains("decided by Dr Tomas Reyk, a physician at this practice")
                        .contains("Local protocol prevails.");
            }
        }
    }

    @Test
    void aReferrerWithoutNameAndAddressIsAColleague() {
        var letter = writer.received(referral(ReferralState.QUEUED), Facts.nothingKnown(), DECIDED);

        assertThat(letter.recipient()).isEqualTo("The referring doctor");
        assertThat(letter.channel()).isEmpty();
        assertThat(letter.patient()).isEmpty();
        assertThat(letter.parts().asText())
                .contains("Dear colleague,")
                .contains("Thank you for referring your patient.")
                .contains("Patient: name not stated\n");
    }

    @Test
    void whatFollowsTheNameIsLeftOutOfTheGreeting() {
        var document = Facts.with(document(), "referrer.name", "Bea Thornquist, nurse practitioner");

        assertThat(writer.received(referral(ReferralState.QUEUED), document, DECIDED)
                        .parts()
                        .salutation())
                .isEqualTo("Dear Bea Thornquist,");
    }

    @Test
    void theChannelIsTheOnePreferred() {
        var document = Facts.with(document(), "referrer.fax", "01632 960222");
        assertThat(channel(document)).isEqualTo("Post");
        assertThat(channel(Facts.with(document, "referrer.prefers", PreferredChannel.FAX)))
                .isEqualTo("Fax 01632 960222");
        assertThat(channel(Facts.with(document, "referrer.prefers", PreferredChannel.EMAIL)))
                .isEqualTo("Email");
        assertThat(channel(Facts.with(Facts.nothingKnown(), "referrer.email", "farrow@example.org")))
                .isEqualTo("Email farrow@example.org");
    }

    @Test
    void aLegOfWhichNothingIsKnownIsNotCalledFreeOfSymptoms() {
        var unknown = new TriageResult.LegResult(
                soundLeg().abi(),
                soundLeg().tbi(),
                soundLeg().fontaine(),
                new TriageResult.RutherfordGrade(
                        Rutherford.CHRONIC_0, List.of(Rutherford.CHRONIC_0, Rutherford.CHRONIC_5)),
                soundLeg().wifi(),
                soundLeg().chronicLimbThreatening(),
                soundLeg().chronicLimbThreateningPossible(),
                Tier.ADVICE_ONLY);
        var known = leg(Rutherford.CHRONIC_4, Fontaine.III, Tier.WITHIN_14_DAYS);

        assertThat(writer.decided(decided(
                                document(),
                                proposal(Tier.WITHIN_14_DAYS, known, unknown),
                                DecisionKind.APPROVED,
                                Tier.WITHIN_14_DAYS,
                                ""))
                        .parts()
                        .asText())
                .contains("right leg: no complaint has been reported to us, so it is not graded");
    }

    @Test
    void aLegThatIsGoneIsNotGraded() {
        var document = Facts.with(document(), "legs.right.amputation", Amputation.ABOVE_KNEE);

        assertThat(writer.decided(decided(
                                document,
                                proposal(
                                        Tier.WITHIN_14_DAYS,
                                        leg(Rutherford.CHRONIC_4, Fontaine.III, Tier.WITHIN_14_DAYS),
                                        soundLeg()),
                                DecisionKind.APPROVED,
                                Tier.WITHIN_14_DAYS,
                                ""))
                        .parts()
                        .asText())
                .contains("left leg: Rutherford")
                .doesNotContain("right leg");
    }

    @Test
    void whatWasTypedLosesControlAndInvisibleCharacters() {
        var document = Facts.with(document(), "patient.family", "Wren\u0000\u202E\n  Gale\u200B");
        document = Facts.with(document, "referrer.name", "Dr <b>Farrow</b>\r\nBcc: x");

        var letter = writer.received(referral(ReferralState.QUEUED), document, DECIDED);

        assertThat(letter.patient()).isEqualTo("Zoë Wren Gale");
        assertThat(letter.recipient()).isEqualTo("Dr <b>Farrow</b> Bcc: x, Millbeck Surgery");
    }

    @Test
    void aPracticeWithoutAnUrgentNumberStillWarns() {
        var bare = new Practice("The practice", List.of(), "", "", "", "", "", EnvelopeWindow.DIN_5008_B, 0);

        assertThat(new LetterWriter(bare, Samples.WORDINGS, "en-GB")
                        .received(referral(ReferralState.QUEUED), document(), DECIDED)
                        .parts()
                        .asText())
                .contains("must not wait for the queue: send the patient to the nearest emergency department.");
    }

    private String channel(ReferralDocument document) {
        return writer.received(referral(ReferralState.QUEUED), document, DECIDED)
                .channel();
    }

    private List<WrittenLetter> everyLetter(ReferralDocument document) {
        var letters = new ArrayList<WrittenLetter>();
        letters.add(writer.received(referral(ReferralState.QUEUED), document, DECIDED));
        for (var kind : DecisionKind.values()) {
            for (var tier : Tier.values()) {
                if (tier == Tier.SAME_DAY != (kind == DecisionKind.SENT_TO_HOSPITAL)) {
                    continue;
                }
                TriageResult proposal = proposal(tier, leg(Rutherford.CHRONIC_4, Fontaine.III, tier), soundLeg());
                letters.add(writer.decided(decided(document, proposal, kind, tier, "Words.")));
            }
        }
        return letters;
    }

    /** The work-up codes of referral-format.md. */
    private static final List<String> EVERY_WORK_UP_CODE = List.of(
            "kidney-function",
            "blood-count",
            "inr",
            "potassium",
            "hba1c",
            "thyroid-function",
            "pregnancy-test",
            "duplex",
            "cta-or-mra",
            "toe-pressure",
            "exercise-abi",
            "outside-report",
            "outside-images",
            "operator-conversation",
            "metformin",
            "contrast-allergy",
            "kidney-protection",
            "anticoagulant",
            "antiplatelet",
            "statin",
            "smoking",
            "exercise-therapy",
            "cardiac-risk",
            "vein-mapping",
            "wound-assessment",
            "foot-service-call",
            "covered-stent-stock");
}
