package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WithoutPlanTest {

  @TempDir private Path folder;

  private Path data() {
    return folder.resolve("job.tallyback");
  }

  private Ran enter(String line) {
    return Ran.command("enter", "--data", data(), line);
  }

  @Test
  void aJobBeginsWithoutAPlanAndBecomesOne() throws IOException {
    Ran first = enter("five bolts ten millimetre out of the belly pan");
    assertEquals(0, first.code(), first.err());
    assertTrue(first.err().startsWith("no plan: whatever comes off is expected to go back"));
    assertTrue(first.err().contains("mind: engine stopped"), first.err());
    Ran second = enter("belly pan off");
    assertEquals("", second.err());
    Ran check = Ran.command("check", "--data", data());
    assertEquals(1, check.code());
    assertTrue(check.out().contains("belly pan bolts"), check.out());

    Path plan = folder.resolve("pan.yaml");
    Ran drawn = Ran.command("plan-from-job", "--data", data(), "--out", plan);
    assertEquals(0, drawn.code(), drawn.err());
    assertEquals(List.of(plan.toAbsolutePath().toString()), drawn.outLines());
    assertEquals(0, Ran.command("lint", plan).code());

    Files.writeString(plan, Files.readString(plan).replace("basis: tear-down", "basis: written"));
    Ran again = Ran.command("plan-from-job", "--data", data(), "--out", plan);
    assertEquals(
        "pan.before-1.yaml: what stood there before" + System.lineSeparator(), again.err());
    assertEquals(
        0,
        Ran.command("enter", "--plan", plan, "--data", data(), "--job", "next", "belly pan off")
            .code());
  }

  @Test
  void theJobsOwnPlanNeedsNoNamingAgain() {
    Path demo = Path.of("demo-data/plan.yaml");
    assertEquals(0, Ran.command("enter", "--plan", demo, "--data", data(), "belly pan off").code());
    // "Splash guard bolts" is a name of that plan.
    Ran more = enter("six splash guard bolts off");
    assertEquals(0, more.code(), more.err());
    assertEquals("", more.err());
    assertEquals(
        2,
        Ran.command(
                "enter",
                "--plan",
                "seeds/engine-oil-and-filter.yaml",
                "--data",
                data(),
                "oil filter off")
            .code());
  }

  @Test
  void whatCannotBeDecidedIsAskedAndEndsWithOne() {
    enter("the belly pan bolts off");
    Ran drawn = Ran.command("plan-from-job", "--data", data());
    assertEquals(1, drawn.code());
    assertEquals(
        "open: belly pan bolts: how many? Said to be off without a number" + System.lineSeparator(),
        drawn.err());
    assertTrue(drawn.out().contains("# count: OPEN."), drawn.out());
  }

  @Test
  void badUseIsToldInALine() {
    enter("belly pan off");
    assertEquals(
        Ran.failed(
            2,
            "plan.txt: expected a name that ends in .yaml, found another ending; give it that one"),
        Ran.command("plan-from-job", "--data", data(), "--out", "plan.txt"));
    assertEquals(2, Ran.command("plan-from-job", "--data", folder.resolve("none")).code());
    assertEquals(
        Ran.failed(
            2,
            "this job has no plan, and such jobs have nothing in common; draw one with"
                + " 'plan-from-job' and use it next time"),
        Ran.command("plan-learn", "--data", data()));
  }

  @Test
  void aPlanLearnsFromItsClosedJobs() throws IOException {
    Path demo = Path.of("demo-data/plan.yaml");
    assertEquals(
        2,
        Ran.command(
                "plan-learn", "--data", twoJobs(demo), "--plan", "seeds/engine-oil-and-filter.yaml")
            .code());
    Ran learned = Ran.command("plan-learn", "--data", data(), "--plan", demo);
    assertEquals(0, learned.code(), learned.err());
    assertTrue(
        learned.out().contains("strip belt                    median 25 min of 2 jobs: 20, 30"),
        learned.out());
    Path plan = folder.resolve("next.yaml");
    assertEquals(
        0, Ran.command("plan-learn", "--data", data(), "--plan", demo, "--out", plan).code());
    assertTrue(Files.readString(plan).contains("# minutes: median 25 min of 2 jobs: 20, 30\n"));
    assertEquals(0, Ran.command("lint", plan).code());
  }

  private Path twoJobs(Path plan) {
    for (int job = 1; job <= 2; job++) {
      for (String line :
          List.of(
              "@2026-03-0" + job + "T09:00:00Z starting strip belt",
              "@2026-03-0" + job + "T09:" + (job + 1) + "0:00Z strip belt done")) {
        Ran.command("enter", "--plan", plan, "--data", data(), "--job", "job-" + job, line);
      }
      assertEquals(0, Ran.command("close", "--data", data(), "--job", "job-" + job).code());
    }
    return data();
  }

  @Test
  void thePhraseCardListsTheNamesThereAre() {
    Ran card = Ran.command("phrases");
    assertEquals(0, card.code());
    assertTrue(card.out().contains("belly pan, splash guard"), card.out());
    assertTrue(card.out().contains("place thirty"), card.out());
  }
}
