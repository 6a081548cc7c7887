package limbqueue.shell;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.regex.Pattern;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.boot.test.web.server.LocalServerPort;

@InBrowser
@ExtendWith(OutputCaptureExtension.class)
class ErrorPagesIT {

    private static final Pattern INCIDENT = Pattern.compile("incident number (\\d{8})");

    @LocalServerPort
    private int port;

    @Test
    void anAddressThatLeadsNowhereIsToldInPlainWords(Visitor manager) {
        manager.signIn("manager").open("no/such/place");
        assertThat(manager.heading("There is nothing at this address")).isVisible();
        assertThat(manager.page().content()).doesNotContain("Exception");
        assertThat(manager.accessibilityViolations()).isEmpty();
        manager.picture(Path.of("target/pictures/nowhere.png"), 1440);
    }

    @Test
    void aPageThatFailsShowsANumberAndTheLogTheReason(Visitor manager, CapturedOutput output) {
        manager.signIn("manager").open("failing/now");
        assertThat(manager.heading("This page could not be opened")).isVisible();
        tellsANumberThatTheLogHas(manager, output);
    }

    @Test
    void aButtonThatFailsShowsANumberAndTheLogTheReason(Visitor manager, CapturedOutput output) {
        manager.signIn("manager").open("failing").button("Fail").click();
        assertThat(manager.heading("That did not work")).isVisible();
        tellsANumberThatTheLogHas(manager, output);
    }

    private static void tellsANumberThatTheLogHas(Visitor manager, CapturedOutput output) {
        var number = INCIDENT.matcher(manager.page().locator("body").innerText());
        assertThat(number.find()).isTrue();
        assertThat(output.getAll()).contains("Incident " + number.group(1)).contains(FailingView.SECRET);
        assertThat(manager.page().content()).doesNotContain(FailingView.SECRET).doesNotContain("IllegalState");
    }

    @Test
    void healthIsOpenAndSaysNoMoreThanItsStatus() throws Exception {
        var answer = get("actuator/health");
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body())
                .contains("\"status\":\"UP\"")
                .doesNotContain("components")
                .doesNotContain("database");
    }

    @ParameterizedTest
    @ValueSource(strings = {"actuator", "actuator/env", "actuator/beans", "actuator/metrics", "actuator/loggers"})
    void nothingElseOfTheInsideIsOpen(String path) throws Exception {
        assertThat(get(path).statusCode()).isNotEqualTo(200);
    }

    private HttpResponse<String> get(String path) throws Exception {
        try (var client = HttpClient.newHttpClient()) {
            return client.send(
                    HttpRequest.newBuilder(URI.create("http://localhost:" + port + "/" + path))
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
        }
    }
}
