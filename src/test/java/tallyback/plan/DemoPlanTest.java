package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Unit;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;

/** The demo plan makes sense as a job, and everything it and the starter plans name can be said. */
class DemoPlanTest {

  private static final String DICTIONARY = "/edu/cmu/sphinx/models/en-us/cmudict-en-us.dict";

  private static Plan read(Path file) throws IOException {
    return PlanReader.read(file).plan().orElseThrow();
  }

  private static Plan demo() throws IOException {
    return read(Path.of("demo-data", "plan.yaml"));
  }

  private static Set<String> dictionary() throws IOException {
    Set<String> words = new HashSet<>();
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(DemoPlanTest.class.getResourceAsStream(DICTIONARY)),
                StandardCharsets.UTF_8))) {
      in.lines().forEach(line -> words.add(line.split("[ (]", 2)[0]));
    }
    Files.readAllLines(Path.of("grammars", "pronunciations.dict"))
        .forEach(line -> words.add(line.split("[ (]", 2)[0]));
    return words;
  }

  @Test
  void everySpokenWordHasAPronunciation() throws IOException {
    Set<String> known = dictionary();
    List<Path> files = new ArrayList<>(List.of(Path.of("demo-data", "plan.yaml")));
    try (Stream<Path> seeds = Files.list(Path.of("seeds"))) {
      seeds.filter(each -> each.toString().endsWith(".yaml")).forEach(files::add);
    }
    Set<String> missing = new TreeSet<>();
    for (Path file : files) {
      Plan plan = read(file);
      for (Plan.Named named : plan.named()) {
        for (String say : named.say()) {
          for (String word : say.split(" ", -1)) {
            if (!known.contains(word) && !plan.pronunciations().containsKey(word)) {
              missing.add(file + ": " + word);
            }
          }
        }
      }
    }

    assertTrue(known.size() > 100_000);
    assertEquals(Set.of(), missing);
  }

  @Test
  void everyTorqueCanBeReachedWithAWrenchOfThePlan() throws IOException {
    Plan plan = demo();
    List<Instrument> wrenches =
        plan.instruments().stream().filter(each -> each.kind() == InstrumentKind.WRENCH).toList();
    for (Item item : plan.items()) {
      Torque torque = item.torque();
      if (torque != null) {
        assertTrue(
            wrenches.stream().anyMatch(wrench -> covers(wrench, torque.value())), item.label());
      }
    }
  }

  private static boolean covers(Instrument wrench, Amount torque) {
    return wrench.from().base().compareTo(torque.base()) <= 0
        && wrench.to().base().compareTo(torque.base()) >= 0;
  }

  @Test
  void whatComesOutAtTheDrainsLeavesSomethingInside() throws IOException {
    FluidSystem cooling = demo().system("cooling").orElseThrow();
    Rational shares = Rational.ZERO;
    for (Plan.Point drain : cooling.drains()) {
      shares = shares.plus(Objects.requireNonNull(drain.share()).base());
    }

    assertTrue(shares.compareTo(Objects.requireNonNull(cooling.capacity()).base()) < 0);
  }

  @Test
  void everyStepThatTakesOffIsDoneBeforeTheOneThatPutsOn() throws IOException {
    Plan plan = demo();
    for (Item item : plan.items()) {
      Step off = first(plan, step -> step.off().contains(item.id()));
      Step on = first(plan, step -> step.on().contains(item.id()));
      Step earlier = item.temporary() ? on : off;
      Step later = item.temporary() ? off : on;
      assertTrue(earlier.equals(later) || needs(plan, later, earlier), item.id());
    }
  }

  private static Step first(Plan plan, Predicate<Step> wanted) {
    return plan.steps().stream().filter(wanted).findFirst().orElseThrow();
  }

  private static boolean needs(Plan plan, Step step, Step other) {
    return step.needs().stream()
        .map(id -> plan.step(id).orElseThrow())
        .anyMatch(need -> need.equals(other) || needs(plan, need, other));
  }

  @Test
  void stepsStandInAnOrderThatWorks() throws IOException {
    Set<String> done = new HashSet<>();
    for (Step step : demo().steps()) {
      assertTrue(done.containsAll(step.needs()), step.id());
      done.add(step.id());
    }
  }

  @Test
  void dangersAreNamedAtTheStepsThatHaveThem() throws IOException {
    Plan plan = demo();
    for (String id : List.of("make-safe", "drain", "strip-belt", "test-run", "final-check")) {
      assertFalse(plan.step(id).orElseThrow().cautions().isEmpty(), id);
    }
  }

  @Test
  void headSizesAreSocketsOfAnOrdinarySet() throws IOException {
    Set<String> sizes = new TreeSet<>();
    for (Item item : demo().items()) {
      Amount head = item.head();
      if (head != null) {
        assertEquals(Unit.MILLIMETRE, head.unit());
        sizes.add(head.value().toPlainString());
      }
    }

    assertEquals(new TreeSet<>(Set.of("8", "10", "12", "13", "14", "17", "19")), sizes);
  }
}
