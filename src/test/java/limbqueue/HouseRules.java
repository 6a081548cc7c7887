package limbqueue;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.simpleName;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import com.vaadin.flow.component.HasElement;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.auth.AnonymousAllowed;
import jakarta.annotation.security.RolesAllowed;
import java.util.regex.Pattern;
import org.springframework.modulith.ApplicationModule;
import org.springframework.modulith.NamedInterface;
import org.springframework.stereotype.Service;

/** What holds for every class of the house, as rules a machine checks. */
final class HouseRules {

    private HouseRules() {}

    /** The core is a pure function: it sees the JDK, JSpecify, and itself. */
    static ArchRule theCoreIsPure() {
        return classes()
                .that()
                .resideInAPackage("..triage..")
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage("java..", "org.jspecify..", "..triage..")
                        // The sentence of purpose in package-info.java, and which rooms other modules may see.
                        .or(nameMatching(Pattern.quote(ApplicationModule.class.getName()) + "(\\$Type)?"))
                        .or(nameMatching(Pattern.quote(NamedInterface.class.getName()))));
    }

    /** The planner sees the model it plans, the solver, the JDK and JSpecify. */
    static ArchRule thePlannerIsPure() {
        return classes()
                .that()
                .resideInAPackage("..booking.solver..")
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage(
                        "java..", "org.jspecify..", "ai.timefold.solver..", "..booking..", "..triage.."));
    }

    /** The forecast is a pure function too: of distributions and of random numbers that follow from a seed. */
    static ArchRule theForecastIsPure() {
        return classes()
                .that()
                .resideInAPackage("..forecast..")
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage(
                                "java..",
                                "org.jspecify..",
                                "org.apache.commons.rng..",
                                "org.apache.commons.statistics.distribution..",
                                "..triage..",
                                "..forecast..")
                        .or(nameMatching(Pattern.quote(ApplicationModule.class.getName()) + "(\\$Type)?")));
    }

    static ArchRule theCoreReadsNoClock() {
        return noClasses()
                .that()
                .resideInAnyPackage("..triage..", "..forecast..")
                .should()
                .callMethodWhere(DescribedPredicate.describe(
                        "it reads a clock", call -> call.getTarget().getName().equals("now")));
    }

    /** The same seed, the same forecast: no random numbers but those of a seed. */
    static ArchRule theForecastDrawsFromItsSeedAlone() {
        return noClasses()
                .that()
                .resideInAPackage("..forecast..")
                .should()
                .dependOnClassesThat(resideInAnyPackage("java.util.random..", "java.security.."))
                .orShould()
                .dependOnClassesThat(nameMatching("java\\.util\\.(Random|SplittableRandom|UUID|concurrent\\..*Random)"))
                .orShould()
                .callMethod(Math.class, "random");
    }

    static ArchRule sqlIsInJdbcPackages() {
        return noClasses()
                .that()
                // The module database starts the server, and so speaks to it before there is anything of ours in it.
                .resideOutsideOfPackages("..jdbc..", "..database..")
                .should()
                .dependOnClassesThat(resideInAnyPackage(
                        "org.springframework.jdbc..", "java.sql..", "javax.sql..", "org.postgresql.."));
    }

    static ArchRule componentsAreInUiPackages() {
        return noClasses()
                .that()
                .resideOutsideOfPackages("..ui..", "..shell..")
                // The page that holds every page, and the adapter between Vaadin and Spring Security.
                .and()
                .doNotHaveFullyQualifiedName("limbqueue.Application")
                .and()
                .doNotHaveFullyQualifiedName("limbqueue.access.SignInConfiguration")
                .should()
                .dependOnClassesThat(resideInAnyPackage("com.vaadin.."));
    }

    static ArchRule viewsAreNobodysBusiness() {
        return classes().that().areAnnotatedWith(Route.class).should().notBePublic();
    }

    static ArchRule everyViewAsksForARole() {
        return classes()
                .that()
                .areAnnotatedWith(Route.class)
                .and()
                .areAssignableTo(HasElement.class)
                .and(DescribedPredicate.not(simpleName("SignInView")))
                .should()
                .beAnnotatedWith(RolesAllowed.class)
                .andShould()
                .notBeAnnotatedWith(AnonymousAllowed.class);
    }

    static ArchRule everyServiceAsksForARole() {
        return methods()
                .that()
                .areDeclaredInClassesThat()
                .areAnnotatedWith(Service.class)
                .and()
                .arePublic()
                .and()
                .areNotStatic()
                .should(askForARole());
    }

    static ArchRule namesSaySomething() {
        return noClasses()
                .should()
                .haveNameMatching(".*\\.\\w*(Util|Utils|Helper|Manager|Impl|Base|Dto)")
                .orShould()
                .resideInAPackage("..common..");
    }

    private static ArchCondition<JavaMethod> askForARole() {
        return new ArchCondition<>("ask for a role, themselves or by their class") {
            @Override
            public void check(JavaMethod method, ConditionEvents events) {
                var asks = method.isAnnotatedWith(RolesAllowed.class) || asksAsAWhole(method.getOwner());
                events.add(new SimpleConditionEvent(method, asks, method.getFullName() + " asks for no role"));
            }

            private boolean asksAsAWhole(JavaClass service) {
                return service.isAnnotatedWith(RolesAllowed.class);
            }
        };
    }
}
