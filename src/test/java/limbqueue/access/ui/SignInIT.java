package limbqueue.access.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@InBrowser
class SignInIT {

    @ParameterizedTest
    @CsvSource({"coordinator, work, Wren Halloway", "physician, queue, Dr Imogen Tarrant", "manager, people, Osric Pell"
    })
    void eachRoleArrivesWhereItsWorkBegins(String name, String place, String shown, Visitor person) {
        person.signIn(name);
        assertThat(person.place()).isEqualTo(place);
        assertThat(person.page().textContent("header")).contains(shown).contains(name);
    }

    @Test
    void theSignInPageSaysWhatThisIsAndWhoDecides(Visitor somebody) {
        somebody.open("sign-in");
        assertThat(somebody.page().textContent("main"))
                .contains("Every referral for a blocked leg artery")
                .contains(TriageResult.NOTICE);
        assertThat(somebody.page().title()).isEqualTo("Sign in · LimbQueue");
        assertThat(somebody.page().getAttribute("html", "lang")).isEqualTo("en-GB");
        assertThat(somebody.accessibilityViolations()).isEmpty();
        somebody.picture(Path.of("target/pictures/sign-in.png"), 1440);
    }

    @Test
    void aWrongPasswordIsToldInWords(Visitor somebody) {
        somebody.signInExpectingRefusal("manager", "not the password");
        assertThat(somebody.page().textContent("[role=alert]")).contains("don't go together");
        assertThat(somebody.accessibilityViolations()).isEmpty();
        somebody.picture(Path.of("target/pictures/sign-in-wrong.png"), 1024);
    }

    @Test
    void aNameThatNobodyHasIsToldInTheSameWords(Visitor somebody) {
        somebody.signInExpectingRefusal("nobody-at-all", "not the password");
        assertThat(somebody.page().textContent("[role=alert]")).contains("don't go together");
    }

    @Test
    void tooManyWrongPasswordsMakeANameWait(Visitor somebody) {
        for (var attempt = 0; attempt < 5; attempt++) {
            somebody.signInExpectingRefusal("guessed-name", "guess " + attempt);
        }
        somebody.signInExpectingRefusal("guessed-name", "one more");
        assertThat(somebody.page().textContent("[role=alert]"))
                .contains("Too many wrong passwords")
                .contains("Wait");
    }

    @Test
    void whoeverWantedAPageGetsItAfterSigningIn(Visitor manager) {
        manager.open("practice").page().waitForURL("**/sign-in");
        manager.signInHere("manager");
        assertThat(manager.place()).startsWith("practice");
    }

    @Test
    void signingOutEndsTheSession(Visitor manager) {
        manager.signIn("manager");
        manager.button("Sign out").click();
        manager.page().waitForURL("**/sign-in");
        manager.open("people").page().waitForURL("**/sign-in");
    }
}
