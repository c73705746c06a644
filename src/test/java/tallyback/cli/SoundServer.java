package tallyback.cli;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * Two sound servers of the test's own: one has a sink whose monitor is the machine's microphone,
 * the other one that is its loudspeaker. A single server would put the loudspeaker's monitor in the
 * place of a microphone that is unplugged. They touch none of the user's: sockets, home and
 * settings lie in the test's folder.
 */
final class SoundServer implements AutoCloseable {

  private static final String SHOP = "shop";
  private static final String EAR = "ear";
  private static final String NULL_SINK = "module-null-sink";

  private final Path folder;
  private final List<Process> servers;
  private String shopModule = "";

  private SoundServer(Path folder, List<Process> servers) {
    this.folder = folder;
    this.servers = servers;
  }

  /** Whether what it needs is installed. */
  static boolean isThere() throws IOException {
    boolean programs =
        Stream.of("pulseaudio", "pactl", "paplay", "parecord")
            .allMatch(name -> Files.isExecutable(Path.of("/usr/bin", name)));
    try (Stream<Path> libraries = Files.list(Path.of("/usr/lib"))) {
      return programs
          && libraries.anyMatch(
              each -> Files.exists(each.resolve("alsa-lib/libasound_module_pcm_pulse.so")));
    }
  }

  static SoundServer start(Path folder) throws IOException, InterruptedException {
    Process shop = server(folder, SHOP);
    Process ear = server(folder, EAR);
    SoundServer started = new SoundServer(folder, List.of(shop, ear));
    started.await(SHOP);
    started.await(EAR);
    started.done(started.ask(EAR, "pactl", "load-module", NULL_SINK, "sink_name=" + EAR), "pactl");
    Files.writeString(
        folder.resolve("asound.conf"),
        """
        pcm.!default {
          type asym
          playback.pcm { type pulse server "unix:%1$s/ear" device "ear" }
          capture.pcm { type pulse server "unix:%1$s/shop" device "shop.monitor" }
        }
        ctl.!default { type pulse server "unix:%1$s/ear" }
        """
            .formatted(folder));
    return started;
  }

  private static Process server(Path folder, String name) throws IOException {
    List<String> command =
        List.of(
            "pulseaudio",
            "-n",
            "--daemonize=no",
            "--use-pid-file=no",
            "--exit-idle-time=-1",
            "--disable-shm=yes",
            "-L",
            "module-native-protocol-unix auth-anonymous=1 socket=" + folder.resolve(name));
    return own(folder, command, folder.resolve(name + ".txt").toFile());
  }

  private void await(String name) throws IOException, InterruptedException {
    for (int i = 0; !Files.exists(folder.resolve(name)); i++) {
      if (i > 300) {
        close();
        throw new AssertionError(said(name));
      }
      Thread.sleep(100);
    }
  }

  private static Process own(Path folder, List<String> command, File says) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("XDG_RUNTIME_DIR", folder.toString());
    builder.environment().put("HOME", folder.toString());
    builder.environment().remove("PULSE_SERVER");
    return builder.redirectErrorStream(true).redirectOutput(says).start();
  }

  private Process ask(String server, String program, Object... words) throws IOException {
    List<String> command = new ArrayList<>(List.of(program));
    command.add("--server=unix:" + folder.resolve(server));
    Stream.of(words).map(String::valueOf).forEach(command::add);
    return own(folder, command, folder.resolve(program + ".txt").toFile());
  }

  private String done(Process process, String program) throws IOException, InterruptedException {
    if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
      throw new AssertionError(program + ": " + said(program));
    }
    return said(program);
  }

  private String said(String program) throws IOException {
    return Files.readString(folder.resolve(program + ".txt"), StandardCharsets.UTF_8).strip();
  }

  /** What stands before a command that is to use these devices. */
  List<String> before() {
    return List.of("env", "ALSA_CONFIG_PATH=" + folder.resolve("asound.conf"));
  }

  /** The microphone is plugged in. */
  void plugIn() throws IOException, InterruptedException {
    shopModule = done(ask(SHOP, "pactl", "load-module", NULL_SINK, "sink_name=" + SHOP), "pactl");
  }

  /** The microphone is unplugged. */
  void unplug() throws IOException, InterruptedException {
    done(ask(SHOP, "pactl", "unload-module", shopModule), "pactl");
  }

  /** Somebody says something near the microphone. */
  Process say(Path recording) throws IOException {
    return ask(SHOP, "paplay", "--device=" + SHOP, recording.toAbsolutePath());
  }

  /** Writes down what the loudspeaker plays, as 16-bit mono samples, little endian. */
  Process writeDown(Path file) throws IOException {
    return ask(
        EAR,
        "parecord",
        "--device=" + EAR + ".monitor",
        "--raw",
        "--rate=16000",
        "--channels=1",
        "--format=s16le",
        file);
  }

  @Override
  public void close() {
    for (Process server : servers) {
      server.destroy();
      try {
        if (!server.waitFor(10, TimeUnit.SECONDS)) {
          server.destroyForcibly();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
