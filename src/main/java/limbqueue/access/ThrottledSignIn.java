package limbqueue.access;

import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;

/** Checks a password, unless its name has to wait after too many wrong ones. */
final class ThrottledSignIn implements AuthenticationProvider {

    private final AuthenticationProvider passwords;
    private final GuessThrottle throttle;

    ThrottledSignIn(AuthenticationProvider passwords, GuessThrottle throttle) {
        this.passwords = passwords;
        this.throttle = throttle;
    }

    @Override
    public Authentication authenticate(Authentication attempt) {
        var name = attempt.getName();
        throttle.wait(name).ifPresent(left -> {
            throw new LockedException("Too many wrong passwords for this name. Wait "
                    + (left.toMinutes() >= 1 ? left.toMinutes() + 1 + " minutes" : left.toSeconds() + 1 + " seconds")
                    + ", then try again.");
        });
        try {
            var authenticated = passwords.authenticate(attempt);
            if (authenticated == null) {
                throw new BadCredentialsException("no password was given");
            }
            throttle.succeeded(name);
            return authenticated;
        } catch (BadCredentialsException wrong) {
            throttle.failed(name);
            throw wrong;
        }
    }

    @Override
    public boolean supports(Class<?> type) {
        return UsernamePasswordAuthenticationToken.class.isAssignableFrom(type);
    }
}
