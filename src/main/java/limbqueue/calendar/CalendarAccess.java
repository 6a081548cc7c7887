package limbqueue.calendar;

import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpMethod;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;

/**
 * Opens calendars to whoever has their address, for reading, without a session or a cookie, and closes everything else under
 * the same path. What is answered is kept by no cache and guessed at by no browser (the security headers that Spring sets).
 */
@Configuration(proxyBeanMethods = false)
class CalendarAccess {

    @Bean
    @Order(Ordered.HIGHEST_PRECEDENCE)
    SecurityFilterChain calendarFilterChain(HttpSecurity http) {
        http.securityMatcher("/calendar", "/calendar/**");
        http.authorizeHttpRequests(requests -> requests.requestMatchers(HttpMethod.GET, "/calendar/*.ics")
                .permitAll()
                .requestMatchers(HttpMethod.HEAD, "/calendar/*.ics")
                .permitAll()
                .anyRequest()
                .denyAll());
        http.sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS));
        http.requestCache(AbstractHttpConfigurer::disable);
        http.headers(headers -> headers.referrerPolicy(policy -> policy.policy(ReferrerPolicy.NO_REFERRER)));
        return http.build();
    }
}
