package tallyback.bench;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.StringJoiner;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.planning.PlanLint;
import tallyback.speech.CmuLexicon;
import tallyback.voice.freetts.FreeTtsVoice;

/**
 * How long lint takes for a plan of 500 items, each with a spoken name of two words and a third of
 * them with a torque: all of it, and what of that is reading and what the grammar. Median of 15
 * rounds after warming up, in processor time of all threads and by the clock, and the first of all.
 */
public final class LintFigures {

  private static final int ITEMS = 500;
  private static final int ROUNDS = 15;

  /** So many are needed until the virtual machine has compiled all of it. */
  private static final int WARMING_UP = 40;

  private static final List<String> WHERE =
      List.of(
          "radiator",
          "gearbox",
          "throttle",
          "exhaust",
          "cylinder",
          "battery",
          "alternator",
          "crankshaft",
          "manifold",
          "hydraulic",
          "steering",
          "clutch",
          "injector",
          "turbo",
          "valve",
          "piston",
          "compressor",
          "flywheel",
          "governor",
          "chassis",
          "cabin",
          "fender",
          "tractor",
          "loader",
          "trailer",
          "winch",
          "boom",
          "bucket",
          "track",
          "sprocket",
          "chain",
          "axle",
          "differential",
          "universal",
          "propeller",
          "hub",
          "spindle",
          "knuckle",
          "damper",
          "tank",
          "lever",
          "pedal",
          "wiper",
          "switch",
          "lamp",
          "horn",
          "mirror",
          "window",
          "door",
          "seat");

  private static final List<String> WHAT =
      List.of(
          "bolts",
          "nuts",
          "screws",
          "clamp",
          "gasket",
          "bracket",
          "cover",
          "hose",
          "connector",
          "sensor");

  private LintFigures() {}

  /** The plan as YAML. */
  static String text() {
    StringJoiner text = new StringJoiner("\n", "", "\n");
    text.add("tallyback-plan: 1").add("name: five hundred items").add("items:");
    int items = 0;
    for (String where : WHERE) {
      for (String what : WHAT) {
        items++;
        boolean torqued = what.equals("bolts") || what.equals("nuts") || what.equals("screws");
        text.add(
            "  - {say: [%s %s], thing: %s%s}"
                .formatted(
                    where,
                    what,
                    torqued ? what.substring(0, what.length() - 1) : "part",
                    torqued
                        ? ", count: 4, thread: M8x1.25, grade: \"8.8\", head: 13 mm, torque: {value: 24"
                            + " N·m, tolerance: 10 %, tolerance-from: made up for this}"
                        : ""));
      }
    }
    if (items != ITEMS) {
      throw new IllegalStateException(items + " items");
    }
    text.add("steps:");
    for (String where : WHERE) {
      StringJoiner ids = new StringJoiner(", ", "[", "]");
      WHAT.forEach(what -> ids.add(where + "-" + what));
      text.add("  - {say: [strip %s], off: %s}".formatted(where, ids));
      text.add("  - {say: [fit %s], on: %s, needs: strip-%s}".formatted(where, ids, where));
    }
    return text.toString();
  }

  /** Prints the figures. */
  public static void main(String[] arguments) {
    String text = text();
    CmuLexicon lexicon = CmuLexicon.load();
    double first = lint(text, lexicon);
    for (int round = 0; round < WARMING_UP; round++) {
      double unused = lint(text, lexicon);
    }
    double[] all = new double[ROUNDS];
    double[] clock = new double[ROUNDS];
    double[] reading = new double[ROUNDS];
    double[] grammar = new double[ROUNDS];
    for (int round = 0; round < ROUNDS; round++) {
      long began = System.nanoTime();
      all[round] = lint(text, lexicon);
      clock[round] = (System.nanoTime() - began) / 1e6;
      long start = processorNanos();
      Plan plan = PlanReader.read("p", text).plan().orElseThrow();
      reading[round] = since(start);
      start = processorNanos();
      int faults = EntryGrammar.of(plan).lint(lexicon).size();
      grammar[round] = since(start) + faults;
    }
    Arrays.sort(all);
    Arrays.sort(clock);
    Arrays.sort(reading);
    Arrays.sort(grammar);
    System.out.printf(
        Locale.ROOT,
        "lint of %d items: median %.0f ms (%.0f to %.0f), the first %.0f; of that reading %.0f,"
            + " grammar %.0f ms; by the clock %.0f ms (%.0f to %.0f)%n",
        ITEMS,
        all[ROUNDS / 2],
        all[0],
        all[ROUNDS - 1],
        first,
        reading[ROUNDS / 2],
        grammar[ROUNDS / 2],
        clock[ROUNDS / 2],
        clock[0],
        clock[ROUNDS - 1]);
  }

  private static double lint(String text, CmuLexicon lexicon) {
    long start = processorNanos();
    PlanReading read = PlanReader.read("p", text);
    Optional<?> heaviest = PlanLint.of("p", read, lexicon, FreeTtsVoice::sounds).heaviest();
    double taken = since(start);
    if (heaviest.isPresent()) {
      PlanLint.of("p", read, lexicon, FreeTtsVoice::sounds)
          .faults()
          .forEach(fault -> System.out.println(fault.weighedText()));
      throw new IllegalStateException("the plan is not right");
    }
    return taken;
  }

  /** Of all threads, so that other work on the machine does not count. */
  private static long processorNanos() {
    return ((com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
        .getProcessCpuTime();
  }

  private static double since(long start) {
    return (processorNanos() - start) / 1e6;
  }
}
