package limbqueue.referral.ui;

import com.vaadin.flow.component.AbstractField;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.Tag;
import com.vaadin.flow.component.dependency.JavaScript;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongFunction;
import limbqueue.directory.Directory;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.DirectoryKind;
import limbqueue.directory.GenericMedicine;
import limbqueue.directory.GenericMedicines;
import org.jspecify.annotations.Nullable;

/**
 * What is known already, offered while it is typed: referring doctors and hospitals of the directory, and medicines by
 * their generic names. The list is drawn and the keys are read in the browser, see {@code frontend/lq-suggest.js}.
 */
@Tag("lq-suggest")
@JavaScript("context://ui/lq-suggest.js")
final class Suggestions extends Component {

    private static final String REFERRERS = "referrers";
    private static final String HOSPITALS = "hospitals";
    private static final String MEDICINES = "medicines";

    /**
     * What is offered.
     *
     * @param name what is taken into the field
     * @param more what stands beside it, by which it is found too
     * @param id of the entry of the directory whose other fields come with it; left out where there are none
     */
    record Offer(String name, String more, @Nullable Long id) {}

    private final LongFunction<Optional<DirectoryEntry>> find;

    private Suggestions(Map<String, List<Offer>> lists, LongFunction<Optional<DirectoryEntry>> find) {
        this.find = find;
        getElement().setPropertyMap("lists", lists);
    }

    /** Offers what {@code directory} holds now. */
    static Suggestions from(Directory directory) {
        return new Suggestions(
                Map.of(
                        REFERRERS,
                        directory.known(DirectoryKind.REFERRER).stream()
                                .map(Suggestions::referrer)
                                .toList(),
                        HOSPITALS,
                        directory.known(DirectoryKind.HOSPITAL).stream()
                                .map(hospital -> new Offer(hospital.name(), "", null))
                                .toList(),
                        MEDICINES,
                        GenericMedicines.all().stream()
                                .map(Suggestions::medicine)
                                .toList()),
                directory::find);
    }

    static Suggestions none() {
        return new Suggestions(Map.of(), _ -> Optional.empty());
    }

    /** The entry of the directory that was chosen, if it is still there. */
    Optional<DirectoryEntry> find(long id) {
        return find.apply(id);
    }

    private static Offer referrer(DirectoryEntry entry) {
        return new Offer(entry.name(), entry.organisation(), entry.id());
    }

    private static Offer medicine(GenericMedicine medicine) {
        return new Offer(medicine.name(), String.join(", ", medicine.brands()), null);
    }

    /** Lets {@code control} offer what may stand at {@code path}. */
    static void offer(AbstractField<?, String> control, String path) {
        listFor(path).ifPresent(list -> control.getElement().setAttribute("data-suggest", list));
    }

    /** The list from which is offered what may stand at {@code path}. */
    static Optional<String> listFor(String path) {
        return Optional.ofNullable(
                switch (path.replaceAll("\\[\\d+]", "[]")) {
                    case "referrer.name" -> REFERRERS;
                    case "referrer.organisation", "imaging[].where", "procedures[].where", "deferredElsewhere.where" ->
                        HOSPITALS;
                    case "medicines", "medicines[].name" -> MEDICINES;
                    default -> null;
                });
    }

    /** The values that {@code entry} gives the fields of the referring doctor, by path; an empty one is not known. */
    static Map<String, String> referrerValues(DirectoryEntry entry) {
        return Map.of(
                "referrer.name", entry.name(),
                "referrer.organisation", entry.organisation(),
                "referrer.address", entry.address(),
                "referrer.phone", entry.phone(),
                "referrer.fax", entry.fax(),
                "referrer.email", entry.email(),
                "referrer.prefers", entry.prefers());
    }

    /** The paths whose values come with a referring doctor, in the order of the form. */
    static final List<String> REFERRER_PATHS = List.of(
            "referrer.name",
            "referrer.organisation",
            "referrer.address",
            "referrer.phone",
            "referrer.fax",
            "referrer.email",
            "referrer.prefers");
}
