package tallyback.cli;

import java.nio.file.Path;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.Second;

/** Which second recogniser a command asks, if any. */
final class SecondOption {

  static final String NONE = "none";

  @Option(
      names = "--second",
      paramLabel = "PROGRAM|none",
      description =
          "A second recogniser, a program of yours: what both hear alike is noted, what they don't"
              + " is asked. Each line it reads is the path of a WAV file, and it prints a line of"
              + " words for each. Default: $$TALLYBACK_SECOND, else second in settings.txt of the"
              + " home, else none.")
  private @Nullable String second;

  /** The one to ask about recordings, or null. */
  @Nullable Second ofRecordings(Path home, Consumer<String> trouble) {
    String command = command(home);
    return command == null ? null : Second.recorded(command, trouble);
  }

  /** The one to ask live, or null. */
  @Nullable Second live(Path home, Consumer<String> trouble) {
    String command = command(home);
    return command == null ? null : Second.live(command, trouble);
  }

  /** The program, and where it was set. */
  Setting.Set set(Path home) {
    return Setting.SECOND.value(second, System.getenv(), home);
  }

  private @Nullable String command(Path home) {
    String set = set(home).value();
    return set.equals(NONE) ? null : set;
  }
}
