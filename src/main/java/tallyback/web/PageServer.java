package tallyback.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.util.JavalinBindException;
import io.javalin.websocket.WsConfig;
import io.javalin.websocket.WsContext;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import tallyback.app.JobDesk;
import tallyback.app.LiveJob;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
import tallyback.app.NoiseDiary;
import tallyback.app.PlanShelf;
import tallyback.app.Second;
import tallyback.app.SteadyClock;
import tallyback.app.WrongUse;
import tallyback.log.JobLog;
import tallyback.model.Entry;
import tallyback.plan.PlanReader;
import tallyback.voice.Voice;
import tallyback.web.lan.Lan;

/**
 * A page at {@code http://localhost} through which a job is noted. Only browsers on this machine
 * are answered: it binds to the loopback address and compares Host and Origin as a whole. With a
 * {@link Lan} it has a second way in, for paired devices of the local network.
 *
 * <p>Threads: {@link #run} keeps its caller's until {@link #stop} is called, which any thread may
 * do. What comes from pages arrives on threads of the server and waits for nothing but a lock.
 * {@link #close} frees the port.
 */
public final class PageServer implements AutoCloseable {

  static final String PAGE_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
          + " manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none';"
          + " frame-ancestors 'none'";

  private static final Set<HandlerType> READS = Set.of(HandlerType.GET, HandlerType.HEAD);

  private static final String LOOPBACK = "127.0.0.1";

  /** Text of a page is a line that was typed; much more is none. */
  private static final int MOST_TEXT_BYTES = 8 << 10;

  private static final Duration PING_EVERY = Duration.ofSeconds(5);
  private static final Duration SILENT = Duration.ofSeconds(20);

  private final Settings settings;
  private final SteadyClock clock;
  private final Consumer<String> ready;
  private final Map<String, PageTalk> talks = new ConcurrentHashMap<>();
  private final ScheduledExecutorService watch =
      Executors.newSingleThreadScheduledExecutor(PageServer::watching);
  private final Javalin server;
  private final @Nullable PhoneGate phones;
  private final @Nullable CertificatePage certificate;

  private final JobRoutes jobs;

  /** Known from when the port is open. */
  private volatile @Nullable Door local;

  /** The job that whoever connects belongs to; changed by one thread at a time. */
  private volatile Bay bay;

  /** The job that is noted; for a moment still the one before. */
  private volatile Bay underWay;

  /** Guarded by this. */
  private boolean stopped;

  /**
   * What is served.
   *
   * @param plan the job's plan
   * @param data the data file
   * @param job the job; null for the only open one, else the newest
   * @param attention the word that begins every entry, or null for none
   * @param port 0 for any that is free
   * @param setting who is at the desk
   * @param voice opens the voice, or null for nothing aloud
   * @param second a second recogniser, or null for none
   * @param noises where is written down what was learned of the shop's noises; null to learn none
   * @param plans the plans that can be opened, changed and begun from the page; null for none
   */
  public record Settings(
      LoadedPlan plan,
      Path data,
      @Nullable String job,
      @Nullable String attention,
      int port,
      JobDesk.Setting setting,
      @Nullable Supplier<Voice> voice,
      @Nullable Second second,
      @Nullable NoiseDiary noises,
      @Nullable PlanShelf plans) {

    /** With one recogniser, which learns no noise, and no plans beside the job's own. */
    public Settings(
        LoadedPlan plan,
        Path data,
        @Nullable String job,
        @Nullable String attention,
        int port,
        JobDesk.Setting setting,
        @Nullable Supplier<Voice> voice) {
      this(plan, data, job, attention, port, setting, voice, null, null, null);
    }

    /** The same with plans to choose from. */
    public Settings with(PlanShelf shelf) {
      return new Settings(plan, data, job, attention, port, setting, voice, second, noises, shelf);
    }

    /** The same for another job. */
    Settings forJob(LoadedPlan its, String id) {
      return new Settings(its, data, id, attention, port, setting, voice, second, noises, plans);
    }

    /** Now, in milliseconds since 1970. */
    long nowMs() {
      return setting.clock().instant().toEpochMilli();
    }

    private Settings with(InstantSource clock) {
      JobDesk.Setting timed =
          new JobDesk.Setting(setting.device(), setting.actor(), setting.zone(), clock);
      return new Settings(plan, data, job, attention, port, timed, voice, second, noises, plans);
    }
  }

  private PageServer(Settings asked, @Nullable Lan lan, Consumer<String> ready) {
    this.clock = new SteadyClock(asked.setting().clock());
    this.settings = asked.with(clock);
    this.ready = ready;
    this.phones = lan == null ? null : new PhoneGate(lan, ready);
    this.bay = new Bay(settings, clock, ready);
    this.underWay = bay;
    this.jobs = new JobRoutes(settings, () -> bay.board().job());
    this.server = Javalin.create(this::configure);
    try {
      start();
      this.certificate = phones == null ? null : openCertificatePage(phones);
    } catch (MachineFailed e) {
      bay.close(PageTexts.OVER);
      server.stop();
      jobs.close();
      throw e;
    }
  }

  private void start() {
    try {
      if (phones == null) {
        server.start(LOOPBACK, settings.port());
      } else {
        server.start();
        phones.opened();
      }
    } catch (JavalinBindException e) {
      throw PageTexts.taken(settings.port(), e);
    }
    if (isOpenHere()) {
      local = Door.local(server.port());
    }
  }

  /** A loopback address given for phones, as to try it out, takes the place of the usual one. */
  private boolean isOpenHere() {
    return phones == null || !phones.lan().address().isLoopbackAddress();
  }

  private CertificatePage openCertificatePage(PhoneGate gate) {
    return new CertificatePage(
        gate.lan(), gate.door().address(), settings.port() == 0 ? 0 : settings.port() + 1);
  }

  /**
   * Opens the port; the page is there from now on and says that it is getting ready.
   *
   * @param ready told when it listens: the job, then what the user should know before, if anything
   * @throws MachineFailed if the port is taken
   */
  public static PageServer open(Settings settings, Consumer<String> ready) {
    return new PageServer(settings, null, ready);
  }

  /**
   * Opens it to paired devices of the local network too, and on the next port a page without TLS
   * where they get the certificate.
   *
   * @param ready told besides who was paired, and what goes wrong with it
   * @throws MachineFailed if a port is taken
   */
  public static PageServer open(Settings settings, Lan lan, Consumer<String> ready) {
    return new PageServer(settings, lan, ready);
  }

  /** Where the page is for a browser on this machine, or else for a phone. */
  public URI address() {
    Door here = local;
    return here == null ? lanAddress() : here.address();
  }

  /** Where the page is for a phone; only with a {@link Lan}. */
  public URI lanAddress() {
    return Objects.requireNonNull(phones).door().address();
  }

  /** Where a phone gets the certificate; only with a {@link Lan}. */
  public URI certificateAddress() {
    return Objects.requireNonNull(certificate).address();
  }

  /**
   * Listens to the page until {@link #stop} is called, to one job after the other.
   *
   * @throws InterruptedException if interrupted
   */
  public void run() throws InterruptedException {
    ScheduledFuture<?> unused =
        watch.scheduleAtFixedRate(
            this::lookAfter, PING_EVERY.toMillis(), PING_EVERY.toMillis(), TimeUnit.MILLISECONDS);
    while (true) {
      Bay now = underWay;
      now.run();
      if (!isFollowed(now)) {
        now.over();
        return;
      }
      now.close(PageTexts.ANOTHER_JOB);
      now.putAwayIfEmpty();
    }
  }

  private synchronized boolean isFollowed(Bay ended) {
    if (stopped || bay == ended) {
      return false;
    }
    underWay = bay;
    return true;
  }

  /**
   * Puts down the job that is noted now, which stays open, and goes on with another. Whoever
   * connects from now on belongs to the other.
   *
   * @param plan the other's plan
   * @param job the other, new or not
   * @throws WrongUse if it is being ended, or another is being begun already
   */
  synchronized void goOnWith(LoadedPlan plan, String job) {
    if (stopped || bay != underWay) {
      throw new WrongUse(PageTexts.NOT_NOW);
    }
    bay = new Bay(settings.forJob(plan, job), clock, ready);
    underWay.stop();
  }

  /** Does something with the log; null while there is no writer. See {@link LiveJob#withLog}. */
  <T> @Nullable CompletableFuture<T> withLog(
      Function<JobLog, T> work, Function<T, List<Entry>> noted) {
    return underWay.withLog(work, noted);
  }

  /** The job that is noted now; null before it is open. */
  @Nullable String job() {
    return bay.board().job();
  }

  /** Ends it; what was said last is still noted. */
  public synchronized void stop() {
    stopped = true;
    underWay.stop();
    bay.stop();
  }

  @Override
  public void close() {
    stop();
    watch.shutdownNow();
    underWay.close(PageTexts.OVER);
    bay.close(PageTexts.OVER);
    server.stop();
    jobs.close();
    if (certificate != null) {
      certificate.close();
    }
  }

  private static Thread watching(Runnable work) {
    Thread thread = new Thread(work, "page-watch");
    thread.setDaemon(true);
    return thread;
  }

  private void lookAfter() {
    bay.ping();
    if (phones != null) {
      phones.lookAfter(bay.pages());
    }
  }

  /** Says nothing of the library at the start, nor in an answer. */
  static void quietly(JavalinConfig config) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.http.maxRequestSize = PlanReader.LARGEST_BYTES + MOST_TEXT_BYTES;
    config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
  }

  private void configure(JavalinConfig config) {
    quietly(config);
    QueuedThreadPool threads = new QueuedThreadPool(24, 4);
    threads.setName("page");
    threads.setDaemon(true);
    config.jetty.threadPool = threads;
    if (phones != null) {
      if (isOpenHere()) {
        config.jetty.addConnector(this::forThisMachine);
      }
      config.jetty.addConnector((jetty, http) -> phones.connector(jetty, http, settings.port()));
      phones.configure(config.routes);
    }
    config.jetty.modifyWebSocketServletFactory(
        factory -> {
          factory.setMaxBinaryMessageSize(SoundFrame.MOST_BYTES);
          factory.setMaxTextMessageSize(MOST_TEXT_BYTES);
          factory.setMaxFrameSize(Math.max(SoundFrame.MOST_BYTES, MOST_TEXT_BYTES));
          factory.setIdleTimeout(SILENT);
        });
    config.routes.before(this::onlyFromHere);
    config.routes.wsBeforeUpgrade(this::onlyFromThePage);
    PageFiles files = new PageFiles();
    files.byPath().forEach((path, file) -> config.routes.get(path, file::give));
    files.shared().forEach((path, file) -> config.routes.get(path, file::give));
    if (phones != null) {
      files.toPair().forEach((path, file) -> config.routes.get(path, file::give));
    }
    config.routes.get("/health", this::health);
    new ReviewRoutes(this, settings).configure(config.routes);
    PictureAnswer pictures = new PictureAnswer(settings.data());
    config.routes.get(PictureAnswer.PATH, pictures::give);
    new TimelineRoutes(settings.data(), clock).configure(config.routes);
    if (settings.plans() != null) {
      new PlanRoutes(this, settings, settings.plans(), phones).configure(config.routes);
    }
    jobs.configure(config.routes);
    config.routes.ws("/live", this::talk);
  }

  /** Each connection belongs to the job that was noted when it was made. */
  private void talk(WsConfig socket) {
    socket.onConnect(
        context -> {
          PageTalk talk = bay.talk();
          talks.put(context.sessionId(), talk);
          talk.come(context);
        });
    socket.onClose(this::gone);
    socket.onError(this::gone);
    socket.onMessage(
        context -> {
          PageTalk talk = talks.get(context.sessionId());
          if (talk != null) {
            talk.takeText(context);
          }
        });
    socket.onBinaryMessage(
        context -> {
          PageTalk talk = talks.get(context.sessionId());
          if (talk != null) {
            talk.takeSound(context);
          }
        });
  }

  private void gone(WsContext context) {
    PageTalk talk = talks.remove(context.sessionId());
    if (talk != null) {
      talk.gone(context);
    }
  }

  private ServerConnector forThisMachine(Server jetty, HttpConfiguration http) {
    ServerConnector connector = new ServerConnector(jetty, 1, 1, new HttpConnectionFactory(http));
    connector.setHost(LOOPBACK);
    connector.setPort(settings.port());
    return connector;
  }

  /** What every answer says to a browser that has doubts. */
  static void harden(Context context) {
    context.header("X-Content-Type-Options", "nosniff");
    context.header("Referrer-Policy", "no-referrer");
    context.header("Cross-Origin-Opener-Policy", "same-origin");
    context.header("Cross-Origin-Resource-Policy", "same-origin");
    context.header("Cache-Control", "no-cache");
  }

  private void onlyFromHere(Context context) {
    context.header("Content-Security-Policy", PAGE_POLICY);
    if (!READS.contains(context.method())
        && !context.path().equals("/pair")
        && !isFromThePage(context)) {
      throw new io.javalin.http.ForbiddenResponse(PageTexts.WRONG_ORIGIN);
    }
    context.header("Permissions-Policy", "microphone=(self), camera=(), geolocation=()");
    harden(context);
    if (phones != null && context.req().isSecure()) {
      phones.check(context);
      return;
    }
    Door here = local;
    if (here == null || !here.isHost(context.header("Host"))) {
      context
          .status(421)
          .contentType("text/plain; charset=utf-8")
          .result(PageTexts.WRONG_HOST + (here == null ? "" : here.address()))
          .skipRemainingHandlers();
    }
  }

  /** Whatever changes something must be asked for by a page from here, never by another site. */
  private boolean isFromThePage(Context context) {
    Door here = phones != null && context.req().isSecure() ? phones.door() : local;
    return here != null && here.isOrigin(context.header("Host"), context.header("Origin"));
  }

  private void onlyFromThePage(Context context) {
    if (phones != null && context.req().isSecure()) {
      phones.checkUpgrade(context);
      return;
    }
    Door here = local;
    if (here == null || !here.isOrigin(context.header("Host"), context.header("Origin"))) {
      throw new io.javalin.http.ForbiddenResponse(PageTexts.WRONG_ORIGIN);
    }
  }

  private void health(Context context) {
    ObjectNode health = Messages.of("health");
    health.remove("type");
    health.put("schema", 1).put("state", bay.board().state());
    // To whoever is not paired it says that it is alive, and nothing of the job.
    PhoneGate gate = context.req().isSecure() ? phones : null;
    boolean mayKnow = gate == null || gate.device(context) != null;
    if (gate != null) {
      health.put("paired", mayKnow);
    }
    JobBoard board = bay.board();
    if (mayKnow) {
      health.put("job", board.job()).put("pages", bay.pages().count());
      health.put("listening", bay.pages().listening() != null);
    }
    context
        .status(board.state().equals("listening") ? 200 : 503)
        .contentType("application/json")
        .result(health.toString());
  }
}
