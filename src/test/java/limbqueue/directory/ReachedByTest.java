package limbqueue.directory;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReachedByTest {

    /** The first four are addresses of the examples of RFC 5322, appendix A. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "jdoe@machine.example",
                "mary@example.net",
                "john.q.public@example.com",
                "one@y.test",
                "o'neill+letters@sub-domain.example.org",
                "a@b.co"
            })
    void anAddressThatMailCarriesIsRight(String address) {
        assertThat(ReachedBy.wrongWithEmail(address)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            ''                               | is missing
            maud                             | needs a name, an @ and a domain
            @millbeck.example                | needs a name, an @ and a domain
            maud@                            | needs a name, an @ and a domain
            maud ferrier@millbeck.example    | before the @
            maud..ferrier@millbeck.example   | before the @
            .maud@millbeck.example           | before the @
            mäud@millbeck.example            | before the @
            maud@one@millbeck.example        | before the @
            maud@millbeck                    | has no dot
            maud@mill_beck.example           | “mill_beck”
            maud@-millbeck.example           | “-millbeck”
            maud@millbeck..example           | “”
            'maud@millbeck.example, x@y.org' | before the @
            """)
    void whatIsWrongWithAnAddressIsSaid(String address, String said) {
        assertThat(ReachedBy.wrongWithEmail(address))
                .hasValueSatisfying(why -> assertThat(why).contains(said));
    }

    /** At most 64 octets before the @ and 254 in all (RFC 5321, section 4.5.3.1). */
    @ParameterizedTest
    @CsvSource({"64, 100, true", "65, 100, false", "64, 254, true", "64, 255, false"})
    void anAddressHasALongestLength(int before, int whole, boolean right) {
        var domain = new StringBuilder("d.");
        while (domain.length() < whole - before - 1 - 61) {
            domain.append("x".repeat(59)).append('.');
        }
        domain.append("y".repeat(whole - before - 1 - domain.length()));
        var address = "a".repeat(before) + "@" + domain;
        assertThat(address).hasSize(whole);
        assertThat(ReachedBy.wrongWithEmail(address).isEmpty()).isEqualTo(right);
    }

    @ParameterizedTest
    @CsvSource({
        "0555 01 2201, 0555012201",
        "+44 (555) 01-3300, +44555013300",
        "0555/012.201, 0555012201",
    })
    void aFaxNumberIsDialledByItsDigits(String typed, String dialled) {
        assertThat(ReachedBy.wrongWithFax(typed)).isEmpty();
        assertThat(ReachedBy.dialled(typed)).isEqualTo(dialled);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "ask reception", "0555 01 2201 ext. 4", "1234", "+4455501330012345678", "55+5012201"})
    void whatCannotBeDialledIsSaid(String typed) {
        assertThat(ReachedBy.wrongWithFax(typed)).isPresent();
    }
}
