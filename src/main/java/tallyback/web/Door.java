package tallyback.web;

import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A way in: where the server is asked for, and from which pages. Host and Origin are compared as a
 * whole, never in part, so that no other site and no other name for this machine gets in.
 *
 * @param scheme {@code http} or {@code https}
 * @param hosts what may stand in Host, the first of them the one to show
 */
record Door(String scheme, List<String> hosts) {

  private static final int HTTP = 80;
  private static final int HTTPS = 443;

  /** For browsers on this machine. */
  static Door local(int port) {
    return of("http", List.of("localhost", "127.0.0.1"), port);
  }

  /**
   * For whoever asks for a machine under one of these names.
   *
   * @param names host names or addresses, IPv6 in brackets
   */
  static Door of(String scheme, List<String> names, int port) {
    // Browsers leave the usual port out.
    boolean usual = port == (scheme.equals("https") ? HTTPS : HTTP);
    return new Door(scheme, names.stream().map(name -> usual ? name : name + ":" + port).toList());
  }

  /** Whether a request was meant for this server. */
  boolean isHost(@Nullable String host) {
    return hosts.contains(host);
  }

  /** Whether a connection was asked for by a page from here. */
  boolean isOrigin(@Nullable String host, @Nullable String origin) {
    return isHost(host) && (scheme + "://" + host).equals(origin);
  }

  URI address() {
    return URI.create(scheme + "://" + hosts.get(0) + "/");
  }
}
