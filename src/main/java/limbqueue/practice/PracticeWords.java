package limbqueue.practice;

import limbqueue.access.SignInText;
import limbqueue.practice.jdbc.PracticeStore;
import limbqueue.shell.PracticeName;
import limbqueue.triage.TriageResult;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What the lower modules show but only the practice knows. */
@Configuration(proxyBeanMethods = false)
class PracticeWords {

    @Bean
    PracticeName practiceName(PracticeStore store) {
        return () -> store.get().name();
    }

    @Bean
    SignInText signInText() {
        return new SignInText(TriageResult.NOTICE);
    }
}
