package tallyback.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.util.JavalinBindException;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.eclipse.jetty.websocket.api.StatusCode;
import org.jspecify.annotations.Nullable;
import tallyback.app.JobDesk;
import tallyback.app.LiveJob;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
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

  private final Settings settings;
  private final Pages pages = new Pages();
  private final JobBoard board;
  private final PageSound sound;
  private final LiveJob live;
  private final PageTalk talk;
  private final Javalin server;
  private final LocalOnly local;

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

    /** Now, in milliseconds since 1970. */
    long nowMs() {
      return setting.clock().instant().toEpochMilli();
    }
  }

  private PageServer(Settings settings, Consumer<String> ready) {
    this.settings = settings;
    this.board = new JobBoard(settings, pages, ready);
    this.sound = new PageSound(this::alreadyNoted, new Acknowledging());
    PagePlayer player = new PagePlayer(pages::listening, link -> link.send(Messages.of("hush")));
    this.live =
        new LiveJob(
            new LiveJob.Settings(
                settings.plan(),
                () ->
                    JobDesk.open(
                        settings.data(),
                        settings.plan(),
                        settings.job(),
                        settings.setting().clock().instant(),
                        settings.setting()),
                settings.attention(),
                sound::isHeld,
                true,
                settings.voice(),
                settings.voice() == null ? null : () -> player,
                settings.setting().clock()),
            board::tell);
    this.talk = new PageTalk(settings, pages, board, sound, player, live);
    this.server = Javalin.create(this::configure);
    try {
      server.start(LOOPBACK, settings.port());
    } catch (JavalinBindException e) {
      board.close();
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
    board.every(PING_EVERY, this::ping);
    try {
      live.run(sound);
      board.state("ended", PageTexts.OVER);
    } catch (IOException e) {
      throw new MachineFailed("the page's sound has failed (" + e.getMessage() + ")", e);
    } catch (RuntimeException e) {
      board.state("failed", String.valueOf(e.getMessage()));
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
    board.close();
    pages.all().forEach(link -> link.close(StatusCode.SHUTDOWN, PageTexts.OVER));
    server.stop();
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
    config.routes.ws("/live", talk::configure);
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
    health
        .put("schema", 1)
        .put("state", board.state())
        .put("job", board.job())
        .put("pages", pages.count());
    health.put("listening", pages.listening() != null);
    context
        .status(board.state().equals("listening") ? 200 : 503)
        .contentType("application/json")
        .result(health.toString());
  }

  private long alreadyNoted(String stream) {
    String known = board.job();
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

  private void ping() {
    pages.sendAll(Messages.of("ping").put("sentMs", settings.nowMs()));
    if (board.hasWaitedInVain()) {
      live.leaveOpen();
    }
  }
}
