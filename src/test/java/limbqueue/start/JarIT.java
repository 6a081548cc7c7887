package limbqueue.start;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;

class JarIT {

    /** Demo data, our test classes, and the libraries of tests. */
    private static final Pattern STRANGE =
            Pattern.compile(".*\\.referral\\.json|.*practice\\.json|.*/(testbed|planted)/.*"
                    + "|[^$]*(Test|IT)\\.class"
                    + "|BOOT-INF/lib/(junit|playwright|testcontainers|archunit|assertj|mockito|spring-boot-test).*");

    @Test
    void theJarHoldsTheApplicationAndNothingOfItsTestsOrDemo() throws IOException {
        try (var jar = new ZipFile(Run.jarFile().toFile())) {
            var names = jar.stream().map(ZipEntry::getName).toList();
            assertThat(names)
                    .contains(
                            "BOOT-INF/classes/limbqueue/start/Start.class",
                            "BOOT-INF/classes/db/migration/V1__access.sql",
                            "META-INF/resources/ui/limbqueue.css");
            assertThat(names.stream().filter(STRANGE.asMatchPredicate())).isEmpty();
        }
    }

    @Test
    void theJarIsTheSameWheneverItIsBuilt() throws IOException {
        try (var jar = new ZipFile(Run.jarFile().toFile())) {
            var own = jar.stream()
                    .filter(entry -> entry.getName().startsWith("BOOT-INF/classes/limbqueue/"))
                    .map(ZipEntry::getTimeLocal)
                    .distinct()
                    .toList();
            assertThat(own).as("times of our classes in the jar").hasSize(1);
        }
    }
}
