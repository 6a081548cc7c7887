package limbqueue.letter;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;

/** Makes documents for tests: nothing known, then one fact after the other by its path. */
final class Facts {

    private Facts() {}

    static ReferralDocument nothingKnown() {
        return unknown(ReferralDocument.class);
    }

    /** {@code document} with {@code value} known at {@code path}, as {@code patient.given}. */
    static ReferralDocument with(ReferralDocument document, String path, Object value) {
        return ReferralDocument.class.cast(set(document, path, value));
    }

    private static Object set(Object record, String path, Object value) {
        var dot = path.indexOf('.');
        var name = dot < 0 ? path : path.substring(0, dot);
        try {
            var components = record.getClass().getRecordComponents();
            var values = new Object[components.length];
            for (var i = 0; i < components.length; i++) {
                var held = components[i].getAccessor().invoke(record);
                values[i] = !components[i].getName().equals(name)
                        ? held
                        : dot < 0 ? Optional.of(value) : set(held, path.substring(dot + 1), value);
            }
            return make(record.getClass(), components, values);
        } catch (ReflectiveOperationException broken) {
            throw new IllegalStateException(path, broken);
        }
    }

    private static <R> R unknown(Class<R> type) {
        var components = type.getRecordComponents();
        try {
            return type.cast(make(
                    type,
                    components,
                    Arrays.stream(components)
                            .map(RecordComponent::getType)
                            .map(part -> part == Optional.class ? Optional.empty() : unknown(part))
                            .toArray()));
        } catch (ReflectiveOperationException broken) {
            throw new IllegalStateException(type.getName(), broken);
        }
    }

    private static Object make(Class<?> type, RecordComponent[] components, Object[] values)
            throws ReflectiveOperationException {
        var constructor = type.getDeclaredConstructor(
                Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new));
        return constructor.newInstance(values);
    }
}
