package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
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

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Mixin private LiveOptions live = new LiveOptions();

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
    if (port < 0 || port > 65_535) {
      throw new WrongUse("--port " + port + ": expected 0 to 65535; the usual one is 7117");
    }
    LoadedPlan loaded = live.load();
    PageServer.Settings settings =
        new PageServer.Settings(
            loaded,
            data.toWrite(),
            job.id(),
            live.attentionWord(loaded),
            port,
            new JobDesk.Setting("page", "mechanic", console.zone(), console.clock()),
            silent ? null : FreeTtsVoice::open);
    try (PageServer server = PageServer.open(settings, this::say)) {
      console.out().println("open " + server.address() + " in a browser on this machine");
      console.out().flush();
      LiveOptions.endWith(server::stop);
      server.run();
    }
    return ExitCode.CLEAR;
  }

  private void say(String line) {
    console.err().println(line);
    console.err().flush();
  }
}
