package limbqueue.access;

import com.vaadin.flow.spring.security.VaadinSecurityConfigurer;
import java.time.Clock;
import limbqueue.access.jdbc.AccountStore;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.dao.DaoAuthenticationProvider;
import org.springframework.security.config.annotation.method.configuration.EnableMethodSecurity;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configuration.EnableWebSecurity;
import org.springframework.security.config.annotation.web.configurers.AuthorizeHttpRequestsConfigurer;
import org.springframework.security.core.userdetails.UsernameNotFoundException;
import org.springframework.security.crypto.factory.PasswordEncoderFactories;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.authentication.AnonymousAuthenticationFilter;

/** Sign-in, and the check of roles on every view and service. */
@Configuration(proxyBeanMethods = false)
@EnableWebSecurity
@EnableMethodSecurity(jsr250Enabled = true)
class SignInConfiguration {

    @Bean
    SecurityFilterChain securityFilterChain(HttpSecurity http, AccountStore accounts, CurrentPerson currentPerson) {
        // Without /ui/** the browser gets the sign-in page in place of the style sheets of the sign-in page.
        http.authorizeHttpRequests(requests ->
                requests.requestMatchers("/ui/**", "/actuator/health", "/error").permitAll());
        http.with(
                VaadinSecurityConfigurer.vaadin(),
                vaadin -> vaadin.loginView("/sign-in", "/sign-in")
                        // Signed in, an address that leads nowhere is answered by our own page in place of a bare
                        // refusal.
                        .anyRequest(AuthorizeHttpRequestsConfigurer.AuthorizedUrl::authenticated));
        http.addFilterBefore(new EndedSignIns(accounts, currentPerson), AnonymousAuthenticationFilter.class);
        return http.build();
    }

    @Bean
    AuthenticationProvider signIn(AccountStore accounts, PasswordEncoder passwordEncoder) {
        var passwords = new DaoAuthenticationProvider(name -> accounts.find(name.strip())
                .map(found -> new SignedIn(found.account(), found.passwordHash()))
                .orElseThrow(() -> new UsernameNotFoundException("nobody has this sign-in name")));
        passwords.setPasswordEncoder(passwordEncoder);
        return new ThrottledSignIn(passwords, new GuessThrottle(Clock.systemUTC()));
    }

    @Bean
    PasswordEncoder passwordEncoder() {
        return PasswordEncoderFactories.createDelegatingPasswordEncoder();
    }
}
