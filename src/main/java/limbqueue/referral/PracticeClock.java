package limbqueue.referral;

import java.time.Clock;
import java.time.ZoneId;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The clock by which the practice works: this machine's, in this machine's time zone. */
@Configuration(proxyBeanMethods = false)
class PracticeClock {

    @Bean
    Clock clock() {
        return Clock.system(ZoneId.systemDefault());
    }
}
