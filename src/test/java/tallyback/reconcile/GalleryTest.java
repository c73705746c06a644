package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tallyback.model.Finding;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;

/**
 * One tiny plan and job per kind of finding, with the exact text expected. Run with {@code
 * -Dgallery.write=true} to write the expected texts anew; read them before committing.
 */
class GalleryTest {

  private static final Path GALLERY = Path.of("src/test/resources/gallery");

  @TestFactory
  Stream<DynamicTest> everyExampleSaysExactlyThis() throws IOException {
    return examples().stream()
        .map(folder -> DynamicTest.dynamicTest(nameOf(folder), () -> compare(folder)));
  }

  private static List<Path> examples() throws IOException {
    try (Stream<Path> folders = Files.list(GALLERY)) {
      return folders.filter(Files::isDirectory).sorted().toList();
    }
  }

  private static void compare(Path folder) throws IOException {
    String actual = FindingLines.of(outcome(folder));
    Path expected = folder.resolve("expected.txt");
    if (Boolean.getBoolean("gallery.write")) {
      Files.writeString(expected, actual);
    }
    assertEquals(Files.readString(expected), actual, () -> "stale: " + expected);
  }

  private static Outcome outcome(Path folder) throws IOException {
    return Reconciler.reconcile(
        plan(folder),
        JobText.read(Files.readString(folder.resolve("job.txt"))),
        past(folder.resolve("past.txt")));
  }

  /** Lines such as {@code 2025-09-01 cooling 0.2 L ± 0.1 L}; none when there is no file. */
  private static List<PastJob> past(Path file) throws IOException {
    List<PastJob> past = new ArrayList<>();
    for (String line : Files.exists(file) ? Files.readAllLines(file) : List.<String>of()) {
      String[] parts = line.split(" ", 3);
      String[] amounts = parts[2].split(" ± ", 2);
      past.add(
          new PastJob(
              Instant.parse(parts[0] + "T08:00:00Z"),
              Map.of(
                  parts[1],
                  new PastJob.ToppedUp(JobText.amount(amounts[0]), JobText.amount(amounts[1])))));
    }
    return past;
  }

  private static Plan plan(Path folder) throws IOException {
    PlanReading reading = PlanReader.read(folder.resolve("plan.yaml"));
    return reading.plan().orElseThrow(() -> new IllegalStateException(reading.faults().toString()));
  }

  @Test
  void everyKindHasAnExampleOfItsNameThatShowsIt() throws IOException {
    Set<String> withExample = new TreeSet<>();
    for (Path folder : examples()) {
      List<Finding> findings = outcome(folder).findings();
      if (findings.stream().anyMatch(finding -> finding.kind().equals(nameOf(folder)))) {
        withExample.add(nameOf(folder));
      }
    }
    Set<String> kinds =
        Reconciler.kinds().stream().map(Kind::id).collect(Collectors.toCollection(TreeSet::new));
    kinds.removeAll(withExample);
    assertTrue(kinds.isEmpty(), () -> "kinds without an example that shows them: " + kinds);
  }

  @Test
  void everyKindHasATextAndEveryTextAKind() {
    List<String> kinds = Reconciler.kinds().stream().map(Kind::id).sorted().toList();
    assertEquals(kinds, FindingText.kinds().stream().sorted().toList());
  }

  @Test
  void whatAKindFollowsIsAKind() {
    List<String> kinds = Reconciler.kinds().stream().map(Kind::id).toList();
    for (Kind kind : Reconciler.kinds()) {
      assertTrue(kinds.containsAll(kind.follows()), () -> kind.id() + " " + kind.follows());
    }
  }

  private static String nameOf(Path folder) {
    return String.valueOf(folder.getFileName());
  }
}
