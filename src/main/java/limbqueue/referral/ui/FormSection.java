package limbqueue.referral.ui;

import java.util.List;

/**
 * Fields that are asked together.
 *
 * @param id name of the section within the page's address
 * @param title heading
 * @param fields either all of them have a left and a right side, or none has
 */
record FormSection(String id, String title, List<FormField> fields) {

    FormSection {
        fields = List.copyOf(fields);
        if (fields.stream().map(FormField::paired).distinct().count() > 1) {
            throw new IllegalArgumentException("the section " + id + " mixes fields with and without a side");
        }
    }

    boolean paired() {
        return fields.getFirst().paired();
    }
}
