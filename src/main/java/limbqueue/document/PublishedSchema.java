package limbqueue.document;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.dialect.Dialect;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.keyword.NonValidationKeyword;
import com.networknt.schema.path.NodePath;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A published JSON Schema. Whether a document has the right form is asked of the schema library, unless a quick look sees
 * that it does; the words for what is wrong are ours, made of the titles, units and hints that stand in the schema beside
 * the limits.
 */
final class PublishedSchema {

    private static final class Referral {
        static final PublishedSchema SCHEMA = new PublishedSchema("referral.schema.json");
    }

    private static final class Policy {
        static final PublishedSchema SCHEMA = new PublishedSchema("policy.schema.json");
    }

    private static final class Sessions {
        static final PublishedSchema SCHEMA = new PublishedSchema("sessions.schema.json");
    }

    private final JsonNode root;
    private final QuickCheck quick;
    private @Nullable Schema library;

    private PublishedSchema(String name) {
        try (var in = Objects.requireNonNull(
                        PublishedSchema.class.getResourceAsStream(name), () -> name + " is not on the class path");
                var parser = JsonText.parser(in)) {
            parser.nextToken();
            root = JsonText.value(parser).node();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        quick = new QuickCheck(root);
    }

    static PublishedSchema referral() {
        return Referral.SCHEMA;
    }

    static PublishedSchema policy() {
        return Policy.SCHEMA;
    }

    static PublishedSchema sessions() {
        return Sessions.SCHEMA;
    }

    JsonNode root() {
        return root;
    }

    /** What is wrong with the form of {@code document}, one text a path. */
    Map<String, String> problemsOf(JsonNode document) {
        return quick.accepts(document) ? Map.of() : problemsFoundByTheLibrary(document);
    }

    /** As {@link #problemsOf}, without a look at whether there are any. */
    Map<String, String> problemsFoundByTheLibrary(JsonNode document) {
        var errors = new LinkedHashMap<String, Error>();
        for (var error : library().validate(document)) {
            var path = path(error);
            var earlier = errors.get(path);
            // A value of the wrong type usually breaks other rules too; its type is what must be told.
            if (earlier == null || error.getKeyword().equals("type")) {
                errors.put(path, error);
            }
        }
        var problems = new LinkedHashMap<String, String>();
        errors.forEach((path, error) -> problems.put(path, ProblemWords.of(error, part(error))));
        return problems;
    }

    /** The library's view of this schema, made when first a document needs it. */
    private synchronized Schema library() {
        var made = library;
        if (made == null) {
            made = Library.schema(root);
            library = made;
        }
        return made;
    }

    /** What is of the library alone, so that nothing of it is loaded until it is needed. */
    private static final class Library {
        /** Our own keywords, which limit nothing. */
        private static final List<NonValidationKeyword> OUR_ANNOTATIONS = Stream.of(
                        "x-unit",
                        "x-likelyFactors",
                        "x-likelyUnits",
                        "x-hintAbove",
                        "x-hintBelow",
                        "x-form",
                        "x-earliest",
                        "x-latestDaysFromToday")
                .map(NonValidationKeyword::new)
                .toList();

        static Schema schema(JsonNode schema) {
            var config = SchemaRegistryConfig.builder()
                    .formatAssertionsEnabled(true)
                    .preloadSchema(false)
                    // The library's own texts are never shown, so its message bundles are never loaded.
                    .messageSource((key, fallback, locale, arguments) -> key)
                    .build();
            var dialect = Dialect.builder(Dialects.getDraft202012())
                    .keywords(OUR_ANNOTATIONS)
                    .build();
            return SchemaRegistry.withDefaultDialect(dialect, registry -> registry.schemaRegistryConfig(config))
                    .getSchema(SchemaLocation.of(schema.get("$id").stringValue()), schema);
        }
    }

    private static String path(Error error) {
        var path = "";
        NodePath location = error.getInstanceLocation();
        for (var i = 0; i < location.getNameCount(); i++) {
            path = location.getElement(i) instanceof Integer index
                    ? FieldPath.entry(path, index)
                    : FieldPath.field(path, location.getName(i));
        }
        var name = error.getProperty();
        return name == null ? path : FieldPath.field(path, name);
    }

    /** The part of the schema to which the keyword belongs that {@code error} breaks. */
    private JsonNode part(Error error) {
        var part = root;
        NodePath keyword = error.getSchemaLocation().getFragment();
        for (var i = 0; i < keyword.getNameCount() - 1; i++) {
            part = keyword.getElement(i) instanceof Integer index ? part.get(index) : part.get(keyword.getName(i));
        }
        return part;
    }

    /** The part of the schema for field {@code name} of {@code object}, itself a part of the schema. */
    Optional<JsonNode> field(JsonNode object, String name) {
        return Optional.ofNullable(object.get("properties"))
                .map(properties -> properties.get(name))
                .map(this::resolved);
    }

    /** The part of the schema for the entries of {@code list}, itself a part of the schema. */
    Optional<JsonNode> entry(JsonNode list) {
        return Optional.ofNullable(list.get("items")).map(this::resolved);
    }

    private JsonNode resolved(JsonNode part) {
        var reference = part.get("$ref");
        return reference == null ? part : root.at(reference.stringValue().substring(1));
    }
}
