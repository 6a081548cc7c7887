package limbqueue;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.modulith.core.ApplicationModules;
import org.springframework.modulith.core.Violations;

class HouseRulesTest {

    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("limbqueue");
    private static final JavaClasses PLANTED = new ClassFileImporter().importPackages("planted");

    static Stream<Arguments> rules() {
        return Stream.of(
                Arguments.of("the core is pure", HouseRules.theCoreIsPure(), "ClockReader"),
                Arguments.of("the planner is pure", HouseRules.thePlannerIsPure(), "PlannerOnSpring"),
                Arguments.of("the forecast is pure", HouseRules.theForecastIsPure(), "FortuneTeller"),
                Arguments.of(
                        "the forecast draws from its seed alone",
                        HouseRules.theForecastDrawsFromItsSeedAlone(),
                        "FortuneTeller"),
                Arguments.of("SQL is in jdbc packages", HouseRules.sqlIsInJdbcPackages(), "SqlInTheKitchen"),
                Arguments.of(
                        "components are in ui packages", HouseRules.componentsAreInUiPackages(), "ButtonInTheKitchen"),
                Arguments.of("views are nobody's business", HouseRules.viewsAreNobodysBusiness(), "PublicView"),
                Arguments.of("every view asks for a role", HouseRules.everyViewAsksForARole(), "OpenView"),
                Arguments.of(
                        "every service asks for a role", HouseRules.everyServiceAsksForARole(), "OpenService.open"),
                Arguments.of("the core reads no clock", HouseRules.theCoreReadsNoClock(), "ClockReader"),
                Arguments.of("names say something", HouseRules.namesSaySomething(), "KitchenManager"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("rules")
    void theHouseKeepsTheRule(String name, ArchRule rule, String planted) {
        rule.check(HOUSE);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("rules")
    void theRuleFiresWhereItIsBrokenOnPurpose(String name, ArchRule rule, String planted) {
        assertThatThrownBy(() -> rule.check(PLANTED))
                .isInstanceOf(AssertionError.class)
                .hasMessageContaining(planted);
    }

    @Test
    void aServiceMethodThatAsksForARoleIsNoViolation() {
        assertThatThrownBy(() -> HouseRules.everyServiceAsksForARole().check(PLANTED))
                .hasMessageNotContaining("OpenService.guarded");
    }

    @Test
    void theModulesKeepToWhatEachMayUse() {
        ApplicationModules.of(Application.class).verify();
    }

    @Test
    void aModuleThatReachesWhereItMayNotIsFound() {
        var planted = ApplicationModules.of("planted", location -> location.contains("/planted/"));
        assertThatThrownBy(planted::verify)
                .isInstanceOf(Violations.class)
                .hasMessageContaining("kitchen")
                .hasMessageContaining("planted.cellar.inner.Barrel");
    }

    /** Fails too when a test brings a package-info of its own, which would hide the module's from the checks above. */
    @Test
    void everyModuleSaysWhatItIsForAndWhatItMayUse() {
        var modules = ApplicationModules.of(Application.class).stream().toList();
        assertThat(modules)
                .hasSizeGreaterThan(7)
                .allSatisfy(module -> assertThat(module.getBasePackage()
                                .findAnnotation(org.springframework.modulith.ApplicationModule.class))
                        .as(module.getDisplayName())
                        .isPresent()
                        .get()
                        .satisfies(declared -> assertThat(declared.allowedDependencies())
                                .doesNotContain(org.springframework.modulith.ApplicationModule.OPEN_TOKEN)));
    }
}
