package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import com.vaadin.flow.component.Component;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.Test;

class StillTest {

    @Test
    void whatWasTypedStaysText() {
        var typed = "<img src=x onerror=alert(1)> \"R\" & 'L' </div><script>alert(2)</script>";
        var read = Jsoup.parseBodyFragment(html(Markup.div("lq-column", Markup.text("lq-quote", typed))));
        assertThat(read.select("script, img")).isEmpty();
        assertThat(read.select(".lq-quote").eachText()).containsExactly(typed);
    }

    @Test
    void attributesOfWhatIsWithinStayAndSoDoThoseOfThePart() {
        var within = Markup.text("lq-fact", "no rest pain");
        within.getElement().setAttribute("title", "\"denies\" <rest pain>");
        var part = Markup.div("lq-column lq-legs", within);
        var read = Jsoup.parseBodyFragment(html(part)).select("span");
        assertThat(read.eachAttr("title")).containsExactly("\"denies\" <rest pain>");
        assertThat(read.eachAttr("class")).containsExactly("lq-fact");
        assertThat(part.getClassNames()).containsExactlyInAnyOrder("lq-column", "lq-legs");
    }

    @Test
    void noSpaceComesInWhereNoneWas() {
        var part = Markup.div("lq-out", Markup.div("lq-in", Markup.text("lq-a", "ABI"), Markup.text("lq-b", "0.45")));
        assertThat(Jsoup.parseBodyFragment(html(part)).body().wholeText()).isEqualTo("ABI0.45");
    }

    private static String html(Component part) {
        return Still.of(part).getElement().getProperty("innerHTML");
    }
}
