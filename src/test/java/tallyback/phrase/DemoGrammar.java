package tallyback.phrase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;

/** The demo job's plan and its grammar, compiled once for all tests. */
final class DemoGrammar {

  static final Plan PLAN = plan("demo-data/plan.yaml");

  static final EntryGrammar GRAMMAR = EntryGrammar.of(PLAN);

  private DemoGrammar() {}

  static Plan plan(String file) {
    try {
      PlanReading reading = PlanReader.read(Path.of(file));
      return reading
          .plan()
          .orElseThrow(() -> new IllegalStateException(reading.faults().toString()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
