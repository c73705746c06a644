package tallyback.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.Ear;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.WrongUse;
import tallyback.voice.freetts.FreeTtsVoice;
import tallyback.web.PageServer;

/** A page on this machine through which a job is noted live. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description = {
      "Opens a page on this machine for a browser with a microphone: notes what is said and says it"
          + " back, and shows how the job stands. Only this machine can open it. Ctrl+C ends it;"
          + " what is noted is on disk."
    })
final class ServeCommand implements Callable<Integer> {

  /** How long a closing program waits for what was said last. */
  private static final long LAST_WORDS_MS = 10_000;

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description = "The job's plan, always the same one for a job.")
  private @Nullable Path plan;

  @Option(
      names = "--attention",
      paramLabel = "WORD|none",
      description =
          "The word that begins every entry, of three syllables or more; the page can switch to"
              + " open or held listening. none: only those two. Default: ${DEFAULT-VALUE}.",
      defaultValue = "toolmaker")
  private String attention = "toolmaker";

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "Where the page is; 0 takes any that is free. Default: ${DEFAULT-VALUE}.",
      defaultValue = "7117")
  private int port;

  @Option(names = "--silent", description = "Say nothing aloud; only show.")
  private boolean silent;

  ServeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InterruptedException {
    Path named = plan;
    if (named == null) {
      throw new WrongUse("--plan: expected the job's plan; name one, such as a file in seeds/");
    }
    if (port < 0 || port > 65_535) {
      throw new WrongUse("--port " + port + ": expected 0 to 65535; the usual one is 7117");
    }
    Ear.loadAhead();
    LoadedPlan loaded = LoadedPlan.of(named);
    String word = attention.equals("none") ? null : attention.toLowerCase(Locale.ROOT);
    Ear.requireKnown(loaded, word);
    PageServer.Settings settings =
        new PageServer.Settings(
            loaded,
            data.toWrite(),
            job.id(),
            word,
            port,
            new JobDesk.Setting("page", "mechanic", console.zone(), console.clock()),
            silent ? null : FreeTtsVoice::open);
    try (PageServer server = PageServer.open(settings, this::say)) {
      console.out().println("open " + server.address() + " in a browser on this machine");
      console.out().flush();
      runUntilInterrupted(server);
    }
    return ExitCode.CLEAR;
  }

  private void say(String line) {
    console.err().println(line);
    console.err().flush();
  }

  /** Ctrl+C ends the listening, not the program at once: what was just said is still noted. */
  private static void runUntilInterrupted(PageServer server) throws InterruptedException {
    Thread listening = Thread.currentThread();
    Thread last =
        new Thread(
            () -> {
              server.stop();
              try {
                listening.join(LAST_WORDS_MS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            },
            "last-words");
    Runtime.getRuntime().addShutdownHook(last);
    server.run();
  }
}
