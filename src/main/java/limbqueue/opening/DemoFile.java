package limbqueue.opening;

import java.nio.file.Path;
import java.util.List;
import limbqueue.access.Role;
import tools.jackson.databind.json.JsonMapper;

/**
 * The demo's practice and the people who sign in to it, as {@code practice.json} gives them.
 *
 * @param practice the letterhead
 * @param people who may sign in; one of each role at least
 */
record DemoFile(Letterhead practice, List<DemoPerson> people) {

    record Letterhead(
            String name,
            List<String> addressLines,
            String phone,
            String fax,
            String email,
            String urgentPhone,
            String signatory) {}

    record DemoPerson(String signInName, String displayName, Role role, String password) {}

    static Path in(Path folder) {
        return folder.resolve("practice.json");
    }

    static DemoFile read(Path folder) {
        return JsonMapper.shared().readValue(in(folder), DemoFile.class);
    }

    /** The sign-in name of the first person of {@code role}. */
    String first(Role role) {
        return people.stream()
                .filter(person -> person.role() == role)
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("practice.json names no " + role.word()))
                .signInName();
    }
}
