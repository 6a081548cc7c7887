package limbqueue.testbed;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

@InBrowser
class VisitorIT {

    @Test
    void theCheckForAccessibilityFindsWhatIsPlanted(Visitor somebody) {
        somebody.open("sign-in");
        somebody.page().evaluate("""
                () => {
                  const field = document.createElement('input');
                  const faint = document.createElement('p');
                  faint.textContent = 'Hardly to be read';
                  faint.style.color = '#ddd';
                  faint.style.background = '#fff';
                  document.querySelector('main').append(field, faint);
                }""");
        assertThat(somebody.accessibilityViolations())
                .anyMatch(line -> line.startsWith("label:"))
                .anyMatch(line -> line.startsWith("color-contrast:"));
    }

    @Test
    void visitorsDoNotShareASession(Visitor one, Visitor other) {
        one.signIn("manager");
        other.open("people").page().waitForURL("**/sign-in");
    }
}
