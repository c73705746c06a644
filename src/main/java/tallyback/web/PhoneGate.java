package tallyback.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import io.javalin.http.UnauthorizedResponse;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import org.eclipse.jetty.websocket.api.StatusCode;
import org.jspecify.annotations.Nullable;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;
import tallyback.web.lan.Device;
import tallyback.web.lan.Devices;
import tallyback.web.lan.Lan;
import tallyback.web.lan.PairingCode;

/**
 * The way in for phones of the local network: TLS, and a token for each device, which it gets for a
 * code. Called on threads of the server; nothing here waits but for a small file.
 */
final class PhoneGate {

  /** What anybody may see: enough to be paired, nothing of the job. */
  private static final Set<String> FOR_EVERYBODY =
      Set.of("/pair", "/pair.js", "/page.css", "/icon.svg", "/health", CertificatePage.CERTIFICATE);

  private static final int MOST_ASKED_BYTES = 1 << 10;
  private static final String PAIRED_AS = "tallyback.device";
  private static final String NAME = "p[a-z0-9]{1,39}";
  private static final String DIGITS = "[0-9 -]{1,40}";

  private final Lan lan;
  private final Consumer<String> tell;
  private final SslContextFactory.Server keys = new SslContextFactory.Server();
  private final AtomicReference<String> lastTrouble = new AtomicReference<>("");
  private @Nullable ServerConnector connector;
  private volatile @Nullable Door door;

  PhoneGate(Lan lan, Consumer<String> tell) {
    this.lan = lan;
    this.tell = tell;
  }

  /** Where it listens. */
  Connector connector(Server server, HttpConfiguration plain, int port) {
    keys.setKeyStore(lan.keys());
    keys.setKeyStorePassword("");
    HttpConfiguration secure = new HttpConfiguration(plain);
    // Which host was asked for is compared in check(). No Strict-Transport-Security: it would hold
    // for the whole host and every port of it, and so lock http://localhost out on this machine and
    // the page with the certificate out everywhere.
    SecureRequestCustomizer customizer = new SecureRequestCustomizer(false);
    customizer.setStsMaxAge(-1);
    secure.addCustomizer(customizer);
    ServerConnector made =
        new ServerConnector(
            server,
            1,
            1,
            new SslConnectionFactory(keys, "http/1.1"),
            new HttpConnectionFactory(secure));
    made.setHost(lan.address().getHostAddress());
    made.setPort(port);
    connector = made;
    return made;
  }

  /** The port is open now. */
  void opened() {
    door = Door.of("https", lan.hosts(), Objects.requireNonNull(connector).getLocalPort());
  }

  Door door() {
    Door known = door;
    if (known == null) {
      // In the moment between the port's opening and its number being known.
      throw new io.javalin.http.ServiceUnavailableResponse();
    }
    return known;
  }

  Lan lan() {
    return lan;
  }

  void configure(RoutesConfig routes) {
    routes.post("/pair", this::pair);
    routes.get(
        CertificatePage.CERTIFICATE,
        context -> context.contentType(CertificatePage.TYPE).result(lan.certificate()));
    routes.exception(
        MachineFailed.class,
        (e, context) -> {
          tell.accept(String.valueOf(e.getMessage()));
          context.status(500).contentType("text/plain; charset=utf-8").result(PageTexts.NO_KEYS);
        });
  }

  /** Before anything is answered: is it asked for here, and by a paired device? */
  void check(Context context) {
    if (!door().isHost(context.header("Host"))) {
      context
          .status(421)
          .contentType("text/plain; charset=utf-8")
          .result(PageTexts.WRONG_HOST_OF_LAN + door().address())
          .skipRemainingHandlers();
      return;
    }
    if (FOR_EVERYBODY.contains(context.path()) || device(context) != null) {
      return;
    }
    if (context.path().equals("/")) {
      context.status(303).header("Location", "/pair").skipRemainingHandlers();
    } else if (context.path().equals(PlanRoutes.PAGE) || context.path().equals(JobLinks.ALL)) {
      // A code on paper leads there: once paired it goes on to the plan.
      String query = context.queryString();
      String to = context.path() + (query == null ? "" : "?" + query);
      context
          .status(303)
          .header("Location", "/pair?to=" + URLEncoder.encode(to, StandardCharsets.UTF_8))
          .skipRemainingHandlers();
    } else {
      throw new UnauthorizedResponse(PageTexts.NOT_PAIRED);
    }
  }

  /** Before a connection is made. */
  void checkUpgrade(Context context) {
    if (!door().isOrigin(context.header("Host"), context.header("Origin"))) {
      throw new ForbiddenResponse(PageTexts.WRONG_ORIGIN);
    }
    Device device = device(context);
    if (device == null) {
      throw new UnauthorizedResponse(PageTexts.NOT_PAIRED);
    }
    context.attribute(PAIRED_AS, device.name());
  }

  /** The name a connection's device was paired under; null for a browser on this machine. */
  static @Nullable String pairedAs(io.javalin.websocket.WsContext context) {
    return context.attribute(PAIRED_AS);
  }

  /** Whose request it is; null when no paired device's. */
  @Nullable Device device(Context context) {
    return lan.devices().of(context.cookie(cookie())).orElse(null);
  }

  /** Cookies know no ports, so that the name holds it; __Host-: sent back to this host alone. */
  private String cookie() {
    return "__Host-tallyback-" + Objects.requireNonNull(connector).getLocalPort();
  }

  private void pair(Context context) {
    if (!context.req().isSecure()) {
      throw new io.javalin.http.NotFoundResponse();
    }
    if (!door().isOrigin(context.header("Host"), context.header("Origin"))) {
      throw new ForbiddenResponse(PageTexts.WRONG_ORIGIN);
    }
    if (context.req().getContentLengthLong() > MOST_ASKED_BYTES) {
      throw new io.javalin.http.ContentTooLargeResponse();
    }
    String name;
    String digits;
    try {
      JsonNode asked = Messages.read(context.body());
      name = Messages.text(asked, "device", NAME);
      digits = Messages.text(asked, "code", DIGITS);
    } catch (BadMessage e) {
      says(context, 400, String.valueOf(e.getMessage()));
      return;
    }
    PairingCode.Outcome outcome = lan.code().say(digits);
    switch (outcome) {
      case RIGHT -> letIn(context, name);
      case WRONG -> {
        tell.accept(PageTexts.wrongCodeFrom(context.ip()));
        says(context, 403, PageTexts.CODE_WRONG);
      }
      case NONE -> says(context, 403, PageTexts.CODE_NONE);
      case SHUT -> {
        tell.accept(PageTexts.CODE_SHUT_HERE);
        says(context, 403, PageTexts.CODE_SHUT);
      }
    }
  }

  private void letIn(Context context, String name) {
    String token;
    try {
      token = lan.devices().pair(name);
    } catch (WrongUse e) {
      tell.accept(String.valueOf(e.getMessage()));
      says(context, 403, String.valueOf(e.getMessage()));
      return;
    }
    tell.accept(PageTexts.paired(name));
    context.header(
        "Set-Cookie",
        cookie()
            + "="
            + token
            + "; Path=/; Max-Age="
            + Devices.KEPT.toSeconds()
            + "; Secure; HttpOnly; SameSite=Strict");
    context.status(204);
  }

  private static void says(Context context, int status, String says) {
    context
        .status(status)
        .contentType("application/json")
        .result(Messages.of("pair").put("says", says).toString());
  }

  /** Cuts off whoever was taken away meanwhile, and makes the certificate anew in time. */
  void lookAfter(Pages pages) {
    Set<String> paired;
    String trouble = lan.isHere() ? "" : PageTexts.movedAway(door().address());
    try {
      paired = lan.devices().all().stream().map(Device::name).collect(Collectors.toSet());
      if (lan.renewed()) {
        keys.reload(factory -> keys.setKeyStore(lan.keys()));
      }
    } catch (Exception e) {
      // Whoever can't be known to be paired isn't.
      trouble = String.valueOf(e.getMessage());
      paired = Set.of();
    }
    if (!trouble.equals(lastTrouble.getAndSet(trouble)) && !trouble.isEmpty()) {
      tell.accept(trouble);
    }
    for (PageLink link : pages.all()) {
      String name = link.pairedAs();
      if (name != null && !paired.contains(name)) {
        link.close(StatusCode.POLICY_VIOLATION, PageTexts.TAKEN_AWAY);
      }
    }
  }
}
