package tallyback.model;

import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * One way in which the job differs from the expected one. Findings are values: all are gathered,
 * none is thrown.
 *
 * @param id tells it from every other finding of its job, whatever it says: its kind and what it is
 *     about, the same from one check to the next
 * @param kind short name of the kind, stable once published, such as {@code item-left-in-tray}
 * @param weight stop, check or note
 * @param stages which of the three stages of the verdict it stands against
 * @param subject what it is about, in the plan's own words
 * @param expected what was expected, in words with units
 * @param found what was found, in words with units
 * @param difference the difference with its unit and direction ("short 0.62 L"), or null
 * @param tolerance the tolerance it was held against and where that comes from, or null
 * @param entries ids of the entries that are its evidence, oldest first
 * @param remedy what to do, safe state first, one sentence
 * @param followers findings that only follow from this one
 */
public record Finding(
    String id,
    String kind,
    Weight weight,
    List<Stage> stages,
    String subject,
    String expected,
    String found,
    @Nullable String difference,
    @Nullable String tolerance,
    List<String> entries,
    String remedy,
    List<Finding> followers) {

  private static final Pattern QUOTED = Pattern.compile("\"([^\"]*)\".*");

  /** The three stages of the verdict. */
  public enum Stage {
    /** May be started for test. */
    START_FOR_TEST,
    /** May go to work. */
    WORK,
    /** May be handed over. */
    HAND_OVER
  }

  /** Copies its lists. */
  public Finding {
    stages = List.copyOf(stages);
    entries = List.copyOf(entries);
    followers = List.copyOf(followers);
  }

  /** One that is told from others by its kind and subject. */
  public Finding(
      String kind,
      Weight weight,
      List<Stage> stages,
      String subject,
      String expected,
      String found,
      @Nullable String difference,
      @Nullable String tolerance,
      List<String> entries,
      String remedy,
      List<Finding> followers) {
    this(
        kind + " " + subject,
        kind,
        weight,
        stages,
        subject,
        expected,
        found,
        difference,
        tolerance,
        entries,
        remedy,
        followers);
  }

  /** What it says, in one line: what an answer to it was given to. */
  public String says() {
    return difference == null ? found : found + ", " + difference;
  }

  /**
   * What was found, in the few words that fit on a wall or in an ear: of fluid what is short or
   * over, which tells more than what is in; of a state that was not said, which one it is.
   */
  public String inShort() {
    if (kind.equals("state-unsaid")) {
      return QUOTED.matcher(expected).replaceFirst("$1") + " " + found;
    }
    return kind.startsWith("fluid-") && difference != null ? difference : found;
  }
}
