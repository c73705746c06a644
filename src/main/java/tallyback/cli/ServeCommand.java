package tallyback.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.PlanShelf;
import tallyback.app.WrongUse;
import tallyback.voice.freetts.FreeTtsVoice;
import tallyback.web.PageServer;
import tallyback.web.lan.Device;
import tallyback.web.lan.Devices;
import tallyback.web.lan.Lan;

/** A page on this machine through which a job is noted live. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description = {
      "Opens a page on this machine for a browser with a microphone: notes what is said and says it"
          + " back, and shows how the job stands. Only this machine can open it, or with --lan a"
          + " phone that was paired too. Ctrl+C ends it; what is noted is on disk."
    })
final class ServeCommand implements Callable<Integer> {

  private static final long LOOK_EVERY_MS = 300;
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Mixin private LiveOptions live = new LiveOptions();
  @Mixin private SecondOption second = new SecondOption();
  @Mixin private NoiseOption noise = new NoiseOption();

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "Where the page is; 0 takes any that is free. Default: ${DEFAULT-VALUE}.",
      defaultValue = "7117")
  private int port;

  @Option(names = "--silent", description = "Say nothing aloud; only show.")
  private boolean silent;

  @Option(
      names = "--lan",
      description =
          "Let phones of the local network be the page, over TLS, once they have the certificate"
              + " and are paired; the certificate is fetched at the port after --port.")
  private boolean lan;

  @Option(
      names = "--address",
      paramLabel = "IP",
      description =
          "With --lan: the address of this machine in the phone's network. Default: the only one.")
  private @Nullable String address;

  @Option(names = "--devices", description = "List the paired devices, and do nothing else.")
  private boolean devices;

  @Option(
      names = "--forget",
      paramLabel = "DEVICE",
      description =
          "Take a paired device away, and do nothing else. One that is connected is cut off within"
              + " seconds.")
  private @Nullable String forget;

  ServeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InterruptedException {
    if (devices || forget != null) {
      return lookAfterDevices();
    }
    if (port < 0 || port > 65_535) {
      throw new WrongUse("--port " + port + ": expected 0 to 65535; the usual one is 7117");
    }
    if (address != null && !lan) {
      throw new WrongUse("--address: only with --lan; without it only this machine is answered");
    }
    if (lan && port == 65_535) {
      throw new WrongUse("--port 65535: with --lan the port after it is needed too; take another");
    }
    LoadedPlan loaded = live.load(data, job, console);
    PageServer.Settings settings =
        new PageServer.Settings(
            loaded,
            data.toWrite(),
            job.id(),
            live.attentionWord(loaded),
            port,
            new JobDesk.Setting("page", "mechanic", console.zone(), console.clock()),
            silent ? null : FreeTtsVoice::open,
            second.live(data.usualFolder(), this::say),
            noise.diary(data.usualFolder()),
            new PlanShelf(data.usualFolder().resolve("plans"), live.plan()));
    Lan phones = lan ? Lan.open(keys(), address, console.clock()) : null;
    try (PageServer server =
        phones == null
            ? PageServer.open(settings, this::say)
            : PageServer.open(settings, phones, this::say)) {
      console.out().println("open " + server.address() + " in a browser on this machine");
      if (phones != null) {
        invite(phones, server);
      }
      console.out().flush();
      LiveOptions.endWith(server::stop);
      server.run();
    }
    return ExitCode.CLEAR;
  }

  private Path keys() {
    return data.usualFolder().resolve("lan");
  }

  private int lookAfterDevices() {
    Devices paired = Lan.devicesIn(keys(), console.clock());
    if (forget != null && !paired.forget(forget)) {
      throw new WrongUse(
          "--forget " + forget + ": no such device is paired; 'serve --devices' lists them");
    }
    if (forget != null) {
      say("taken away: " + forget);
    }
    if (devices) {
      for (Device each : paired.all()) {
        console
            .out()
            .println(
                each.name() + "  paired " + DAY.format(each.pairedAt().atZone(console.zone())));
      }
      if (paired.all().isEmpty()) {
        say("no device is paired");
      }
    }
    return ExitCode.CLEAR;
  }

  private void invite(Lan phones, PageServer server) {
    phones.introduction(server.certificateAddress()).forEach(console.out()::println);
    int paired = phones.devices().all().size();
    if (paired == 0) {
      newCode(phones, server);
    } else {
      // Those who are in need no code, and one that nobody asked for could be guessed.
      phones.welcomeBack(server.lanAddress(), paired).forEach(console.out()::println);
    }
    Thread keys = new Thread(() -> newCodeAtEnter(phones, server), "enter-key");
    keys.setDaemon(true);
    keys.start();
  }

  private synchronized void newCode(Lan phones, PageServer server) {
    phones
        .invitation(server.lanAddress(), console.zone(), console.terminal())
        .forEach(console.out()::println);
    console.out().flush();
  }

  /**
   * Looks whether Enter was pressed rather than waits for it: whoever waits for the terminal is
   * stopped when it is started in the background.
   */
  private void newCodeAtEnter(Lan phones, PageServer server) {
    try {
      while (true) {
        boolean pressed = false;
        while (System.in.available() > 0) {
          pressed |= System.in.read() == '\n';
        }
        if (pressed) {
          newCode(phones, server);
        }
        Thread.sleep(LOOK_EVERY_MS);
      }
    } catch (IOException e) {
      say("Enter can't be read here (" + e.getMessage() + "); start it again for a new code");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void say(String line) {
    console.err().println(line);
    console.err().flush();
  }
}
