package tallyback.web.lan;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** What is said about phones in the network. */
final class LanTexts {

  static final String NO_NETWORK =
      "--lan: this machine is in no local network; connect it to the shed's Wi-Fi or cable first";
  static final String TOO_MANY_DEVICES =
      "too many devices are paired; take one away with 'serve --forget DEVICE' ('serve --devices'"
          + " lists them)";

  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private LanTexts() {}

  static String severalAddresses(List<Machine.Address> addresses) {
    return "--lan: this machine is in several networks; name its address in the one that the phone"
        + " is in, with --address: "
        + listed(addresses);
  }

  static String noAddress(String figures) {
    return "--address "
        + figures
        + ": expected an address of this machine in figures, such as 192.168.1.20";
  }

  static String notLocal(String figures) {
    return "--address "
        + figures
        + ": that address can be reached from the Internet; --lan opens the page to a local network"
        + " only";
  }

  static String notHere(String figures, List<Machine.Address> addresses) {
    return "--address "
        + figures
        + ": this machine doesn't have it; "
        + (addresses.isEmpty() ? "it is in no local network" : "it has " + listed(addresses));
  }

  private static String listed(List<Machine.Address> addresses) {
    return String.join(", ", addresses.stream().map(Machine.Address::toString).toList());
  }

  static String damaged(Path file, Path folder) {
    return file
        + ": is missing or not as Tallyback wrote it; put it back, or move the folder "
        + folder
        + " away: then all is made anew, and each phone needs the new certificate and a new code";
  }

  static String fileFailed(Path file, String what, IOException cause) {
    return file + ": " + what + " (" + cause.getMessage() + "); look at its folder and the disk";
  }

  static String authorityIsOver(Path folder) {
    return "the certificate authority of this machine has come to its end; move the folder "
        + folder
        + " away: a new one is made, and each phone needs its certificate and a new code";
  }

  static String limits(Set<String> names) {
    return (names.isEmpty() ? "" : "this machine's names (" + String.join(", ", names) + ") and ")
        + "addresses of local networks";
  }

  static List<String> introduction(URI helper, String fingerprint) {
    int half = (fingerprint.length() + 1) / 2;
    return List.of(
        "",
        "With a phone in the same network",
        "",
        "1. Once on each phone: open " + helper + " and do what stands there.",
        "   The certificate's SHA-256 fingerprint, to compare with what the phone shows:",
        "   " + fingerprint.substring(0, half),
        "   " + fingerprint.substring(half));
  }

  static List<String> invitation(URI pair, String digits) {
    return List.of(
        "",
        "2. Pair it: point its camera at this, or open "
            + pair
            + " and type "
            + digits.substring(0, 4)
            + " "
            + digits.substring(4),
        "");
  }

  static List<String> welcomeBack(URI page, int paired) {
    return List.of(
        "",
        (paired == 1 ? "One device is" : paired + " devices are")
            + " paired already: open "
            + page
            + " there.",
        "Enter shows a code for another.");
  }

  static List<String> untilWhen(ZonedDateTime until) {
    return List.of("", "Good once, until " + TIME.format(until) + ". Enter shows a new code.");
  }
}
