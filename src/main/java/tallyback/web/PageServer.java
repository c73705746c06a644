package tallyback.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.util.JavalinBindException;
import io.javalin.websocket.WsConfig;
import io.javalin.websocket.WsContext;
import java.io.IOException;
import java.net.URI;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.eclipse.jetty.websocket.api.StatusCode;
import org.jspecify.annotations.Nullable;
import tallyback.app.CheckedJob;
import tallyback.app.JobDesk;
import tallyback.app.LiveJob;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
import tallyback.app.SteadyClock;
import tallyback.dialogue.Reply;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.phrase.Question.OfListening;
import tallyback.report.WallView;
import tallyback.voice.Voice;

/**
 * A page at {@code http://localhost} through which a job is noted. Only browsers on this machine
 * are answered: it binds to the loopback address and compares Host and Origin as a whole.
 *
 * <p>Threads: {@link #run} keeps its caller's until {@link #stop} is called, which any thread may
 * do. What comes from pages arrives on threads of the server and waits for nothing but a lock.
 * {@link #close} frees the port.
 */
public final class PageServer implements AutoCloseable {

  private static final String PAGE_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
          + " manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none';"
          + " frame-ancestors 'none'";

  private static final String LOOPBACK = "127.0.0.1";

  /** Text of a page is a line that was typed; much more is none. */
  private static final int MOST_TEXT_BYTES = 8 << 10;

  private static final Duration PING_EVERY = Duration.ofSeconds(5);
  private static final Duration SILENT = Duration.ofSeconds(20);

  /** Whoever hasn't answered by then doesn't: it is noted as unconfirmed. */
  private static final Duration ANSWER_WAITED_FOR = Duration.ofMinutes(2);

  private static final int MOST_STREAMS = 16;
  private static final int EARLIER_ENTRIES = 8;
  private static final String NAME = "[a-z0-9-]{1,40}";

  private final Settings settings;
  private final SteadyClock steady;
  private final Pages pages = new Pages();
  private final Map<String, PageLink> links = new ConcurrentHashMap<>();
  private final PageSound sound;
  private final PagePlayer player;
  private final LiveJob live;
  private final ScheduledExecutorService board =
      Executors.newSingleThreadScheduledExecutor(PageServer::named);
  private final AtomicBoolean boardIsDue = new AtomicBoolean();
  private final Javalin server;
  private final LocalOnly local;
  private final Consumer<String> ready;
  private volatile @Nullable String job;
  private volatile @Nullable Instant askedSince;
  private volatile String state = "starting";
  private volatile String stateSays = "";
  private volatile String toldOfClock = "";

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
   */
  public record Settings(
      LoadedPlan plan,
      Path data,
      @Nullable String job,
      @Nullable String attention,
      int port,
      JobDesk.Setting setting,
      @Nullable Supplier<Voice> voice) {

    private Settings with(InstantSource clock) {
      JobDesk.Setting timed =
          new JobDesk.Setting(setting.device(), setting.actor(), setting.zone(), clock);
      return new Settings(plan, data, job, attention, port, timed, voice);
    }
  }

  private PageServer(Settings settings, Consumer<String> ready) {
    this.steady = new SteadyClock(settings.setting().clock());
    this.settings = settings.with(steady);
    this.ready = ready;
    this.sound = new PageSound(this::alreadyNoted, new Acknowledging());
    this.player = new PagePlayer(pages::listening, link -> link.send(Messages.of("hush")));
    this.live =
        new LiveJob(
            new LiveJob.Settings(
                settings.plan(),
                () ->
                    JobDesk.open(
                        settings.data(),
                        settings.plan(),
                        settings.job(),
                        steady.instant(),
                        this.settings.setting()),
                settings.attention(),
                OfListening.AFTER_THE_WORD,
                sound::isHeld,
                true,
                settings.voice(),
                settings.voice() == null ? null : () -> player,
                steady),
            this::tell);
    this.server = Javalin.create(this::configure);
    try {
      server.start(LOOPBACK, settings.port());
    } catch (JavalinBindException e) {
      board.shutdownNow();
      throw new MachineFailed(
          "port "
              + settings.port()
              + " is taken by another program, maybe another 'serve'; end that, or choose another"
              + " with --port",
          e);
    }
    this.local = new LocalOnly(server.port());
  }

  /**
   * Opens the port; the page is there from now on and says that it is getting ready.
   *
   * @param ready told when it listens: the job, then what the user should know before, if anything
   * @throws MachineFailed if the port is taken
   */
  public static PageServer open(Settings settings, Consumer<String> ready) {
    return new PageServer(settings, ready);
  }

  /** Where the page is. */
  public URI address() {
    return URI.create("http://localhost:" + server.port() + "/");
  }

  /**
   * Listens to the page until {@link #stop} is called.
   *
   * @throws InterruptedException if interrupted
   */
  public void run() throws InterruptedException {
    ScheduledFuture<?> unused =
        board.scheduleAtFixedRate(
            this::ping, PING_EVERY.toMillis(), PING_EVERY.toMillis(), TimeUnit.MILLISECONDS);
    try {
      live.run(sound);
      state("ended", PageTexts.OVER);
    } catch (IOException e) {
      throw new MachineFailed("the page's sound has failed (" + e.getMessage() + ")", e);
    } catch (RuntimeException e) {
      state("failed", String.valueOf(e.getMessage()));
      throw e;
    }
  }

  /** Ends it; what was said last is still noted. */
  public void stop() {
    sound.close();
    live.stop();
  }

  @Override
  public void close() {
    stop();
    board.shutdownNow();
    pages.all().forEach(link -> link.close(StatusCode.SHUTDOWN, PageTexts.OVER));
    server.stop();
  }

  private static Thread named(Runnable work) {
    Thread thread = new Thread(work, "page-board");
    thread.setDaemon(true);
    return thread;
  }

  private void configure(JavalinConfig config) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    QueuedThreadPool threads = new QueuedThreadPool(24, 4);
    threads.setName("page");
    threads.setDaemon(true);
    config.jetty.threadPool = threads;
    config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
    config.jetty.modifyWebSocketServletFactory(
        factory -> {
          factory.setMaxBinaryMessageSize(SoundFrame.MOST_BYTES);
          factory.setMaxTextMessageSize(MOST_TEXT_BYTES);
          factory.setMaxFrameSize(Math.max(SoundFrame.MOST_BYTES, MOST_TEXT_BYTES));
          factory.setIdleTimeout(SILENT);
        });
    config.routes.before(this::onlyFromHere);
    config.routes.wsBeforeUpgrade(this::onlyFromThePage);
    new PageFiles()
        .byPath()
        .forEach(
            (path, file) ->
                config.routes.get(
                    path, context -> context.contentType(file.type()).result(file.bytes())));
    config.routes.get("/health", this::health);
    config.routes.ws("/live", this::speak);
  }

  private void onlyFromHere(Context context) {
    context.header("Content-Security-Policy", PAGE_POLICY);
    context.header("X-Content-Type-Options", "nosniff");
    context.header("Referrer-Policy", "no-referrer");
    context.header("Cross-Origin-Opener-Policy", "same-origin");
    context.header("Cross-Origin-Resource-Policy", "same-origin");
    context.header("Permissions-Policy", "microphone=(self), camera=(), geolocation=()");
    context.header("Cache-Control", "no-cache");
    if (!local.isHost(context.header("Host"))) {
      context
          .status(421)
          .contentType("text/plain; charset=utf-8")
          .result(PageTexts.WRONG_HOST + server.port() + "/")
          .skipRemainingHandlers();
    }
  }

  private void onlyFromThePage(Context context) {
    if (!local.isOrigin(context.header("Host"), context.header("Origin"))) {
      throw new io.javalin.http.ForbiddenResponse(PageTexts.WRONG_ORIGIN);
    }
  }

  private void health(Context context) {
    ObjectNode health = Messages.of("health");
    health.remove("type");
    health.put("schema", 1).put("state", state).put("job", job).put("pages", pages.count());
    health.put("listening", pages.listening() != null);
    context
        .status(state.equals("listening") ? 200 : 503)
        .contentType("application/json")
        .result(health.toString());
  }

  private void speak(WsConfig socket) {
    socket.onConnect(
        context -> {
          PageLink link = new PageLink(context.session);
          if (pages.add(link)) {
            links.put(context.sessionId(), link);
          } else {
            link.close(StatusCode.TRY_AGAIN_LATER, PageTexts.TOO_MANY);
          }
        });
    socket.onClose(context -> gone(context));
    socket.onError(context -> gone(context));
    socket.onMessage(context -> take(context, link -> message(link, context.message())));
    socket.onBinaryMessage(context -> take(context, link -> sound(link, context.data())));
  }

  private void gone(WsContext context) {
    PageLink link = links.remove(context.sessionId());
    if (link != null) {
      pages.remove(link);
    }
  }

  private void take(WsContext context, Consumer<PageLink> work) {
    PageLink link = links.get(context.sessionId());
    if (link == null) {
      return;
    }
    try {
      work.accept(link);
    } catch (BadMessage e) {
      link.close(StatusCode.POLICY_VIOLATION, String.valueOf(e.getMessage()));
    } catch (MachineFailed | LogRefused | LogFailed | IllegalStateException e) {
      // The hearing has ended: run() tells why.
      link.close(StatusCode.SERVER_ERROR, PageTexts.OVER);
    }
  }

  private void sound(PageLink link, ByteBuffer data) {
    PageLink.Hello hello = link.hello();
    PageClock clock = link.clock();
    if (hello == null || clock == null) {
      throw new BadMessage("expected hello first");
    }
    SoundFrame frame = SoundFrame.read(data);
    if (pages.listening() != link) {
      // Another has taken over while this was on its way: it keeps it, as nobody says it is
      // settled.
      return;
    }
    double atMs;
    synchronized (clock) {
      atMs = frame.pageMs() + clock.offsetMs();
    }
    if (!sound.accept(name(hello, frame.stream().toString()), frame, atMs)) {
      throw new BadMessage(PageTexts.TOO_MUCH);
    }
  }

  private static String name(PageLink.Hello hello, String stream) {
    return hello.device() + "-" + stream;
  }

  private void message(PageLink link, String text) {
    JsonNode message = Messages.read(text);
    String type = message.path("type").textValue();
    if (type.equals("hello")) {
      hello(link, message);
      return;
    }
    PageLink.Hello hello = link.hello();
    PageClock clock = link.clock();
    if (hello == null || clock == null) {
      throw new BadMessage("expected hello first");
    }
    switch (type) {
      case "pong" -> pong(link, clock, message);
      case "listen" -> listen(link, hello, message);
      case "watch" -> pages.watch(link);
      case "played" -> player.ended((int) Messages.number(message, "number"));
      case "words" -> words(link, hello, message);
      case "ended" -> {
        if (pages.listening() == link) {
          sound.end(name(hello, Messages.text(message, "stream", NAME)), (double) nowMs());
        }
      }
      case "lost" -> lost(link, hello, clock, message);
      default -> throw new BadMessage("expected another type than " + type.length() + " letters");
    }
  }

  private void pong(PageLink link, PageClock clock, JsonNode message) {
    double movedMs;
    synchronized (clock) {
      movedMs =
          clock.measured(
              (long) Messages.number(message, "sentMs"),
              Messages.number(message, "pageMs"),
              nowMs());
    }
    if (Math.abs(movedMs) >= 1000 && pages.listening() == link) {
      link.send(clockSays(PageTexts.movedApart(Math.round(Math.abs(movedMs) / 1000))));
    }
  }

  private static ObjectNode clockSays(String says) {
    return Messages.of("clock").put("says", says);
  }

  private void hello(PageLink link, JsonNode message) {
    if (message.path("version").asInt() != 1) {
      throw new BadMessage("expected a page of version 1; load it anew");
    }
    link.greeted(
        new PageLink.Hello(
            Messages.text(message, "device", NAME), Messages.text(message, "tab", NAME)),
        new PageClock(Messages.number(message, "pageMs"), nowMs()));
    if (job != null) {
      welcome(link);
    } else {
      link.send(Messages.of("state").put("state", state).put("says", stateSays));
    }
  }

  private void welcome(PageLink link) {
    ObjectNode welcome = Messages.of("welcome");
    welcome.put("version", 1).put("job", job).put("attention", settings.attention());
    welcome.put("window", PageSound.WINDOW / 2);
    welcome.put("aloud", settings.voice() != null);
    link.send(welcome);
    link.send(Messages.of("ping").put("sentMs", nowMs()));
    pages.show(link);
    if (!toldOfClock.isEmpty()) {
      link.send(clockSays(toldOfClock));
    }
  }

  /** A page wants to listen: it is told from where on it is to send of what it still has. */
  private void listen(PageLink link, PageLink.Hello hello, JsonNode message) {
    JsonNode streams = message.path("streams");
    if (!streams.isArray() || streams.size() > MOST_STREAMS) {
      throw new BadMessage("expected streams, 16 at most");
    }
    if (job == null || !pages.listen(link, message.path("takeOver").asBoolean(false))) {
      return;
    }
    ObjectNode wanted = Messages.of("wanted");
    ArrayNode list = wanted.putArray("streams");
    for (JsonNode each : streams) {
      String stream = Messages.text(each, "stream", NAME);
      long oldest = (long) Messages.number(each, "sample");
      list.addObject()
          .put("stream", stream)
          .put("sample", sound.wanted(name(hello, stream), oldest));
    }
    link.send(wanted);
  }

  private void words(PageLink link, PageLink.Hello hello, JsonNode message) {
    String id = Messages.text(message, "id", NAME);
    JsonNode words = message.path("words");
    if (!words.isTextual() || words.textValue().isBlank() || words.textValue().length() > 400) {
      throw new BadMessage("expected words, 400 letters at most");
    }
    boolean taken =
        live.enter(
            hello.device() + "-typed-" + id,
            settings.setting().clock().instant(),
            words.textValue().strip());
    link.send(
        Messages.of("words")
            .put("id", id)
            .put("taken", taken)
            .put("says", taken ? "" : PageTexts.BUSY));
  }

  private void lost(PageLink link, PageLink.Hello hello, PageClock clock, JsonNode message) {
    String stream = Messages.text(message, "stream", NAME);
    long from = (long) Messages.number(message, "from");
    double pageMs = Messages.number(message, "pageMs");
    Instant at;
    synchronized (clock) {
      at = Instant.ofEpochMilli(Math.round(pageMs + clock.offsetMs()));
    }
    boolean taken = live.undelivered(name(hello, stream) + "-" + from + "-lost", at);
    link.send(Messages.of("lost").put("stream", stream).put("from", from).put("noted", taken));
  }

  private long nowMs() {
    return settings.setting().clock().instant().toEpochMilli();
  }

  private long alreadyNoted(String stream) {
    String known = job;
    return known == null ? 0 : NotedSound.end(settings.data(), known, stream);
  }

  /** Tells the page that listens what it need not keep. */
  private final class Acknowledging implements PageSound.Progress {

    @Override
    public void taken(String stream, long sample) {
      pages.sendListening(at("taken", stream, sample));
    }

    @Override
    public void settled(String stream, long sample) {
      pages.sendListening(at("settled", stream, sample));
    }

    private static ObjectNode at(String type, String stream, long sample) {
      // The device is the page's own: it knows itself by the stream alone.
      String uuid = stream.substring(Math.max(0, stream.length() - 36));
      return Messages.of(type).put("stream", uuid).put("sample", sample);
    }
  }

  private void tell(LiveJob.Event event) {
    if (event instanceof LiveJob.Event.Ready started) {
      begin(started);
    } else if (event instanceof LiveJob.Event.Told told) {
      told(told);
    } else if (event instanceof LiveJob.Event.Standing standing) {
      askedSince = standing.answers().isEmpty() ? null : settings.setting().clock().instant();
      pages.answers(Messages.answers(standing.answers()));
    } else if (event instanceof LiveJob.Event.Listens listens) {
      pages.way(Messages.way(listens.way()));
    } else if (event instanceof LiveJob.Event.ReminderDue due) {
      pages.told(Messages.reminder(due, settings.setting().zone()));
    } else if (event instanceof LiveJob.Event.LeftOpen left) {
      pages.told(Messages.leftOpen(left.entry(), settings.plan().grammar()));
      boardIsDue();
    } else if (event instanceof LiveJob.Event.SpokenInto) {
      pages.told(
          Messages.heard(
              "rejected",
              settings.setting().clock().instant(),
              settings.setting().zone(),
              "",
              PageTexts.SPOKEN_INTO));
    }
  }

  private void begin(LiveJob.Event.Ready started) {
    job = started.job();
    state = "listening";
    CheckedJob checked = CheckedJob.read(settings.data(), started.job());
    show(checked);
    List<Entry> said =
        checked.entries().stream().filter(each -> each.source() != Source.TOOL).toList();
    said.subList(Math.max(0, said.size() - EARLIER_ENTRIES), said.size())
        .forEach(each -> pages.told(Messages.earlier(each, settings.plan().grammar())));
    pages.all().stream().filter(link -> link.hello() != null).forEach(this::welcome);
    ready.accept("job " + started.job());
    if (!started.notice().isEmpty()) {
      ready.accept(started.notice());
    }
  }

  private void told(LiveJob.Event.Told told) {
    Reply reply = told.reply();
    reply
        .leftOpen()
        .forEach(left -> pages.told(Messages.leftOpen(left, settings.plan().grammar())));
    pages.told(Messages.told(told, settings.plan().grammar(), settings.setting().zone()));
    if (reply.status() == Reply.Status.NOTED
        || reply.entry() != null
        || !reply.leftOpen().isEmpty()) {
      boardIsDue();
    }
  }

  /** Reckons once, however many entries came meanwhile. */
  private void boardIsDue() {
    if (boardIsDue.compareAndSet(false, true)) {
      board.execute(this::reckon);
    }
  }

  private void reckon() {
    boardIsDue.set(false);
    String known = job;
    if (known != null) {
      try {
        show(CheckedJob.read(settings.data(), known));
      } catch (LogRefused | LogFailed e) {
        state(state, String.valueOf(e.getMessage()));
      }
    }
  }

  private void show(CheckedJob checked) {
    pages.board(
        Messages.board(WallView.of(checked.plan(), checked.outcome()), checked.entries().size()));
  }

  private void state(String now, String says) {
    stateSays = says;
    state = now;
    pages.sendAll(Messages.of("state").put("state", now).put("says", says));
  }

  private void ping() {
    Duration back = steady.setBack();
    if (back.isZero() != toldOfClock.isEmpty()) {
      toldOfClock = back.isZero() ? "" : SteadyClock.setBackText(back);
      pages.sendAll(clockSays(toldOfClock));
    }
    pages.sendAll(Messages.of("ping").put("sentMs", nowMs()));
    Instant since = askedSince;
    if (since != null
        && settings.setting().clock().instant().isAfter(since.plus(ANSWER_WAITED_FOR))) {
      askedSince = null;
      live.leaveOpen();
    }
  }
}
