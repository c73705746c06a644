package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.plan.Plan.Machine;

class PlanReaderTest {

  @Test
  void aPlanWithNothingButANameIsLegal() {
    PlanReading reading =
        PlanReader.read("p.yaml", "tallyback-plan: 1\nname: look at the brakes\n");

    assertEquals(List.of(), reading.faults());
    Plan plan = reading.plan().orElseThrow();
    assertEquals("look at the brakes", plan.name());
    assertEquals(
        new Machine(
            "machine without a name",
            null,
            "left and right as seen from the seat, looking forward"),
        plan.machine());
  }
}
