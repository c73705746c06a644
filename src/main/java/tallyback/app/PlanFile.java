package tallyback.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Locale;
import java.util.Optional;

/**
 * Writes plan files: whole or not at all, and never over one that somebody may have written by hand
 * without a copy of it beside it.
 */
public final class PlanFile {

  private static final int MOST_COPIES = 10_000;

  private PlanFile() {}

  /**
   * Checks the ending before any work is done.
   *
   * @throws WrongUse if no plan would be looked for under such a name
   */
  public static void requireKnownEnding(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (!name.endsWith(".yaml") && !name.endsWith(".yml")) {
      throw new WrongUse(
          file + ": expected a name that ends in .yaml, found another ending; give it that one");
    }
  }

  /**
   * Writes a plan beside its place first and moves it there when it is whole.
   *
   * @param file the file
   * @param text the plan
   * @return the copy of what stood there before with other words; empty when nothing did
   * @throws WrongUse if it can't be written there
   * @throws MachineFailed if it can't be written
   */
  public static Optional<Path> write(Path file, String text) {
    return write(file, text, true);
  }

  /**
   * Likewise.
   *
   * @param keepsBefore false when what stands there was written from here and nobody's hand
   */
  static Optional<Path> write(Path file, String text, boolean keepsBefore) {
    requireKnownEnding(file);
    Path target = file.toAbsolutePath();
    Path folder = target.getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw new WrongUse(file + ": its folder doesn't exist; make it or name another");
    }
    if (Files.isDirectory(target)) {
      throw new WrongUse(file + ": that is a folder; name a file");
    }
    try {
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      Optional<Path> copy = Optional.empty();
      if (Files.exists(target)) {
        byte[] before = Files.readAllBytes(target);
        if (java.util.Arrays.equals(before, bytes)) {
          return Optional.empty();
        }
        if (keepsBefore) {
          copy = Optional.of(copy(target, before));
        }
      }
      WholeFile.write(target, bytes);
      return copy;
    } catch (IOException e) {
      throw new MachineFailed(
          file + ": can't be written (" + e.getMessage() + "); check the folder and its free space",
          e);
    }
  }

  /** Whether a file is such a copy, by its name. */
  static boolean isCopy(Path file) {
    return file.getFileName().toString().matches(".*\\.before-[0-9]+\\.[^.]+");
  }

  /** {@code plan.yaml} is kept as {@code plan.before-1.yaml}, the next one as -2. */
  private static Path copy(Path target, byte[] bytes) throws IOException {
    String name = target.getFileName().toString();
    int dot = name.lastIndexOf('.');
    for (int number = 1; number <= MOST_COPIES; number++) {
      Path copy =
          target.resolveSibling(name.substring(0, dot) + ".before-" + number + name.substring(dot));
      try {
        Files.write(
            copy,
            bytes,
            StandardOpenOption.CREATE_NEW,
            StandardOpenOption.WRITE,
            StandardOpenOption.SYNC);
        return copy;
      } catch (FileAlreadyExistsException taken) {
        // The next number, then.
      }
    }
    throw new IOException("more than " + MOST_COPIES + " copies of it lie there");
  }
}
