package limbqueue.access.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.TestDatabase;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;

@InBrowser
class SignInIT {

    @Test
    void the_manager_signs_in_and_arrives_at_people(Visitor manager) {
        manager.signIn("manager");
        assertThat(manager.place()).isEqualTo("people");
        assertThat(manager.heading("People").isVisible()).isTrue();
        manager.picture(Path.of("target/pictures/people.png"), 1440);
        manager.picture(Path.of("target/pictures/people-1024.png"), 1024);
        manager.open("practice").picture(Path.of("target/pictures/practice.png"), 1440);
        manager.picture(Path.of("target/pictures/practice-1024.png"), 1024);
        manager.open("activity").picture(Path.of("target/pictures/activity.png"), 1440);
        manager.open("password").picture(Path.of("target/pictures/password.png"), 1440);
        manager.open("nowhere").picture(Path.of("target/pictures/nowhere.png"), 1440);
    }

    @Test
    void the_sign_in_page_says_what_this_is_and_who_decides(Visitor somebody) {
        somebody.open("sign-in");
        somebody.picture(Path.of("target/pictures/sign-in.png"), 1440);
        assertThat(somebody.page().textContent("main")).contains(TriageResult.NOTICE);
        assertThat(somebody.page().title()).isEqualTo("Sign in · LimbQueue");
        assertThat(somebody.page().getAttribute("html", "lang")).isEqualTo("en-GB");
    }

    @Test
    void a_wrong_password_is_told_in_words(Visitor somebody) {
        somebody.signInExpectingRefusal("manager", "not the password");
        assertThat(somebody.page().textContent("[role=alert]")).contains("don't go together");
        somebody.picture(Path.of("target/pictures/sign-in-wrong.png"), 1024);
        assertThat(TestDatabase.PASSWORD).isNotBlank();
    }
}
