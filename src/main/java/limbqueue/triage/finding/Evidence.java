package limbqueue.triage.finding;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/** Paths of the fields that something rests on, each once, in the order of looking. */
public final class Evidence {

    private final List<String> paths = new ArrayList<>(4);

    public Evidence add(String path) {
        if (!paths.contains(path)) {
            paths.add(path);
        }
        return this;
    }

    public Evidence addAll(Collection<String> more) {
        more.forEach(this::add);
        return this;
    }

    /** The field at {@code path}, if {@code holds}. */
    public Evidence when(boolean holds, String path) {
        return holds ? add(path) : this;
    }

    /** The field at {@code path}, if its answer is yes. */
    public Evidence when(Optional<Boolean> answer, String path) {
        return when(answer.orElse(false), path);
    }

    /** {@code field} of the entries of the list {@code name} of which {@code condition} holds, as {@code labs[1].value}. */
    public <T> Evidence entries(String name, Optional<List<T>> list, Predicate<T> condition, String field) {
        var entries = list.orElse(List.of());
        for (var i = 0; i < entries.size(); i++) {
            if (condition.test(entries.get(i))) {
                add(name + "[" + i + "]." + field);
            }
        }
        return this;
    }

    public boolean isEmpty() {
        return paths.isEmpty();
    }

    public List<String> paths() {
        return List.copyOf(paths);
    }
}
