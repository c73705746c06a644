package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;

/**
 * Each starter plan is right, and a job done by it reconciles: {@code clean.txt} without a finding
 * and with a clear verdict, {@code faults.txt} with exactly the findings in {@code expected.txt}.
 * Run with {@code -Dgallery.write=true} to write those anew; read them before committing.
 */
class SeedJobsTest {

  private static final Path SEEDS = Path.of("seeds");
  private static final Path JOBS = Path.of("src/test/resources/seeds");
  private static final int FEWEST_SEEDS = 12;
  private static final Set<Thing> THREADED =
      EnumSet.of(Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.STUD, Thing.PLUG);
  private static final int LONGEST_OIL_CHANGE_LINES = 25;

  private static List<Path> seeds() throws IOException {
    try (Stream<Path> files = Files.list(SEEDS)) {
      return files.filter(file -> file.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  private static Path jobs(Path seed) {
    return JOBS.resolve(String.valueOf(seed.getFileName()).replace(".yaml", ""));
  }

  @Test
  void thereAreEnough() throws IOException {
    assertTrue(seeds().size() >= FEWEST_SEEDS);
  }

  /** Nothing at all is said against a starter plan, not even a note. */
  @TestFactory
  Stream<DynamicTest> isRight() throws IOException {
    return seeds().stream()
        .map(
            seed ->
                DynamicTest.dynamicTest(
                    seed.toString(),
                    () ->
                        assertEquals(
                            List.of(),
                            LoadedPlan.lint(seed).faults().stream()
                                .map(fault -> fault.weighedText())
                                .toList())));
  }

  @TestFactory
  Stream<DynamicTest> aJobDoneRightHasNoFindings() throws IOException {
    return seeds().stream()
        .map(seed -> DynamicTest.dynamicTest(seed.toString(), () -> clean(seed)));
  }

  private static void clean(Path seed) throws IOException {
    SeedJob job = SeedJob.run(seed, jobs(seed).resolve("clean.txt"));
    assertEquals(List.of(), job.notNoted());
    assertEquals("start for test CLEAR, work CLEAR, hand over CLEAR\n", job.outcome());
  }

  @TestFactory
  Stream<DynamicTest> aJobWithFaultsHasExactlyThese() throws IOException {
    return seeds().stream()
        .map(seed -> DynamicTest.dynamicTest(seed.toString(), () -> faults(seed)));
  }

  private static void faults(Path seed) throws IOException {
    SeedJob job = SeedJob.run(seed, jobs(seed).resolve("faults.txt"));
    Path expected = jobs(seed).resolve("expected.txt");
    if (Boolean.getBoolean("gallery.write")) {
      Files.writeString(expected, job.outcome());
    }
    assertEquals(List.of(), job.notNoted());
    assertEquals(Files.readString(expected), job.outcome(), () -> "stale: " + expected);
  }

  /** A torque that is left to the manual and never said: nobody can say that it may be started. */
  @Test
  void aTorqueLeftToTheManualAndNeverSaidLeavesTheVerdictOpen(@TempDir Path folder)
      throws IOException {
    Path seed = SEEDS.resolve("engine-oil-and-filter.yaml");
    List<String> lines = new ArrayList<>(Files.readAllLines(jobs(seed).resolve("clean.txt")));
    assertTrue(lines.remove("torqued the sump plug to thirty newton metres"));
    SeedJob job = SeedJob.run(seed, Files.write(folder.resolve("job.txt"), lines));
    assertEquals("start for test OPEN, work OPEN, hand over OPEN\n", job.outcome());
    assertTrue(
        job.job()
            .outcome()
            .unchecked()
            .contains("sump plug: how tight (the plan leaves the torque to your manual)"));
  }

  /** A figure that belongs to the machine is open, so that whoever starts from a seed is told. */
  @Test
  void everyThreadedFastenerLeavesItsTorqueToTheManual() throws IOException {
    List<String> silent = new ArrayList<>();
    for (Path seed : seeds()) {
      Plan plan = LoadedPlan.of(seed).plan();
      for (Plan.Item item : plan.items()) {
        if (THREADED.contains(item.thing())
            && !item.temporary()
            && !plan.leavesOpen(item.id(), "torque")) {
          silent.add(seed + ": " + item.label());
        }
      }
    }
    assertEquals(List.of(), silent);
  }

  /** Short enough to be written from scratch in ten minutes. */
  @Test
  void anOilChangeIsAShortPlan() throws IOException {
    assertTrue(
        Files.readAllLines(SEEDS.resolve("engine-oil-and-filter.yaml")).size()
            <= LONGEST_OIL_CHANGE_LINES);
  }

  /** An editor that knows the line completes and checks a plan while it is written. */
  @Test
  void everySeedNamesTheSchemaBesideIt() throws IOException {
    List<String> without = new ArrayList<>();
    for (Path seed : seeds()) {
      String first = Files.readAllLines(seed).get(0);
      if (!first.equals("# yaml-language-server: $schema=plan.schema.json")) {
        without.add(seed.toString());
      }
    }
    assertEquals(List.of(), without);
    assertTrue(Files.exists(SEEDS.resolve("plan.schema.json")));
  }
}
