package tallyback.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.NoiseDiary;
import tallyback.app.WrongUse;

/** Whether the noises of the shop are learned while somebody works in them. */
final class NoiseOption {

  static final String ON = "on";
  private static final String OFF = "off";

  @Option(
      names = "--learn-noise",
      paramLabel = "on|off",
      description =
          "Get used to the noises of the shop while listening, at a fifth of one core at most."
              + " Default: $$TALLYBACK_LEARN_NOISE, else learn-noise in settings.txt of the home,"
              + " else on.")
  private @Nullable String learnNoise;

  /** Where what is learned is written down; null when nothing is to be learned. */
  @Nullable NoiseDiary diary(Path home) {
    return set(home).value().equals(ON) ? new NoiseDiary(home) : null;
  }

  /**
   * What was set, and where.
   *
   * @throws WrongUse if it is neither on nor off
   */
  Setting.Set set(Path home) {
    Setting.Set set = Setting.LEARN_NOISE.value(learnNoise, System.getenv(), home);
    if (!set.value().equals(ON) && !set.value().equals(OFF)) {
      throw new WrongUse(
          "learn-noise " + set.value() + " (" + set.origin() + "): expected on or off");
    }
    return set;
  }
}
