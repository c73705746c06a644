package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Limits on time, in processor time of this thread so that other work on the machine does not
 * count, and on size.
 */
class GrammarSpeedTest {

  private static final List<String> CONTEXTS =
      List.of(
          "%s off",
          "%s back on",
          "lost a %s",
          "found the %s",
          "new %s",
          "old %s",
          "%s hand tight",
          "check the %s",
          "%s by feel",
          "the %s is leaking",
          "photo of the %s",
          "%s renewed");

  /** 150 names of two words, each in twelve contexts with a tag of its own. */
  private static String manyNames() {
    StringBuilder rules = new StringBuilder("#JSGF V1.0; grammar many;\n<entry> = ");
    for (int i = 0; i < CONTEXTS.size(); i++) {
      rules
          .append(i == 0 ? "" : "\n | ")
          .append(CONTEXTS.get(i).replace("%s", "<item>"))
          .append(" {c" + i + "}");
    }
    rules.append(";\n<item> = ");
    for (int i = 0; i < 150; i++) {
      rules
          .append(i == 0 ? "" : "\n | ")
          .append("first" + i / 10 + " second" + i % 37 + " {item" + i + "}");
    }
    return rules.append(";\n").toString();
  }

  private static long processorNanos() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static long median(long[] times) {
    Arrays.sort(times);
    return times[times.length / 2];
  }

  @Test
  void manyNamesInManyContextsCompileInTimeAndStaySmall() {
    List<JsgfFile> files = List.of(JsgfReader.read("many", manyNames()));
    CompiledGrammar grammar = CompiledGrammar.compile(files, "entry");
    long[] nanos = new long[9];
    for (int i = 0; i < nanos.length; i++) {
      long before = processorNanos();
      grammar = CompiledGrammar.compile(files, "entry");
      nanos[i] = processorNanos() - before;
    }
    long medianMs = median(nanos) / 1_000_000;
    System.out.println(
        "150 names in 12 contexts: " + grammar.graph() + ", compiled in " + medianMs + " ms");
    assertTrue(medianMs < 300, "compiled in " + medianMs + " ms");
    assertTrue(grammar.graph().stateCount() < 300, grammar.graph().toString());
    assertEquals(List.of(), GrammarLint.check(grammar));
  }

  @Test
  void phrasesAreReadInLessThanAMillisecond() {
    CompiledGrammar grammar =
        CompiledGrammar.compile(List.of(JsgfReader.read("many", manyNames())), "entry");
    PhraseMaker maker = new PhraseMaker(grammar, new Random(11));
    long[] nanos = new long[2000];
    for (int i = 0; i < nanos.length; i++) {
      List<String> phrase = maker.next();
      long before = processorNanos();
      assertEquals(1, grammar.parse(phrase).size());
      nanos[i] = processorNanos() - before;
    }
    assertTrue(median(nanos) < 1_000_000, "read in " + median(nanos) + " ns");
  }

  @Test
  void longInputIsReadWithinTheLimitAndRefusedBeyond() {
    CompiledGrammar grammar =
        CompiledGrammar.compile(
            List.of(
                JsgfReader.read(
                    "loop",
                    "#JSGF V1.0; grammar loop;\n<entry> = <NULL> {n<} (<a> | <b>)+ {>}; <a> = one {x}; <b> = one {x};")),
            "entry");
    List<String> longest = Collections.nCopies(CompiledGrammar.LONGEST_PHRASE_WORDS, "one");
    long before = processorNanos();
    assertEquals(1, grammar.parse(longest).size());
    long ms = (processorNanos() - before) / 1_000_000;
    assertTrue(ms < 500, "read in " + ms + " ms");
    List<String> longer = new ArrayList<>(longest);
    longer.add("one");
    assertEquals(List.of(), grammar.parse(longer));
    assertEquals(List.of(), grammar.parse(Collections.nCopies(1_000_000, "one")));
  }

  @Test
  void hopelesslyAmbiguousPhraseGivesAtMostSixteenReadings() {
    CompiledGrammar grammar =
        CompiledGrammar.compile(
            List.of(
                JsgfReader.read(
                    "loop", "#JSGF V1.0; grammar loop;\n<entry> = (one {x} | one {y})+;")),
            "entry");
    assertEquals(16, grammar.parse(Collections.nCopies(100, "one")).size());
  }
}
