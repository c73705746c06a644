package tallyback.web.lan;

import java.io.UncheckedIOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import tallyback.app.WrongUse;

/**
 * This machine in its network.
 *
 * @param names the names it is called by there; may be none
 * @param addresses those of local networks, IPv4 first
 */
record Machine(List<String> names, List<Address> addresses) {

  private static final String LABEL = "[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?";

  /**
   * An address.
   *
   * @param card the network card that has it
   */
  record Address(InetAddress address, String card) {

    @Override
    public String toString() {
      return LocalNets.written(address) + " (" + card + ")";
    }
  }

  Machine {
    names = List.copyOf(names);
    addresses = List.copyOf(addresses);
  }

  /** Looks at the machine as it is now. */
  static Machine read() {
    List<Address> addresses = new ArrayList<>();
    try {
      for (NetworkInterface card : Collections.list(NetworkInterface.getNetworkInterfaces())) {
        if (card.isUp() && !card.isLoopback()) {
          for (InetAddress each : Collections.list(card.getInetAddresses())) {
            // A link-local IPv6 address can't be written in a browser.
            if (LocalNets.hold(each)
                && (each instanceof Inet4Address || !each.isLinkLocalAddress())) {
              addresses.add(new Address(each, card.getName()));
            }
          }
        }
      }
    } catch (SocketException e) {
      throw new UncheckedIOException("the network cards can't be read", e);
    }
    addresses.sort(
        (one, other) ->
            Boolean.compare(
                other.address() instanceof Inet4Address, one.address() instanceof Inet4Address));
    return new Machine(namesOf(hostName()), addresses);
  }

  private static String hostName() {
    try {
      return InetAddress.getLocalHost().getHostName();
    } catch (UnknownHostException e) {
      // A machine that can't find itself has no name for others either.
      return "";
    }
  }

  /** A short name is found in a local network with .local behind it (RFC 6762). */
  static List<String> namesOf(String hostName) {
    String name = hostName.toLowerCase(Locale.ROOT);
    boolean usable =
        name.length() <= 240
            && name.matches(LABEL + "(\\." + LABEL + ")*")
            && !name.equals("localhost")
            && !name.startsWith("localhost.")
            && !name.matches("[0-9.]+");
    if (!usable) {
      return List.of();
    }
    return name.contains(".") ? List.of(name) : List.of(name, name + ".local");
  }

  /** The only address there is to choose. */
  InetAddress onlyAddress() {
    List<Address> four =
        addresses.stream().filter(each -> each.address() instanceof Inet4Address).toList();
    List<Address> choice = four.isEmpty() ? addresses : four;
    if (choice.isEmpty()) {
      throw new WrongUse(LanTexts.NO_NETWORK);
    }
    if (choice.size() > 1) {
      throw new WrongUse(LanTexts.severalAddresses(choice));
    }
    return choice.get(0).address();
  }

  /** The address that the user chose. */
  InetAddress address(String figures) {
    if (!figures.matches("[0-9.]+|[0-9a-fA-F:.]*:[0-9a-fA-F:.]*")) {
      throw new WrongUse(LanTexts.noAddress(figures));
    }
    InetAddress address;
    try {
      address = InetAddress.getByName(figures);
    } catch (UnknownHostException e) {
      throw new WrongUse(LanTexts.noAddress(figures));
    }
    if (!LocalNets.hold(address)) {
      throw new WrongUse(LanTexts.notLocal(figures));
    }
    if (!isHere(address)) {
      throw new WrongUse(LanTexts.notHere(figures, addresses));
    }
    return address;
  }

  /** Whether the machine has an address at this moment. */
  static boolean isHere(InetAddress address) {
    try {
      return address.isLoopbackAddress() || NetworkInterface.getByInetAddress(address) != null;
    } catch (SocketException e) {
      return false;
    }
  }
}
