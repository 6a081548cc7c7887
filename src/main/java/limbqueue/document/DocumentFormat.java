package limbqueue.document;

import java.io.InputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limbqueue.triage.ReferralDocument;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Reads and writes referral documents in the public data format, version 1. */
public final class DocumentFormat {

    static final String MORE_AFTER_THE_END =
            "There is more after the end. Remove it, or put several referrals into one list in square brackets.";

    private DocumentFormat() {}

    /**
     * Makes ready, on another processor if there is one, what reading needs. Never needed; whoever wants the first
     * document soon calls it first.
     */
    public static void prepare() {
        Thread.ofPlatform().daemon().name("prepare").start(PublishedSchema::referral);
    }

    /**
     * Reads one referral.
     *
     * @param today dates of things past must not lie after this day
     */
    public static Reading read(JsonNode referral, LocalDate today) {
        return read(new JsonText.Value(referral, Map.of()), today);
    }

    /**
     * Reads one referral from JSON text. Text that is no JSON has one problem, which begins with line and column.
     *
     * @param today dates of things past must not lie after this day
     */
    public static Reading parse(String json, LocalDate today) {
        return parse(JsonText.parser(json), today);
    }

    /**
     * Reads one referral from JSON text in UTF-8, as {@link #parse(String, LocalDate)}. The stream is left open.
     *
     * @throws tools.jackson.core.exc.JacksonIOException if the stream cannot be read
     */
    public static Reading parse(InputStream json, LocalDate today) {
        return parse(JsonText.parser(json), today);
    }

    private static Reading parse(JsonParser parser, LocalDate today) {
        try {
            if (parser.nextToken() == null) {
                return unreadable("The document is empty.");
            }
            var value = JsonText.value(parser);
            if (parser.nextToken() != null) {
                return unreadable(JsonText.place(parser.currentTokenLocation()) + MORE_AFTER_THE_END);
            }
            return read(value, today);
        } catch (JacksonException broken) {
            return unreadable(JsonText.whatIsBroken(broken));
        }
    }

    /** A document of which nothing could be read. */
    static Reading unreadable(String text) {
        return new Reading(empty(), List.of(new Problem("", text)));
    }

    static Reading read(JsonText.Value value, LocalDate today) {
        var found = new LinkedHashMap<String, String>(PublishedSchema.referral().problemsOf(value.node()));
        found.putAll(value.repeated());
        DateRules.check(value.node(), today, found);
        var document = found.containsKey("")
                ? empty()
                : (ReferralDocument) RecordForm.of(ReferralDocument.class).read(value.node(), "", found.keySet());
        return new Reading(document, inOrder(value.node(), found));
    }

    /** The problems by the order in which their places stand in the document. */
    private static List<Problem> inOrder(JsonNode document, Map<String, String> found) {
        var problems = new ArrayList<Problem>(found.size());
        if (!found.isEmpty()) {
            collect(document, "", new LinkedHashMap<>(found), problems);
        }
        return problems;
    }

    private static void collect(JsonNode node, String path, Map<String, String> left, List<Problem> problems) {
        var text = left.remove(path);
        if (text != null) {
            problems.add(new Problem(path, text));
        }
        for (var field : node.properties()) {
            collect(field.getValue(), FieldPath.field(path, field.getKey()), left, problems);
        }
        if (node.isArray()) {
            for (var i = 0; i < node.size(); i++) {
                collect(node.get(i), FieldPath.entry(path, i), left, problems);
            }
        }
        if (path.isEmpty()) {
            left.forEach((elsewhere, words) -> problems.add(new Problem(elsewhere, words)));
        }
    }

    /** The document of which nothing is known. */
    public static ReferralDocument empty() {
        return (ReferralDocument) RecordForm.of(ReferralDocument.class).read(null, "", Set.of());
    }

    /**
     * {@code document} with one value in it otherwise, to see what would follow. The value is not held against the schema:
     * whoever asks offers answers that the schema permits.
     *
     * @param path the field, as {@code legs.left.abi} or {@code labs[0].value}
     * @param value the value as the format has it; null makes it unknown
     * @throws IllegalArgumentException if the format has no such single value, or the value is of another kind
     */
    public static ReferralDocument with(ReferralDocument document, String path, @Nullable JsonNode value) {
        try {
            return (ReferralDocument)
                    RecordForm.of(ReferralDocument.class).with(document, FieldPath.steps(path), value);
        } catch (IllegalArgumentException wrong) {
            throw new IllegalArgumentException(path + ": " + wrong.getMessage(), wrong);
        }
    }

    /** Writes {@code document} with its fields in the order of the format and unknown values left out. */
    public static JsonNode write(ReferralDocument document) {
        var object = RecordForm.of(ReferralDocument.class).write(document);
        leaveOutEmptyGroups(object);
        return object;
    }

    /** An entry of a list stays even when nothing is known of it: that there is one is known. */
    private static void leaveOutEmptyGroups(JsonNode node) {
        node.values().forEach(DocumentFormat::leaveOutEmptyGroups);
        if (node instanceof ObjectNode object) {
            object.removeIf(field -> field.isObject() && field.isEmpty());
        }
    }
}
