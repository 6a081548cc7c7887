package limbqueue.search;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.search.Sought.Term;
import limbqueue.search.jdbc.SearchStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** Finds referrals by whatever somebody remembers of them. */
@Service
public class Search {

    /** So many are shown; whoever sees that there are more types another word. */
    public static final int SHOWN = 50;

    /** So many places of one referral are shown. */
    private static final int MOST_EXTRACTS = 3;

    private final SearchStore store;

    Search(SearchStore store) {
        this.store = store;
    }

    /**
     * Referrals that have every word of {@code typed}: as the beginning of a word of theirs, or exactly where it stands in
     * quotes. Where none has, those with a similar name.
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public Answer find(String typed) {
        var sought = Sought.of(typed);
        if (sought.tooShort()) {
            return new Answer(List.of(), Answer.Kind.TOO_SHORT);
        }
        var ids = store.find(query(sought, true), query(sought, false), SHOWN + 1);
        if (ids.isEmpty()) {
            return new Answer(show(store.similarNames(typed, SHOWN), sought), Answer.Kind.SIMILAR_NAMES);
        }
        var shown = ids.subList(0, Math.min(ids.size(), SHOWN));
        return new Answer(show(shown, sought), ids.size() > SHOWN ? Answer.Kind.THE_BEST : Answer.Kind.ALL);
    }

    /** The query as the database reads it. Every word is in quotes, so that none of them is taken for a sign. */
    private String query(Sought sought, boolean beginnings) {
        var folded = store.folded(sought.terms().stream()
                .map(term -> switch (term) {
                    case Term.Beginning(var words) -> words;
                    case Term.Phrase(var words) -> words;
                    case Term.Digits(var digits) -> digits;
                })
                .toList());
        var terms = new ArrayList<String>();
        for (var i = 0; i < folded.size(); i++) {
            if (folded.get(i).isEmpty()) {
                continue;
            }
            var words = folded.get(i).split(" ");
            terms.add(
                    switch (sought.terms().get(i)) {
                        case Term.Beginning _ -> beginning(words, beginnings ? ":*" : "");
                        case Term.Phrase _ -> together(words, "");
                        case Term.Digits(var digits) ->
                            "('" + digits + "':* | '" + digits.substring(Math.max(0, digits.length() - 9)) + "')";
                    });
        }
        return String.join(" & ", terms);
    }

    /** Words joined by a sign, as in a number or a double name, are also sought as one. */
    private static String beginning(String[] words, String ending) {
        return words.length == 1
                ? together(words, ending)
                : "(" + together(words, ending) + " | '" + String.join("", words) + "'" + ending + ")";
    }

    private static String together(String[] words, String ending) {
        return Stream.of(words).map(word -> "'" + word + "'").collect(Collectors.joining(" <-> ", "(", ending + ")"));
    }

    private List<Found> show(List<Long> ids, Sought sought) {
        return store.rows(ids).stream().map(row -> found(row, sought)).toList();
    }

    private static Found found(SearchStore.Row row, Sought sought) {
        var document = Draft.of(row.document());
        var patient = text(document, "patient.given", "patient.family");
        return new Found(
                row.id(),
                row.reference(),
                row.state(),
                patient,
                row.born(),
                joined(document, ", ", "referrer.name", "referrer.organisation"),
                row.received(),
                extracts(row, document, patient, sought));
    }

    private static List<Extract> extracts(SearchStore.Row row, Draft document, String patient, Sought sought) {
        var places = new LinkedHashMap<String, String>();
        places.put("Patient", patient);
        places.put("Reference", row.reference());
        places.put("Number", entries(document, "patient.identifiers", "value"));
        places.put("Telephone", text(document, "patient.phone"));
        places.put("Referrer", joined(document, ", ", "referrer.name", "referrer.organisation"));
        places.put(
                "Hospital",
                Stream.of(
                                entries(document, "imaging", "where"),
                                entries(document, "procedures", "where"),
                                text(document, "deferredElsewhere.where"))
                        .filter(words -> !words.isEmpty())
                        .collect(Collectors.joining(" · ")));
        places.put("Asked", text(document, "asked.reason"));
        places.put("Imaging", entries(document, "imaging", "findings"));
        places.put("Procedure", entries(document, "procedures", "reason"));
        places.put("Put off elsewhere", text(document, "deferredElsewhere.reason"));
        places.put("Referring letter", text(document, "letterText"));
        places.put("Our letter", row.letters());
        return places.entrySet().stream()
                .flatMap(place -> Extract.of(place.getKey(), place.getValue(), sought).stream())
                .limit(MOST_EXTRACTS)
                .toList();
    }

    private static String text(Draft document, String... paths) {
        return joined(document, " ", paths);
    }

    private static String joined(Draft document, String sign, String... paths) {
        return Stream.of(paths)
                .map(document::get)
                .flatMap(Optional::stream)
                .filter(JsonNode::isValueNode)
                .map(JsonNode::asString)
                .filter(words -> !words.isBlank())
                .collect(Collectors.joining(sign));
    }

    private static String entries(Draft document, String list, String field) {
        return Stream.iterate(0, i -> i + 1)
                .limit(document.sizeOf(list).orElse(0))
                .map(i -> text(document, list + "[" + i + "]." + field))
                .filter(words -> !words.isEmpty())
                .distinct()
                .collect(Collectors.joining(" · "));
    }
}
