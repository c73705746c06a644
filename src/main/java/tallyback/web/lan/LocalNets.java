package tallyback.web.lan;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.List;

/**
 * Addresses that nobody reaches over the Internet: the blocks that the IANA special-purpose address
 * registries (RFC 6890) call not globally reachable and that a machine can have. Stateless.
 */
final class LocalNets {

  /** A block of addresses in CIDR writing; the first {@code bits} of an address decide. */
  record Block(InetAddress base, int bits) {

    boolean holds(InetAddress address) {
      byte[] mine = base.getAddress();
      byte[] other = address.getAddress();
      if (mine.length != other.length) {
        return false;
      }
      byte[] mask = mask();
      for (int i = 0; i < mine.length; i++) {
        if ((mine[i] & mask[i]) != (other[i] & mask[i])) {
          return false;
        }
      }
      return true;
    }

    /** As many bytes as an address has, ones where the block is fixed. */
    byte[] mask() {
      byte[] mask = new byte[base.getAddress().length];
      for (int bit = 0; bit < bits; bit++) {
        mask[bit / 8] |= (byte) (0x80 >> (bit % 8));
      }
      return mask;
    }
  }

  private static final List<Block> BLOCKS =
      blocks(
          "10.0.0.0/8",
          "100.64.0.0/10",
          "127.0.0.0/8",
          "169.254.0.0/16",
          "172.16.0.0/12",
          "192.0.2.0/24",
          "192.168.0.0/16",
          "198.18.0.0/15",
          "198.51.100.0/24",
          "203.0.113.0/24",
          "::1/128",
          "fc00::/7",
          "fe80::/10");

  private LocalNets() {}

  private static List<Block> blocks(String... written) {
    List<Block> blocks = new ArrayList<>();
    for (String each : written) {
      int slash = each.indexOf('/');
      blocks.add(
          new Block(
              literal(each.substring(0, slash)), Integer.parseInt(each.substring(slash + 1))));
    }
    return List.copyOf(blocks);
  }

  /** An address written in figures; no name is ever looked up. */
  static InetAddress literal(String figures) {
    try {
      return InetAddress.getByName(figures);
    } catch (UnknownHostException e) {
      throw new IllegalArgumentException(figures, e);
    }
  }

  static List<Block> blocks() {
    return BLOCKS;
  }

  /** Whether an address is of a local network. */
  static boolean hold(InetAddress address) {
    return BLOCKS.stream().anyMatch(block -> block.holds(address));
  }

  /**
   * An address as browsers write it in a URL's host: an IPv6 address in brackets, with the longest
   * row of noughts left out (RFC 5952, 4).
   */
  static String host(InetAddress address) {
    return address instanceof Inet6Address ? "[" + written(address) + "]" : written(address);
  }

  /** An address as one writes it, without the name of a network card. */
  static String written(InetAddress address) {
    byte[] bytes = address.getAddress();
    if (bytes.length == 4) {
      return address.getHostAddress();
    }
    int[] groups = new int[8];
    for (int i = 0; i < groups.length; i++) {
      groups[i] = (bytes[2 * i] & 0xff) << 8 | (bytes[2 * i + 1] & 0xff);
    }
    int from = 0;
    int longest = 0;
    for (int i = 0; i < groups.length; i++) {
      int run = 0;
      while (i + run < groups.length && groups[i + run] == 0) {
        run++;
      }
      if (run > longest) {
        longest = run;
        from = i;
      }
    }
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < groups.length; i++) {
      if (longest > 1 && i == from) {
        text.append("::");
        i += longest - 1;
      } else {
        if (!text.isEmpty() && text.charAt(text.length() - 1) != ':') {
          text.append(':');
        }
        text.append(Integer.toHexString(groups[i]));
      }
    }
    return text.toString();
  }
}
