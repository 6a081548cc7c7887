package limbqueue.start;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import java.io.DataInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StartTest {

    @TempDir
    Path home;

    /** Class file version 61 is Java 17: The Java Virtual Machine Specification, table 4.1-A. */
    @Test
    void theFirstClassLoadsOnJava17() throws IOException {
        try (var file = new DataInputStream(Start.class.getResourceAsStream("Start.class"))) {
            assertThat(file.readInt()).isEqualTo(0xCAFEBABE);
            file.readUnsignedShort();
            assertThat(file.readUnsignedShort()).isEqualTo(61);
        }
    }

    @Test
    void theFirstClassNeedsNothingButTheJdk() {
        ArchRuleDefinition.classes()
                .that()
                .haveFullyQualifiedName(Start.class.getName())
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("java..", "limbqueue.start")
                .check(new ClassFileImporter()
                        .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                        .importPackages("limbqueue.start"));
    }

    @ParameterizedTest
    @CsvSource({"17.0.15, 17", "25, 25", "25.0.3, 25", "26-ea, 26", "1.8.0_402, 1"})
    void theVersionIsReadFromTheFolderOfAJava(String version, int feature) throws IOException {
        javaOf(version);
        assertThat(Start.featureOf(home)).isEqualTo(feature);
    }

    @Test
    void aFolderWithoutAJavaIsPassedOver() throws IOException {
        assertThat(Start.featureOf(home)).isZero();
        Files.writeString(home.resolve("release"), "JAVA_VERSION=\"25\"\n");
        assertThat(Start.featureOf(home)).isZero();
    }

    @Test
    void theJarAndTheBuildLookForAJavaInTheSameFolders() throws IOException {
        var script = Files.readString(Path.of("mvnw"));
        var list =
                script.substring(script.indexOf("for home in"), script.indexOf("; do", script.indexOf("for home in")));
        var folders = Arrays.stream(list.split("[\\s\\\\]+", -1))
                .map(word -> word.replace("\"${HOME:-}\"", "~"))
                .filter(word -> word.startsWith("/") || word.startsWith("~"))
                .toList();
        assertThat(folders).isEqualTo(Start.USUAL_FOLDERS);
    }

    private void javaOf(String version) throws IOException {
        var program = Files.createDirectories(home.resolve("bin")).resolve("java");
        Files.writeString(program, "");
        assertThat(program.toFile().setExecutable(true)).isTrue();
        Files.write(home.resolve("release"), List.of("IMPLEMENTOR=\"Somebody\"", "JAVA_VERSION=\"" + version + "\""));
    }

    @Test
    void manyReferralsAreWorthTheOptimisingCompiler(@TempDir Path folder) throws IOException {
        var few = Files.writeString(folder.resolve("few.referral.json"), "[]");
        assertThat(Start.muchToRead(new String[] {"triage", "--as-of", "2026-03-02", few.toString()}))
                .isFalse();
        Files.writeString(folder.resolve("many.referral.json"), "[" + " ".repeat(3_000_000) + "]");
        assertThat(Start.muchToRead(new String[] {"triage", folder.toString()})).isTrue();
        assertThat(Start.muchToRead(
                        new String[] {"triage", folder.resolve("none").toString()}))
                .isFalse();
    }

    @Test
    void triageOfManyReferralsIsWorthAnotherStartOfJava(@TempDir Path folder) throws IOException {
        var many = Files.writeString(folder.resolve("many.referral.json"), "[" + " ".repeat(3_000_000) + "]");
        var few = Files.writeString(folder.resolve("few.referral.json"), "[]");
        var triage = new String[] {"triage", many.toString()};
        assertThat(Start.worthAnotherStart(List.of("-Xmx96m", "-Duser.language=tr"), triage))
                .isTrue();
        assertThat(Start.worthAnotherStart(List.of(), new String[] {"triage", few.toString()}))
                .isFalse();
        assertThat(Start.worthAnotherStart(List.of(), new String[] {"plan", many.toString()}))
                .isFalse();
        assertThat(Start.worthAnotherStart(List.of("-XX:+UseG1GC"), triage)).isFalse();
        assertThat(Start.worthAnotherStart(List.of("-agentlib:jdwp=transport=dt_socket,address=5005"), triage))
                .isFalse();
    }

    @Test
    void optionsOfWhoeverStartsItAreKeptTo() {
        var triage = new String[] {"triage", "demo-referrals"};
        assertThat(Start.optionsFor(List.of("-Xmx96m"), triage))
                .containsExactly("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC");
        assertThat(Start.optionsFor(List.of("-XX:+UseParallelGC"), triage)).isEmpty();
        assertThat(Start.optionsFor(List.of(), new String[] {"--server.port=8081"}))
                .isEmpty();
    }
}
