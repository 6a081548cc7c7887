package limbqueue.calendar;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.HexFormat;

/** Whom wrong addresses are counted against. */
final class NetworkAddress {

    /** Octets of the network in an address of version 6: the rest is the customer's to choose (RFC 4291, section 2.5.4). */
    private static final int NETWORK_OCTETS = 8;

    private NetworkAddress() {}

    /** The address itself; of one of version 6 its network of 64 bits, since each computer in it has addresses without end. */
    static String of(String address) {
        try {
            return InetAddress.ofLiteral(address) instanceof Inet6Address six
                    ? HexFormat.of().formatHex(Arrays.copyOf(six.getAddress(), NETWORK_OCTETS))
                    : address;
        } catch (IllegalArgumentException noAddress) {
            return address;
        }
    }
}
