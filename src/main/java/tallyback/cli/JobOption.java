package tallyback.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which job of the data file a command means. */
final class JobOption {

  @Option(
      names = "--job",
      paramLabel = "ID",
      description = "The job. Default: the only open one, else the newest.")
  private @Nullable String job;

  /** The job asked for, or null. */
  @Nullable String id() {
    return job;
  }
}
