package tallyback.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.util.JavalinBindException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import tallyback.app.MachineFailed;
import tallyback.web.lan.Lan;

/**
 * A page without TLS, where a phone that doesn't trust this machine yet gets the certificate and is
 * told what to do with it. It knows nothing of the job. {@link #close} frees the port.
 */
final class CertificatePage implements AutoCloseable {

  /** Where the certificate is, here and on the page itself. */
  static final String CERTIFICATE = "/tallyback.crt";

  static final String TYPE = "application/x-x509-ca-cert";

  private static final String POLICY =
      "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none';"
          + " frame-ancestors 'none'";

  private final Javalin server;
  private volatile @Nullable Door door;

  /**
   * Opens it.
   *
   * @param page where the page itself is
   * @param port 0 for any that is free
   * @throws MachineFailed if the port is taken
   */
  CertificatePage(Lan lan, URI page, int port) {
    server = Javalin.create(config -> configure(config, lan, page));
    try {
      server.start(lan.address().getHostAddress(), port);
    } catch (JavalinBindException e) {
      throw PageTexts.taken(port, e);
    }
    door = Door.of("http", lan.hosts(), server.port());
  }

  URI address() {
    return java.util.Objects.requireNonNull(door).address();
  }

  private void configure(JavalinConfig config, Lan lan, URI page) {
    PageServer.quietly(config);
    QueuedThreadPool threads = new QueuedThreadPool(8, 2);
    threads.setName("certificate");
    threads.setDaemon(true);
    config.jetty.threadPool = threads;
    config.routes.before(this::check);
    PageFiles files = new PageFiles();
    for (String path : new String[] {"/page.css", "/icon.svg"}) {
      PageFiles.PageFile file = files.at(path);
      config.routes.get(path, context -> context.contentType(file.type()).result(file.bytes()));
    }
    PageFiles.PageFile trust = PageFiles.read("trust.html");
    byte[] filled =
        new String(trust.bytes(), StandardCharsets.UTF_8)
            .replace("{name}", escaped(lan.authorityName()))
            .replace("{limits}", escaped(lan.limits()))
            .replace("{fingerprint}", escaped(lan.fingerprint()))
            .replace("{page}", escaped(page.toString()))
            .getBytes(StandardCharsets.UTF_8);
    config.routes.get("/", context -> context.contentType(trust.type()).result(filled));
    config.routes.get(CERTIFICATE, context -> context.contentType(TYPE).result(lan.certificate()));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace("\"", "&quot;");
  }

  private void check(Context context) {
    context.header("Content-Security-Policy", POLICY);
    PageServer.harden(context);
    Door known = door;
    if (known == null || !known.isHost(context.header("Host"))) {
      context
          .status(421)
          .contentType("text/plain; charset=utf-8")
          .result(PageTexts.WRONG_HOST_OF_LAN + (known == null ? "" : known.address()))
          .skipRemainingHandlers();
    }
  }

  @Override
  public void close() {
    server.stop();
  }
}
