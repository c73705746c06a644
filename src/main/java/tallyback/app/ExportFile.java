package tallyback.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Writes exports: all of one or nothing. */
public final class ExportFile {

  private ExportFile() {}

  /** In which form, by the ending of the file's name. */
  public enum Form {
    /** Captions or chapters of a film. */
    VTT,
    /** A table. */
    CSV,
    /** Lines of JSON. */
    JSONL,
    /** A calendar. */
    ICS,
    /** A text to read. */
    MD;

    private String ending() {
      return "." + name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * The form that a file's name asks for.
   *
   * @throws WrongUse if there is none of that ending
   */
  public static Form formOf(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    return Arrays.stream(Form.values())
        .filter(form -> name.endsWith(form.ending()))
        .findFirst()
        .orElseThrow(
            () ->
                new WrongUse(
                    file
                        + ": expected a name that ends in "
                        + Arrays.stream(Form.values())
                            .map(Form::ending)
                            .collect(Collectors.joining(", "))
                        + ", found another ending; give it one of these"));
  }

  /**
   * Checks the place before any work is done.
   *
   * @throws WrongUse if no file can be there
   */
  public static void requirePlace(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw new WrongUse(file + ": its folder doesn't exist; make it or name another");
    }
    if (Files.isDirectory(file)) {
      throw new WrongUse(file + ": that is a folder; name a file");
    }
  }

  /**
   * Writes a text beside its place first and moves it there when it is whole and on disk.
   *
   * @throws WrongUse if no file can be there
   * @throws MachineFailed if it can't be written; what stood there before stands there still
   */
  public static void write(Path file, String text) {
    requirePlace(file);
    Path target = file.toAbsolutePath();
    try {
      WholeFile.write(target, text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new MachineFailed(
          file + ": can't be written (" + e.getMessage() + "); check the folder and its free space",
          e);
    }
  }
}
