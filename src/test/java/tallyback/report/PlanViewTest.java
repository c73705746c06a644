package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.report.PlanView.Row;
import tallyback.report.PlanView.Table;

class PlanViewTest {

  private static PlanView view(String text) {
    PlanReading reading = PlanReader.read("plan.yaml", text);
    return PlanView.of(reading.draft().orElseThrow(), reading.places());
  }

  @Test
  void showsRowsWithTheirLinesAndNoEmptyColumns() {
    PlanView view =
        view(
            """
            tallyback-plan: 1
            name: Pump
            machine: {name: Mill, sides: as one stands before it}
            items:
              - {say: [pump], renew: true}
              - {say: [pump bolts], thing: bolt, count: 6, of: pump, head: 13 mm, from-manual: torque}
            steps:
              - {say: [open up], off: [pump-bolts, pump], cautions: [Mind the edge.]}
            """);

    assertEquals("Mill; as one stands before it", view.machine());
    assertEquals(
        List.of(
            new Table(
                "Steps, in order",
                List.of("no.", "step", "comes off"),
                List.of(
                    new Row(
                        8,
                        List.of("1", "open up", "pump bolts, pump"),
                        List.of("Mind the edge.")))),
            new Table(
                "What comes off and goes back",
                List.of("item", "how many", "of", "head", "torque", "mind"),
                List.of(
                    new Row(5, List.of("pump", "1", "", "", "", "new each time"), List.of()),
                    new Row(
                        6,
                        List.of("pump bolts", "6", "pump", "13 mm", "from your manual", ""),
                        List.of())))),
        view.tables());
  }

  @Test
  void aTorqueIsShownWithAllThatBelongsToIt() {
    PlanView view =
        view(
            """
            tallyback-plan: 1
            name: Head
            items:
              - say: [head bolts]
                thing: bolt
                torque: {value: 40 N·m, tolerance: {plus: 2 N·m, minus: 1 N·m}, tolerance-from: manual p. 12,
                  passes: 2, angle: 90°, threads: oiled, sequence: true, again-after-heat: true, again-after: 50 km}
            """);

    assertEquals(
        "40 N·m +2 N·m −1 N·m, in 2 passes, then 90°, oiled, in sequence, again after heat, again"
            + " after 50 km (manual p. 12)",
        view.tables().get(0).rows().get(0).cells().get(2));
  }

  @Test
  void aDraftWithFaultsIsShownAsFarAsItCouldBeRead() {
    PlanView view =
        view(
            """
            tallyback-plan: 1
            name: Pump
            systems:
              - {say: [sump], fluid: pump}
            items:
              - {say: [pump], of: nowhere}
            """);

    assertEquals("sump", view.tables().get(1).rows().get(0).cells().get(0));
  }

  @Test
  void theDemoPlanShowsEveryKindOfTable() throws IOException {
    PlanReading reading = PlanReader.read(Path.of("demo-data/plan.yaml"));
    PlanView view = PlanView.of(reading.plan().orElseThrow(), reading.places());

    assertEquals(
        List.of(
            "Steps, in order",
            "What comes off and goes back",
            "Fluids",
            "Readings",
            "Vessels, wrenches, gauges"),
        view.tables().stream().map(Table::title).toList());
    assertTrue(
        view.tables().stream()
            .flatMap(table -> table.rows().stream())
            .allMatch(row -> row.line() > 0));
  }
}
