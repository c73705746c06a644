package tallyback.cli;

import java.nio.file.Path;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.Second;
import tallyback.app.WrongUse;
import tallyback.speech.SecondKind;

/** Which second recogniser a command asks, if any. */
final class SecondOption {

  static final String NONE = "none";
  private static final String ALIKE = "alike";
  private static final String OTHER = "other";

  @Option(
      names = "--second",
      paramLabel = "PROGRAM|none",
      description =
          "A second recogniser, a program of yours: what both hear alike is noted, what they don't"
              + " is asked. Each line it reads is the path of a WAV file, and it prints a line of"
              + " words for each. Default: $$TALLYBACK_SECOND, else second in settings.txt of the"
              + " home, else none.")
  private @Nullable String second;

  @Option(
      names = "--second-model",
      paramLabel = "alike|other",
      description =
          "other: its model is of another kind, such as a neural one, and its mistakes are its own;"
              + " then what both hear alike is noted in noise too. Default:"
              + " $$TALLYBACK_SECOND_MODEL, else second-model in settings.txt of the home, else"
              + " alike.")
  private @Nullable String secondModel;

  /** The one to ask about recordings, or null. */
  @Nullable Second ofRecordings(Path home, Consumer<String> trouble) {
    String command = command(home);
    return command == null ? null : Second.recorded(command, kind(home), trouble);
  }

  /** The one to ask live, or null. */
  @Nullable Second live(Path home, Consumer<String> trouble) {
    String command = command(home);
    return command == null ? null : Second.live(command, kind(home), trouble);
  }

  /** The program, and where it was set. */
  Setting.Set set(Path home) {
    return Setting.SECOND.value(second, System.getenv(), home);
  }

  /**
   * What was said of its model, and where.
   *
   * @throws WrongUse if it is neither
   */
  Setting.Set model(Path home) {
    Setting.Set set = Setting.SECOND_MODEL.value(secondModel, System.getenv(), home);
    if (!set.value().equals(ALIKE) && !set.value().equals(OTHER)) {
      throw new WrongUse(
          "second-model " + set.value() + " (" + set.origin() + "): expected alike or other");
    }
    return set;
  }

  private SecondKind kind(Path home) {
    return model(home).value().equals(OTHER) ? SecondKind.OTHER : SecondKind.ALIKE;
  }

  private @Nullable String command(Path home) {
    String set = set(home).value();
    return set.equals(NONE) ? null : set;
  }
}
