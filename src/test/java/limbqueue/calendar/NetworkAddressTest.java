package limbqueue.calendar;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Addresses are those that RFC 5737 and RFC 3849 set aside for examples. */
class NetworkAddressTest {

    @Test
    void eachAddressOfVersion4StandsForItself() {
        assertThat(NetworkAddress.of("192.0.2.17"))
                .isEqualTo("192.0.2.17")
                .isNotEqualTo(NetworkAddress.of("192.0.2.18"));
    }

    @Test
    void addressesOfVersion6AreOneWithinTheirNetwork() {
        assertThat(NetworkAddress.of("2001:db8:0:1::17"))
                .isEqualTo(NetworkAddress.of("2001:db8:0:1:ffff::1"))
                .isNotEqualTo(NetworkAddress.of("2001:db8:0:2::17"));
    }

    @Test
    void whatIsNoAddressStandsForItself() {
        assertThat(NetworkAddress.of("unknown")).isEqualTo("unknown");
    }
}
