package tallyback.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;

/**
 * One thing that can be set: by flag, else in the environment, else in the file {@code
 * settings.txt} of the home, else as it is by default.
 *
 * @param name its name: {@code --NAME} as a flag, {@code TALLYBACK_NAME} in the environment, with
 *     an underscore for each hyphen, {@code NAME = VALUE} in the file
 * @param otherwise its value where nobody set it
 */
record Setting(String name, String otherwise) {

  /** The second recogniser, a program of the user's. */
  static final Setting SECOND = new Setting("second", "none");

  /** What its model has in common with the first one's. */
  static final Setting SECOND_MODEL = new Setting("second-model", "alike");

  /** Whether the noises of the shop are learned. */
  static final Setting LEARN_NOISE = new Setting("learn-noise", "on");

  /** What takes the sound out of films. */
  static final Setting FFMPEG = new Setting("ffmpeg", "ffmpeg");

  /** The sheets of the owner's record. */
  static final Setting PAPER = new Setting("paper", "a4");

  /** The units of the owner's record. */
  static final Setting UNITS = new Setting("units", "metric");

  private static final List<Setting> ALL =
      List.of(SECOND, SECOND_MODEL, LEARN_NOISE, FFMPEG, PAPER, UNITS);
  private static final String FILE = "settings.txt";

  /**
   * A value and where it comes from.
   *
   * @param value the value
   * @param origin in words, such as {@code flag}
   */
  record Set(String value, String origin) {}

  /**
   * Its value.
   *
   * @param flag what was given as a flag, or null
   * @param environment the environment of the process
   * @param home the folder of the settings file
   * @throws WrongUse if the file has something in it that is no setting
   */
  Set value(@Nullable String flag, Map<String, String> environment, Path home) {
    if (flag != null) {
      return new Set(flag, "--" + name);
    }
    String variable = "TALLYBACK_" + name.toUpperCase(Locale.ROOT).replace('-', '_');
    String set = environment.getOrDefault(variable, "").strip();
    if (!set.isEmpty()) {
      return new Set(set, "$" + variable);
    }
    Path file = home.resolve(FILE);
    String written = inFile(file).get(name);
    return written == null ? new Set(otherwise, "default") : new Set(written, file.toString());
  }

  /** Everything that the file sets; nothing when there is none. */
  private static Map<String, String> inFile(Path file) {
    List<String> lines;
    try {
      lines = Files.readAllLines(file, StandardCharsets.UTF_8);
    } catch (NoSuchFileException e) {
      return Map.of();
    } catch (IOException e) {
      throw new MachineFailed(
          file + ": can't be read (" + e.getMessage() + "); write it anew, in UTF-8", e);
    }
    Map<String, String> values = new LinkedHashMap<>();
    for (int number = 1; number <= lines.size(); number++) {
      String line = lines.get(number - 1).strip();
      if (!line.isEmpty() && !line.startsWith("#")) {
        int equals = line.indexOf('=');
        String name = equals < 0 ? line : line.substring(0, equals).strip();
        String value = equals < 0 ? "" : line.substring(equals + 1).strip();
        if (value.isEmpty() || ALL.stream().noneMatch(each -> each.name().equals(name))) {
          throw new WrongUse(
              file
                  + " line "
                  + number
                  + ": expected a setting and its value, such as \"second = none\", found \""
                  + line
                  + "\"; 'tallyback settings' lists them");
        }
        values.put(name, value);
      }
    }
    return values;
  }
}
