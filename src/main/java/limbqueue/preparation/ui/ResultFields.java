package limbqueue.preparation.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.checkbox.Checkbox;
import com.vaadin.flow.component.datepicker.DatePicker;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.radiobutton.RadioButtonGroup;
import com.vaadin.flow.component.select.Select;
import com.vaadin.flow.component.textfield.TextArea;
import com.vaadin.flow.component.textfield.TextField;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import limbqueue.preparation.TypedResult;
import limbqueue.shell.Pieces;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.ImagingKind;
import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.Side;
import limbqueue.triage.plan.StentNeed;

/** The fields into which the result of one item is typed. */
abstract sealed class ResultFields {

    /** A value that is missing or is no number. */
    static final class NotTyped extends RuntimeException {
        private static final long serialVersionUID = 1;

        final String why;

        NotTyped(String why) {
            super(why);
            this.why = why;
        }
    }

    /** @param units the unit that practices use most first; in UCUM, as the public format wants them */
    private record Asked(LabTest test, String name, List<String> units) {}

    private static final Map<String, List<Asked>> LABORATORY = Map.of(
            "kidney-function",
            List.of(new Asked(LabTest.CREATININE, "Creatinine", List.of("umol/L", "mg/dL"))),
            "blood-count",
            List.of(
                    new Asked(LabTest.HAEMOGLOBIN, "Haemoglobin", List.of("g/L", "g/dL", "mmol/L")),
                    new Asked(LabTest.PLATELETS, "Platelets", List.of("10*9/L", "10*3/uL"))),
            "potassium",
            List.of(new Asked(LabTest.POTASSIUM, "Potassium", List.of("mmol/L", "meq/L"))),
            "inr",
            List.of(new Asked(LabTest.INR, "INR", List.of("{INR}"))),
            "hba1c",
            List.of(new Asked(LabTest.HBA1C, "HbA1c", List.of("mmol/mol", "%"))),
            "thyroid-function",
            List.of(new Asked(LabTest.TSH, "TSH", List.of("mIU/L"))));

    /** The fields for the result of this item; empty when it has no figures. */
    static Optional<ResultFields> of(String code, LocalDate today) {
        if (LABORATORY.containsKey(code)) {
            return Optional.of(new Laboratory(LABORATORY.get(code), today));
        }
        return switch (code) {
            case "toe-pressure" -> Optional.of(new Toes());
            case "duplex" -> Optional.of(new Picture(List.of(ImagingKind.DUPLEX), today));
            case "cta-or-mra" -> Optional.of(new Picture(List.of(ImagingKind.CTA, ImagingKind.MRA), today));
            case "outside-report" -> Optional.of(new Outside(false));
            case "outside-images" -> Optional.of(new Outside(true));
            case "pregnancy-test" -> Optional.of(new Pregnancy());
            default -> Optional.empty();
        };
    }

    /** The fields for what imaging shows of the lesions of one vessel. */
    static ResultFields of(StentNeed need) {
        return new Vessel(need);
    }

    abstract List<Component> fields();

    /** @throws NotTyped if something is missing or is no number */
    abstract List<TypedResult> typed();

    private static Optional<BigDecimal> number(TextField field) {
        var text = field.getValue().strip().replace(',', '.');
        if (text.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new BigDecimal(text));
        } catch (NumberFormatException notANumber) {
            throw new NotTyped(field.getLabel() + ": “" + field.getValue() + "” is not a number.");
        }
    }

    private static LocalDate day(DatePicker field) {
        return field.getOptionalValue().orElseThrow(() -> new NotTyped(field.getLabel() + ": choose the day."));
    }

    private static <T> List<T> atLeastOne(List<T> typed) {
        if (typed.isEmpty()) {
            throw new NotTyped("Type in at least one value.");
        }
        return typed;
    }

    private static TextField text(String label) {
        var field = new TextField(label);
        field.setWidthFull();
        return field;
    }

    private static final class Laboratory extends ResultFields {

        private record Row(Asked asked, TextField value, Select<String> unit) {}

        private final List<Row> rows;
        private final DatePicker taken;

        Laboratory(List<Asked> asked, LocalDate today) {
            rows = asked.stream()
                    .map(one -> {
                        var unit = new Select<String>();
                        unit.setLabel("Unit of " + one.name());
                        unit.setItems(one.units());
                        unit.setItemLabelGenerator(Laboratory::printed);
                        unit.setValue(one.units().getFirst());
                        return new Row(one, text(one.name()), unit);
                    })
                    .toList();
            taken = Pieces.date("Sample taken on", today);
        }

        /** A UCUM code as laboratories print it. */
        private static String printed(String code) {
            return code.equals("{INR}")
                    ? "none"
                    : code.replace("10*", "10^").replace("umol", "µmol").replace("uL", "µL");
        }

        @Override
        List<Component> fields() {
            var fields = new ArrayList<Component>();
            rows.forEach(row -> fields.add(Pieces.div("lq-pair", row.value(), row.unit())));
            fields.add(taken);
            return fields;
        }

        @Override
        List<TypedResult> typed() {
            var day = day(taken);
            return atLeastOne(rows.stream()
                    .flatMap(row -> number(row.value())
                            .<TypedResult>map(value -> new TypedResult.Laboratory(
                                    row.asked().test(), value, row.unit().getValue(), day))
                            .stream())
                    .toList());
        }
    }

    private static final class Toes extends ResultFields {

        private final TextField left = text("Left toe, mmHg");
        private final TextField right = text("Right toe, mmHg");

        @Override
        List<Component> fields() {
            return List.of(left, right);
        }

        @Override
        List<TypedResult> typed() {
            var typed = new ArrayList<TypedResult>();
            number(left).ifPresent(value -> typed.add(new TypedResult.ToePressure(Side.LEFT, value)));
            number(right).ifPresent(value -> typed.add(new TypedResult.ToePressure(Side.RIGHT, value)));
            return atLeastOne(typed);
        }
    }

    private static final class Picture extends ResultFields {

        private final RadioButtonGroup<ImagingKind> kind = new RadioButtonGroup<>("Kind");
        private final DatePicker date;
        private final TextField where = text("Done at");
        private final Checkbox images = new Checkbox("The images are here too");
        private final TextArea findings = new TextArea("What the report says");

        Picture(List<ImagingKind> kinds, LocalDate today) {
            kind.setItems(kinds);
            kind.setItemLabelGenerator(one -> one == ImagingKind.DUPLEX ? "duplex" : one.name());
            kind.setValue(kinds.getFirst());
            kind.setVisible(kinds.size() > 1);
            date = Pieces.date("Done on", today);
            findings.setWidthFull();
        }

        @Override
        List<Component> fields() {
            return List.of(kind, date, where, images, findings);
        }

        @Override
        List<TypedResult> typed() {
            return List.of(new TypedResult.ImagingReport(
                    kind.getValue(), day(date), where.getValue(), images.getValue(), findings.getValue()));
        }
    }

    private static final class Outside extends ResultFields {

        private final boolean images;

        Outside(boolean images) {
            this.images = images;
        }

        @Override
        List<Component> fields() {
            return List.of(new Paragraph("All " + (images ? "images" : "reports")
                    + " of earlier procedures and pictures that the referral names are here."));
        }

        @Override
        List<TypedResult> typed() {
            return List.of(new TypedResult.OutsideRecords(images));
        }
    }

    private static final class Pregnancy extends ResultFields {

        private final RadioButtonGroup<Boolean> pregnant = new RadioButtonGroup<>("Pregnant");

        Pregnancy() {
            pregnant.setItems(false, true);
            pregnant.setItemLabelGenerator(yes -> yes ? "yes" : "no");
        }

        @Override
        List<Component> fields() {
            return List.of(pregnant);
        }

        @Override
        List<TypedResult> typed() {
            return List.of(new TypedResult.Pregnancy(
                    pregnant.getOptionalValue().orElseThrow(() -> new NotTyped("Choose yes or no."))));
        }
    }

    private static final class Vessel extends ResultFields {

        private final StentNeed need;
        private final RadioButtonGroup<Side> side = new RadioButtonGroup<>("Side");
        private final TextField diameter = text("Diameter of the vessel, mm");
        private final TextField stenosis = text("Stenosis, % (100 is an occlusion)");
        private final Select<Calcification> calcification = new Select<>();

        Vessel(StentNeed need) {
            this.need = need;
            side.setItems(Side.values());
            side.setItemLabelGenerator(one -> one == Side.LEFT ? "left" : "right");
            side.setVisible(need.sideOpen());
            diameter.setValue(need.vesselMm()
                    .map(value -> BigDecimal.valueOf(value).stripTrailingZeros().toPlainString())
                    .orElse(""));
            stenosis.setVisible(need.unknown().contains(StentNeed.Unknown.NARROWING));
            calcification.setLabel("Calcification");
            calcification.setItems(Arrays.asList(Calcification.values()));
            calcification.setItemLabelGenerator(
                    one -> one == null ? "" : one.name().toLowerCase(Locale.ROOT));
            calcification.setVisible(need.unknown().contains(StentNeed.Unknown.CALCIFICATION));
        }

        @Override
        List<Component> fields() {
            return List.of(diameter, side, stenosis, calcification);
        }

        @Override
        List<TypedResult> typed() {
            var mm = number(diameter);
            var percent = number(stenosis);
            var calcified = calcification.getOptionalValue();
            var which = side.getOptionalValue();
            if (mm.isEmpty() && percent.isEmpty() && calcified.isEmpty() && which.isEmpty()) {
                throw new NotTyped("Type in at least one value.");
            }
            return need.lesions().stream()
                    .<TypedResult>map(lesion -> new TypedResult.LesionMeasured(lesion, which, mm, percent, calcified))
                    .toList();
        }
    }
}
