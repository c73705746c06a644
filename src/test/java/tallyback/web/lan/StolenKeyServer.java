package tallyback.web.lan;

import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.KeyPair;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/**
 * What somebody could set up who has stolen the authority's key. Says hello to whoever believes it.
 */
public final class StolenKeyServer implements AutoCloseable {

  private final HttpsServer server;

  private StolenKeyServer(HttpsServer server) {
    this.server = server;
  }

  /**
   * Starts one on the loopback address.
   *
   * @param folder where the authority is kept
   * @param addresses what it claims to be
   * @param names likewise
   */
  public static StolenKeyServer start(Path folder, List<InetAddress> addresses, List<String> names)
      throws Exception {
    KeyFolder keys = new KeyFolder(folder);
    Authority authority =
        new Authority(
            Objects.requireNonNull(keys.key("authority.key")),
            Objects.requireNonNull(keys.certificate("authority.crt")));
    KeyPair pair = Authority.newKeys();
    KeyStore store = KeyStore.getInstance("PKCS12");
    store.load(null, new char[0]);
    store.setKeyEntry(
        "it",
        pair.getPrivate(),
        new char[0],
        new Certificate[] {authority.issue(pair.getPublic(), addresses, names, Instant.now())});
    KeyManagerFactory factory =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    factory.init(store, new char[0]);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(factory.getKeyManagers(), null, null);
    HttpsServer server =
        HttpsServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.setHttpsConfigurator(new HttpsConfigurator(context));
    server.createContext(
        "/",
        exchange -> {
          byte[] hello = "hello".getBytes(StandardCharsets.US_ASCII);
          exchange.sendResponseHeaders(200, hello.length);
          exchange.getResponseBody().write(hello);
          exchange.close();
        });
    server.start();
    return new StolenKeyServer(server);
  }

  public int port() {
    return server.getAddress().getPort();
  }

  @Override
  public void close() {
    server.stop(0);
  }
}
