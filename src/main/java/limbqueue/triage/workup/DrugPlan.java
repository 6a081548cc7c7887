package limbqueue.triage.workup;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.triage.DrugTiming;
import limbqueue.triage.DrugTiming.Action;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument.Medicine;
import limbqueue.triage.TriageResult.Calculation;
import limbqueue.triage.finding.Creatinine;
import limbqueue.triage.finding.CreatinineClearance;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.question.Entries;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.rule.RuleBook;
import limbqueue.triage.threshold.Limit;

/** What is proposed for each drug about the procedure: taken on, held, or left to the prescriber. No dose is named. */
final class DrugPlan {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);
    /** After these many hours the kidneys are looked at again, and metformin is taken again (drug label). */
    private static final int RECHECK_HOURS = 48;

    private static final Pattern LOW_DOSE = Pattern.compile("(?<![\\d.,])2[.,]50?(?!\\d)");

    /** Antiplatelets that are normally taken on through a procedure from within. */
    private static final Set<String> TAKEN_ON = Set.of("aspirin", "clopidogrel", "cilostazol", "dipyridamole");

    private static final Comparator<DrugTiming> BY_DRUG =
            Comparator.comparing(DrugTiming::drug).thenComparing(DrugTiming::text);

    private final Occasion on;
    private final RuleBook book;

    DrugPlan(Occasion on, RuleBook book) {
        this.on = on;
        this.book = book;
    }

    List<DrugTiming> timings() {
        var medicines = on.document().medicines().orElse(List.of());
        var timings = new ArrayList<DrugTiming>();
        for (var i = 0; i < medicines.size(); i++) {
            timing(medicines.get(i), "medicines[" + i + "].name").ifPresent(timings::add);
        }
        return timings;
    }

    /** @param timings what is proposed for each drug, as {@link #timings} has it */
    void propose(List<DrugTiming> timings, Sheet sheet) {
        if (on.takes(Substances::isAnticoagulant)) {
            sheet.need(
                    Item.ANTICOAGULANT,
                    "Settle the anticoagulant with its prescriber",
                    "Whether, when and how long it is held is the prescriber's decision. " + StopForbidden.ASK,
                    anticoagulantLines(timings, sheet));
        }
        if (on.takes(Substances::isAntiplatelet)) {
            sheet.need(
                    Item.ANTIPLATELET_CONTINUES,
                    "See that nobody stops the antiplatelet",
                    "In treatment of leg arteries from within aspirin and clopidogrel are normally taken on.",
                    lines(timings, Item.ANTIPLATELET_CONTINUES, sheet));
        }
        if (on.takes(Substances::isMetformin)) {
            sheet.need(
                    Item.METFORMIN,
                    "Settle metformin before contrast into an artery",
                    "The drug label holds it at or before contrast into an artery and rechecks kidney function after 48"
                            + " hours; the contrast manual holds it only at low kidney function or when emboli may reach"
                            + " the kidneys. The practice's policy chooses.",
                    lines(timings, Item.METFORMIN, sheet));
        }
        if (on.takes(name -> Substances.sglt2Inhibitor(name).isPresent())) {
            sheet.need(
                    Item.SGLT2_INHIBITOR,
                    "Hold the SGLT2 inhibitor where the patient fasts or is sedated",
                    "Acids can build up in the blood though the sugar is normal.",
                    lines(timings, Item.SGLT2_INHIBITOR, sheet));
        }
        if (on.takes(Substances::isInsulin)
                || on.takes(Substances::isSulfonylurea)
                || on.takes(Substances::isGlp1Agonist)) {
            sheet.need(
                    Item.FASTING,
                    "Plan the fasting: first on the list, drugs against sugar settled with who prescribes them",
                    "Insulin and sulfonylureas lower the sugar of a patient who does not eat; after GLP-1 agonists the"
                            + " stomach may be full, ask the anaesthetist.");
        }
    }

    private Calculation[] anticoagulantLines(List<DrugTiming> timings, Sheet sheet) {
        var lines = new ArrayList<>(List.of(lines(timings, Item.ANTICOAGULANT, sheet)));
        lines.add(sheet.calculation("cockcroft-1976", "Creatinine clearance", clearance()));
        return lines.toArray(Calculation[]::new);
    }

    private String clearance() {
        if (on.dialysis()) {
            return "says nothing on dialysis";
        }
        return CreatinineClearance.of(on.document(), on.asOf())
                .map(span -> Sentence.of("%s mL/min", span.words()))
                .orElseGet(() -> "no figure without " + String.join(", ", CreatinineClearance.missing(on.document())));
    }

    private Calculation[] lines(List<DrugTiming> timings, Item item, Sheet sheet) {
        var ofItem = new ArrayList<>(Entries.those(timings, timing -> itemOf(timing.drug()) == item));
        ofItem.sort(BY_DRUG);
        return Entries.each(ofItem, timing -> sheet.calculation(timing.source(), timing.drug(), timing.text()))
                .toArray(Calculation[]::new);
    }

    private static Item itemOf(String drug) {
        if (Substances.anticoagulant(drug).isPresent()) {
            return Item.ANTICOAGULANT;
        }
        if (Substances.antiplatelet(drug).isPresent()) {
            return Item.ANTIPLATELET_CONTINUES;
        }
        return Substances.isMetformin(drug) ? Item.METFORMIN : Item.SGLT2_INHIBITOR;
    }

    private Optional<DrugTiming> timing(Medicine medicine, String path) {
        var name = medicine.name().orElse("");
        return Substances.anticoagulant(name)
                .map(drug -> anticoagulant(drug, medicine, path))
                .or(() -> Substances.antiplatelet(name).map(drug -> antiplatelet(drug, path)))
                .or(() -> Substances.isMetformin(name) ? Optional.of(metformin(path)) : Optional.empty())
                .or(() -> Substances.sglt2Inhibitor(name).map(drug -> sglt2Inhibitor(drug, path)));
    }

    private DrugTiming anticoagulant(String drug, Medicine medicine, String path) {
        if (drug.equals("rivaroxaban") && lowDose(medicine)) {
            return ask(drug, path, "for the low dose given for the arteries the table has no row", Item.ANTICOAGULANT);
        }
        var reasons = StopForbidden.reasons(on);
        if (!reasons.isEmpty()) {
            return ask(drug, path, "it must not simply be stopped: " + String.join(", ", reasons), Item.ANTICOAGULANT);
        }
        if (on.dialysis() && HoldingTable.asksClearance(drug)) {
            return ask(drug, path, "on dialysis the table has no row", Item.ANTICOAGULANT);
        }
        var row = HoldingTable.of(
                drug, on.bleedingClass(), CreatinineClearance.of(on.document(), on.asOf()), on.limits());
        return switch (row) {
            case HoldingTable.None none -> ask(drug, path, none.why(), Item.ANTICOAGULANT);
            case HoldingTable.Continue _ -> takenOn(drug, path, "the table lets it go on", Item.ANTICOAGULANT);
            case HoldingTable.HoldFor held -> held(drug, path, held, Item.ANTICOAGULANT);
        };
    }

    /** Whether name or dose of {@code medicine} is that of the low dose for the arteries. */
    static boolean lowDose(Medicine medicine) {
        return LOW_DOSE.matcher(
                        medicine.name().orElse("") + " " + medicine.dose().orElse(""))
                .find();
    }

    private DrugTiming antiplatelet(String drug, String path) {
        var row = HoldingTable.of(drug, on.bleedingClass(), Optional.empty(), on.limits());
        var printed = row instanceof HoldingTable.HoldFor held
                ? Sentence.of(
                        "; for procedures of its kind the table prints %s without it",
                        held.hold().words())
                : "";
        return TAKEN_ON.contains(drug)
                ? takenOn(
                        drug,
                        path,
                        "normally taken on through a procedure from within" + printed,
                        Item.ANTIPLATELET_CONTINUES)
                : ask(drug, path, "it is often given for a stent in the heart" + printed, Item.ANTIPLATELET_CONTINUES);
    }

    /** Both texts are always told; the policy chooses which of them is proposed. */
    private DrugTiming metformin(String path) {
        var manualHolds = manualHoldsMetformin();
        if (on.policy().metformin() == Policy.Metformin.CONTRAST_MANUAL && !manualHolds) {
            return takenOn(
                    "metformin",
                    path,
                    "as the contrast manual lets it with such kidneys unless emboli may reach them; the drug label would"
                            + " hold it for 48 hours",
                    Item.METFORMIN);
        }
        var restart = on.at().map(at -> at.plusHours(RECHECK_HOURS));
        return new DrugTiming(
                "metformin",
                path,
                Action.HOLD,
                Optional.of(Sentence.of("from the procedure on, for %d hours", RECHECK_HOURS)),
                on.at(),
                restart,
                Sentence.of(
                        "Proposed by the %s: none from the procedure%s on, again after %d hours%s if the kidneys are as"
                                + " before; %s. The prescriber decides.",
                        on.policy().metformin() == Policy.Metformin.CONTRAST_MANUAL ? "contrast manual" : "drug label",
                        clock(on.at(), " of "),
                        RECHECK_HOURS,
                        clock(restart, ", not before "),
                        otherTextOnMetformin(manualHolds)),
                source(Item.METFORMIN));
    }

    private String otherTextOnMetformin(boolean manualHolds) {
        if (on.policy().metformin() == Policy.Metformin.CONTRAST_MANUAL) {
            return "the drug label says the same";
        }
        return manualHolds
                ? "with kidneys so low, hurt or unknown the contrast manual says the same"
                : "the contrast manual lets it go on unless emboli may reach the kidneys";
    }

    /** Low, hurt or unknown kidneys. */
    private boolean manualHoldsMetformin() {
        return on.kidney()
                        .map(kidney -> kidney.egfr() < on.limits().of(Limit.METFORMIN_EGFR_LESS_THAN))
                        .orElse(true)
                || Creatinine.roseAcutely(on.document(), on.limits());
    }

    private DrugTiming sglt2Inhibitor(String drug, String path) {
        var hold = switch (drug) {
            case "canagliflozin", "dapagliflozin", "empagliflozin" -> Hold.days(3, 3);
            case "ertugliflozin" -> Hold.days(4, 4);
            default -> Hold.days(3, 4);
        };
        var last = on.at().map(hold::lastDose);
        return new DrugTiming(
                drug,
                path,
                Action.HOLD,
                Optional.of(hold.words()),
                last,
                Optional.empty(),
                Sentence.of(
                        "Proposed: %s without it where the patient fasts or is sedated%s; again when eating as usual. The"
                                + " prescriber decides.",
                        hold.words(), clock(last, ", last dose at the latest ")),
                source(Item.SGLT2_INHIBITOR));
    }

    private DrugTiming held(String drug, String path, HoldingTable.HoldFor row, Item item) {
        var last = on.at().map(row.hold()::lastDose);
        var restart = on.at().map(at -> at.plusHours(row.restartHours()));
        return new DrugTiming(
                drug,
                path,
                Action.HOLD,
                Optional.of(row.hold().words()),
                last,
                restart,
                Sentence.of(
                                "Proposed: %s before the procedure%s; again %s%s.",
                                row.hold().words(),
                                clock(last, ", last dose at the latest "),
                                row.restart(),
                                clock(restart, ", not before "))
                        + (row.beside().isEmpty() ? "" : " " + row.beside())
                        + " The prescriber decides.",
                source(item));
    }

    private DrugTiming takenOn(String drug, String path, String why, Item item) {
        return new DrugTiming(
                drug,
                path,
                Action.CONTINUE,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Sentence.of("Proposed: go on with it, %s. The prescriber decides.", why),
                source(item));
    }

    private DrugTiming ask(String drug, String path, String why, Item item) {
        return new DrugTiming(
                drug,
                path,
                Action.ASK_PRESCRIBER,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Sentence.of("Ask the prescriber, nothing is proposed: %s.", why),
                source(item));
    }

    private static String clock(Optional<LocalDateTime> time, String before) {
        return time.map(at -> before + TIME.format(at)).orElse("");
    }

    private String source(Item item) {
        return book.sourceOf(item.rule());
    }
}
