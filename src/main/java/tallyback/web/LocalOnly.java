package tallyback.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Who may speak to this server: a browser on this machine, from the page it got here. Host and
 * Origin are compared as a whole, never in part, so that no other site and no other name for this
 * machine gets in. Immutable.
 */
final class LocalOnly {

  private final List<String> hosts;

  LocalOnly(int port) {
    hosts = List.of("localhost:" + port, "127.0.0.1:" + port);
  }

  /** Whether a request was meant for this server. */
  boolean isHost(@Nullable String host) {
    return hosts.contains(host);
  }

  /** Whether a connection was asked for by a page from here. */
  boolean isOrigin(@Nullable String host, @Nullable String origin) {
    return isHost(host) && ("http://" + host).equals(origin);
  }
}
