package limbqueue.referral.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Referrals;
import limbqueue.referral.ui.FieldKind.Amount;
import limbqueue.referral.ui.FieldKind.Day;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.FieldKind.Text;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;

/** What nobody should type, in every field of the form that takes text: shown as text, kept, and told where it is too much. */
@InBrowser
class BadInputIT {

    private static final String SCRIPT =
            "<script>window.planted = 1</script><img src=\"x\" onerror=\"window.planted = 1\">${7*7}';--";

    enum Odd {
        EMOJI("\uD83E\uDDB5\uD83C\uDFFD Zo\u00eb \u2764\uFE0F"),
        RIGHT_TO_LEFT("\u0645\u062d\u0645\u062f \u05d0\u05d1\u05d2\u202E"),
        SCRIPTED(SCRIPT),
        LONG("x".repeat(10_000)),
        CONTROLS("Thorn\u0000bury\u0007\u001B[2J");

        private final String typed;

        Odd(String typed) {
            this.typed = typed;
        }

        /** What is kept: a sign that can be seen stands for what cannot. */
        String kept() {
            return this == CONTROLS ? "Thorn\uFFFDbury\uFFFD\uFFFD[2J" : typed;
        }
    }

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @ParameterizedTest
    @EnumSource
    void everyFieldThatTakesTextShowsAndKeepsIt(Odd odd, Visitor coordinator) {
        var staff = new Staff(actingAs);
        var entered = staff.as("coordinator", () -> referrals.enter(withAnEntryInEachList()));
        coordinator.signIn("coordinator").open("referrals/" + entered.id() + "/edit");
        var page = coordinator.page();
        var paths = textPaths();
        assertThat(paths).hasSizeGreaterThan(70);
        page.evaluate("""
                ([paths, typed]) => {
                  for (const path of paths) {
                    const field = document.querySelector(`[data-path="${path}"]`);
                    if (!field) {
                      throw new Error("no field " + path);
                    }
                    field.value = typed;
                    field.dispatchEvent(new Event("input", { bubbles: true }));
                  }
                }""", List.of(paths, odd.typed));
        page.waitForTimeout(LineField.SETTLED_AFTER_MS + 1500);
        coordinator.rest();
        assertThat(page.locator(".lq-save-line")).containsText("Saved ");

        coordinator.open(coordinator.place());
        var shown = new TreeMap<String, String>();
        for (var path : paths) {
            shown.put(path, page.locator("[data-path='" + path + "']").inputValue());
        }
        assertThat(shown).isEqualTo(new TreeMap<>(all(paths, odd.kept())));
        var stored = Draft.of(
                staff.as("coordinator", () -> referrals.get(entered.id())).document());
        for (var path : paths) {
            assertThat(stored.get(path).orElseThrow().stringValue()).as(path).isEqualTo(odd.kept());
        }

        assertThat(page.evaluate("() => window.planted")).isNull();
        // A name that is too long counts as not known until it is mended.
        assertThat(page.locator("h1"))
                .containsText(odd == Odd.LONG ? "New referral" : odd.kept().substring(0, 5));
        for (var limit : LIMITS.entrySet()) {
            var told = page.locator("[id='" + FieldCell.idOf(limit.getKey()) + "-told']");
            if (odd.kept().length() > limit.getValue()) {
                assertThat(told)
                        .containsText("has " + odd.kept().length() + " characters, and at most " + limit.getValue()
                                + " are kept");
            } else {
                assertThat(told).not().containsText("are kept");
            }
        }
        assertThat(page.getByText("incident number")).hasCount(0);
        coordinator.open("referrals");
        assertThat(page.evaluate("() => window.planted")).isNull();
        assertThat(page.locator("vaadin-grid")).isVisible();
    }

    /** How many characters are kept, from the published schema, where that is less than was typed. */
    private static final Map<String, Integer> LIMITS = Map.ofEntries(
            entry("patient.family", 200),
            entry("patient.given", 200),
            entry("patient.phone", 200),
            entry("patient.address", 2000),
            entry("patient.identifiers[0].system", 200),
            entry("patient.identifiers[0].value", 200),
            entry("referrer.name", 200),
            entry("referrer.organisation", 200),
            entry("referrer.address", 2000),
            entry("referrer.phone", 200),
            entry("referrer.fax", 200),
            entry("referrer.email", 200),
            entry("imaging[0].where", 200),
            entry("procedures[0].where", 200),
            entry("procedures[0].accessSite", 200),
            entry("deferredElsewhere.where", 200),
            entry("medicines[0].name", 200),
            entry("medicines[0].dose", 200),
            entry("allergies[0].to", 200),
            entry("labs[0].unit", 40));

    private static Map<String, String> all(List<String> paths, String value) {
        return paths.stream().collect(Collectors.toMap(path -> path, _ -> value));
    }

    private static List<String> textPaths() {
        return ReferralFields.all().stream()
                .flatMap(field -> field.kind() instanceof Entries entries
                        ? entries.fields().stream()
                                .filter(BadInputIT::takesText)
                                .map(inner -> field.path() + "[0]." + inner.path())
                        : takesText(field)
                                ? field.paired()
                                        ? Stream.of("left", "right")
                                                .map(side -> field.path().replace(FormField.SIDE, side))
                                        : Stream.of(field.path())
                                : Stream.empty())
                .toList();
    }

    private static boolean takesText(FormField field) {
        return field.kind() instanceof Text || field.kind() instanceof Amount || field.kind() instanceof Day;
    }

    private static String withAnEntryInEachList() {
        var draft = Draft.empty();
        for (var field : ReferralFields.all()) {
            if (field.kind() instanceof Entries entries) {
                var first = field.path() + "[0]." + entries.fields().getFirst().path();
                draft.set(first, "");
                draft.clear(first);
            }
        }
        return draft.toJson();
    }
}
