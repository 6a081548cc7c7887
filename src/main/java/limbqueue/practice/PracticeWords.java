package limbqueue.practice;

import limbqueue.access.SignInText;
import limbqueue.practice.jdbc.PracticeStore;
import limbqueue.practice.jdbc.RuleBookStore;
import limbqueue.shell.PracticeName;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.RuleBook;
import org.springframework.boot.ApplicationRunner;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What the lower modules show but only the practice knows, and the rule book it works by. */
@Configuration(proxyBeanMethods = false)
class PracticeWords {

    @Bean
    PracticeName practiceName(PracticeStore store) {
        return () -> store.get().name();
    }

    @Bean
    RuleBooks ruleBooks(RuleBookStore store) {
        return new RuleBooks(store, RuleBook.shipped());
    }

    @Bean
    ApplicationRunner ruleBookKept(RuleBooks books) {
        return arguments -> books.keep();
    }

    @Bean
    SignInText signInText() {
        return new SignInText(TriageResult.NOTICE);
    }
}
