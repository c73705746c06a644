package tallyback.reconcile;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;

/**
 * One example of the gallery: a tiny plan, a tiny job, and what is found in it. Also for tests of
 * other packages.
 *
 * @param name the kind of finding that it shows, and what is special about it
 */
public record Example(String name, Plan plan, List<Entry> entries, Outcome outcome) {

  static final Path GALLERY = Path.of("src/test/resources/gallery");

  static List<Path> folders() throws IOException {
    try (Stream<Path> folders = Files.list(GALLERY)) {
      return folders.filter(Files::isDirectory).sorted().toList();
    }
  }

  static Example read(Path folder) throws IOException {
    PlanReading reading = PlanReader.read(folder.resolve("plan.yaml"));
    Plan plan =
        reading.plan().orElseThrow(() -> new IllegalStateException(reading.faults().toString()));
    List<Entry> entries = JobText.read(Files.readString(folder.resolve("job.txt")));
    return new Example(
        String.valueOf(folder.getFileName()),
        plan,
        entries,
        Reconciler.reconcile(plan, entries, past(folder.resolve("past.txt"))));
  }

  /** Lines such as {@code 2025-09-01 cooling 0.2 L ± 0.1 L}; none when there is no file. */
  private static List<EarlierFill> past(Path file) throws IOException {
    List<EarlierFill> past = new ArrayList<>();
    for (String line : Files.exists(file) ? Files.readAllLines(file) : List.<String>of()) {
      String[] parts = line.split(" ", 3);
      String[] amounts = parts[2].split(" ± ", 2);
      past.add(
          new EarlierFill(
              Instant.parse(parts[0] + "T08:00:00Z"),
              Map.of(
                  parts[1],
                  new EarlierFill.ToppedUp(
                      JobText.amount(amounts[0]), JobText.amount(amounts[1])))));
    }
    return past;
  }

  /** The examples of all kinds, by name. */
  public static List<Example> all() throws IOException {
    Stream.Builder<Example> examples = Stream.builder();
    for (Path folder : folders()) {
      examples.add(read(folder));
    }
    return examples.build().toList();
  }

  /** The name of its kind: a second example of one kind is called {@code kind~what-is-special}. */
  public String kindName() {
    return name.replaceAll("~.*", "");
  }

  /** What is special about a second example of a kind, in words; empty for the first. */
  public String special() {
    int from = name.indexOf('~');
    return from < 0 ? "" : name.substring(from + 1).replace('-', ' ');
  }

  private Kind kind() {
    return Reconciler.kinds().stream()
        .filter(kind -> kind.id().equals(kindName()))
        .findFirst()
        .orElseThrow();
  }

  /** How heavy its kind is as a rule. */
  public Weight weight() {
    return kind().weight();
  }

  /** What its kind stands against as a rule. */
  public List<Stage> stages() {
    return kind().stages();
  }

  /** What is found. */
  public List<Finding> findings() {
    return outcome.findings();
  }
}
