package tallyback.log.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.LogReader;
import tallyback.model.Entry;

/** A writer killed at any moment loses nothing that it acknowledged, and the next one goes on. */
@Tag("slow")
final class KillTest {

  private static final int KILLS = 30;
  private static final long SEED = 4711;

  @TempDir Path folder;

  @Test
  void thirtyKillsLoseNothingAcknowledgedAndDoubleNothing() throws InterruptedException {
    Path file = folder.resolve("jobs.db");
    Random random = new Random(SEED);
    List<String> acknowledged = new ArrayList<>();
    int unacknowledgedFound = 0;
    for (int round = 1; round <= KILLS; round++) {
      // Starts with the last one that was not acknowledged: it may be there already, and must not
      // be noted twice.
      noteUntilKilled(file, acknowledged, random);
      String context = "round " + round + ", seed " + SEED;
      List<String> ids = soundIds(file, context);
      assertEquals(new HashSet<>(ids).size(), ids.size(), "each id once, " + context);
      assertTrue(
          ids.size() >= acknowledged.size(),
          ids.size() + " of " + acknowledged.size() + ", " + context);
      assertEquals(acknowledged, ids.subList(0, acknowledged.size()), context);
      assertTrue(ids.size() <= acknowledged.size() + 1, "at most one unacknowledged, " + context);
      unacknowledgedFound += ids.size() - acknowledged.size();
    }
    assertTrue(acknowledged.size() > KILLS, "the children noted something: " + acknowledged.size());
    System.out.printf(
        "kill test: %d kills, %d entries acknowledged, all there once; %d more were on disk unacknowledged%n",
        KILLS, acknowledged.size(), unacknowledgedFound);
  }

  private static void noteUntilKilled(Path file, List<String> acknowledged, Random random)
      throws InterruptedException {
    int first = acknowledged.size() + 1;
    ChildProcess child =
        ChildProcess.start("note", file, Integer.toString(first), Integer.toString(1_000_000));
    child.await("open");
    Thread.sleep(random.nextInt(200));
    child.kill();
    child.finish();
    for (String line : child.lines()) {
      // Killed in the middle of printing, a line may be cut short; then nobody was told.
      if (line.matches("noted said-\\d+ \\d+")
          && line.startsWith("noted said-" + (acknowledged.size() + 1) + " ")) {
        acknowledged.add(line.split(" ", -1)[1]);
      }
    }
  }

  private static List<String> soundIds(Path file, String context) {
    try (LogReader reader = SqliteLogs.openForReading(file)) {
      assertEquals(List.of(), reader.verify().problems(), context);
      return reader.entries("pump").stream()
          .map(Entry::id)
          .filter(id -> id.startsWith("said-"))
          .toList();
    }
  }

  @Test
  void killedWhileTheFileIsMadeLeavesNoneOrAWholeOne() throws InterruptedException {
    Random random = new Random(SEED);
    for (int round = 1; round <= 6; round++) {
      Path file = folder.resolve("new" + round + ".db");
      ChildProcess child = ChildProcess.start("note", file, "1", "1");
      Thread.sleep(random.nextInt(500));
      child.kill();
      child.finish();
      if (Files.exists(file)) {
        TestFile.assertSound(file);
      }
      try (JobLog log = SqliteLogs.openForWriting(file)) {
        log.openJob(Examples.draft("pump", "opening", Examples.opening(Examples.PLAN)));
        log.append(NotingProcess.draft(1), null);
        assertEquals(2, log.entries("pump").size());
      }
      assertTrue(Files.notExists(folder.resolve("new" + round + ".db.new")));
    }
  }
}
