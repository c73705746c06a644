package tallyback.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;
import tallyback.log.sqlite.SqliteLogs;

/** Which data file a command means. */
final class DataOption {

  @Option(
      names = "--data",
      paramLabel = "FILE",
      description = "The data file; one file holds many jobs.")
  private @Nullable Path data;

  @Option(
      names = HOME,
      paramLabel = "DIR",
      description =
          "The folder of the data file jobs.tallyback, used when --data isn't given. Default:"
              + " $$TALLYBACK_HOME, else tallyback in $$XDG_DATA_HOME or ~/.local/share.")
  private @Nullable Path home;

  static final String HOME = "--home";

  /** True when a data file was named. */
  boolean named() {
    return data != null;
  }

  /** The data file to read; it is there. */
  Path toRead() {
    if (data == null) {
      Path usual = usualFolder().resolve("jobs.tallyback");
      if (!Files.exists(usual)) {
        throw new WrongUse(
            usual
                + ": there is no data file there yet; name one with --data, or note something"
                + " first");
      }
      return usual;
    }
    if (!Files.exists(data)) {
      throw new WrongUse(
          data + ": there is no such data file; name another, or note something first");
    }
    return data;
  }

  /** The data file, if there is one; one that was named must be there. */
  Optional<Path> ifThere() {
    if (data != null) {
      return Optional.of(toRead());
    }
    return Optional.of(usualFolder().resolve("jobs.tallyback")).filter(Files::exists);
  }

  /** The data file to write; makes the default folder when it is the one meant. */
  Path toWrite() {
    if (data != null) {
      return data;
    }
    Path folder = usualFolder();
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new MachineFailed(
          folder + ": the data folder can't be made; name a data file with --data", e);
    }
    return folder.resolve("jobs.tallyback");
  }

  /**
   * The same; a file of an older version is made new first, and that is told when it takes long.
   */
  Path toWrite(Console console) {
    return upToDate(toWrite(), console);
  }

  /** The data file to go on with, which is there; made new and told likewise. */
  Path toGoOn(Console console) {
    return upToDate(toRead(), console);
  }

  private static Path upToDate(Path file, Console console) {
    SqliteLogs.bringUpToDate(
        file,
        (done, all) -> {
          console
              .err()
              .println(
                  String.format(
                      Locale.ROOT,
                      "%s comes from an older version and is made new: %,d of %,d entries",
                      file.getFileName(),
                      done,
                      all));
          console.err().flush();
        });
    return file;
  }

  /** The folder of what the tool keeps for this user. */
  Path usualFolder() {
    return new HomeFolder(home, System.getenv()).data();
  }
}
