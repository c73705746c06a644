package tallyback.app;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tallyback.speech.adapt.NoiseModel;

/**
 * What came of learning the shop's noises, written down in the home so that it can be looked up
 * later: {@code noises.tsv}, a line for each noise that was tried, the latest last.
 *
 * <p>Thread rule: one thread writes; what is read is read anew each time.
 */
public final class NoiseDiary {

  private static final String FILE = "noises.tsv";
  private static final String HEADINGS = "time\tphrases\tbefore\tafter\tused";
  private static final int MOST_LINES = 100;

  private final Path home;

  /** The diary in a home folder; nothing is made before something is written down. */
  public NoiseDiary(Path home) {
    this.home = home;
  }

  /**
   * A noise that was tried.
   *
   * @param at when
   * @param phrases how many known phrases were put into it for the trial
   * @param before how many of them were told from what is easily mistaken for them
   * @param after how many once it was learned
   * @param used whether it is used: it was no worse in anything, and better in something
   */
  public record Tried(Instant at, int phrases, int before, int after, boolean used) {

    static Tried of(Instant at, NoiseModel.Check check) {
      return new Tried(
          at, check.clips(), check.rightBefore(), check.rightAfter(), check.isBetter());
    }

    /** In a line, for who works in that noise. */
    public String said() {
      return used
          ? "Used to this noise now: "
              + after
              + " of "
              + phrases
              + " trial phrases, before "
              + before
          : "Not used to this noise: learning it was no help";
    }
  }

  /** Writes one down. It is no loss that must stop anybody when that fails. */
  void add(Tried tried) {
    List<String> lines = new ArrayList<>();
    lines.add(HEADINGS);
    List<Tried> all = new ArrayList<>(all());
    all.add(tried);
    all.subList(Math.max(0, all.size() - MOST_LINES), all.size())
        .forEach(each -> lines.add(line(each)));
    try {
      new PrivateFolder(home)
          .write(FILE, (String.join("\n", lines) + "\n").getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      // The noise is learned all the same; only that it was is not written down.
    }
  }

  /** What was tried, the latest last; what can't be read is left out. */
  public List<Tried> all() {
    try {
      return Files.readAllLines(home.resolve(FILE)).stream()
          .map(NoiseDiary::read)
          .flatMap(Optional::stream)
          .toList();
    } catch (NoSuchFileException | CharacterCodingException e) {
      return List.of();
    } catch (IOException e) {
      throw new MachineFailed(
          home.resolve(FILE) + ": can't be read (" + e.getMessage() + "); check who may read it",
          e);
    }
  }

  private static String line(Tried tried) {
    return String.join(
        "\t",
        tried.at().toString(),
        Integer.toString(tried.phrases()),
        Integer.toString(tried.before()),
        Integer.toString(tried.after()),
        tried.used() ? "yes" : "no");
  }

  private static Optional<Tried> read(String line) {
    String[] field = line.split("\t", -1);
    if (field.length != HEADINGS.split("\t", -1).length || line.equals(HEADINGS)) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          new Tried(
              Instant.parse(field[0]),
              Integer.parseInt(field[1]),
              Integer.parseInt(field[2]),
              Integer.parseInt(field[3]),
              field[4].equals("yes")));
    } catch (DateTimeException | NumberFormatException e) {
      return Optional.empty();
    }
  }
}
