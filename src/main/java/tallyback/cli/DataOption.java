package tallyback.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.MachineFailed;

/** Which data file and which job a command means. */
final class DataOption {

  @Option(
      names = "--data",
      paramLabel = "FILE",
      description = "The data file; one file holds many jobs.")
  private @Nullable Path data;

  @Option(
      names = "--home",
      paramLabel = "DIR",
      description = "The folder for what the tool keeps; default is the user's data folder.")
  private @Nullable Path home;

  @Option(
      names = "--job",
      paramLabel = "ID",
      description = "The job; default is the only open one, else the newest.")
  private @Nullable String job;

  /** True when a data file was named. */
  boolean named() {
    return data != null;
  }

  /** The data file to read. */
  Path toRead() {
    return data != null ? data : home(System.getenv()).resolve("jobs.tallyback");
  }

  /** The data file to write; makes the default folder when it is the one meant. */
  Path toWrite() {
    if (data != null) {
      return data;
    }
    Path folder = home(System.getenv());
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new MachineFailed(
          folder + ": the data folder can't be made; name a data file with --data", e);
    }
    return folder.resolve("jobs.tallyback");
  }

  /** The job asked for, or null. */
  @Nullable String job() {
    return job;
  }

  /** XDG Base Directory: data go to $XDG_DATA_HOME, by default ~/.local/share. */
  private Path home(Map<String, String> environment) {
    if (home != null) {
      return home;
    }
    String own = environment.get("TALLYBACK_HOME");
    if (own != null && !own.isEmpty()) {
      return Path.of(own);
    }
    String xdg = environment.get("XDG_DATA_HOME");
    Path base =
        xdg != null && Path.of(xdg).isAbsolute()
            ? Path.of(xdg)
            : Path.of(System.getProperty("user.home"), ".local", "share");
    return base.resolve("tallyback");
  }
}
