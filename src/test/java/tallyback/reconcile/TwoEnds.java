package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** Two chains of steps that have nothing to do with each other, on one machine. */
final class TwoEnds {

  private TwoEnds() {}

  /** A plan with a front and a rear end. */
  static Plan plan(Random random) {
    StringBuilder items = new StringBuilder("items:\n");
    StringBuilder steps = new StringBuilder("steps:\n");
    for (String end : List.of("front", "rear")) {
      items.append(
          """
            - id: END-bolts
              say: [END bolts]
              thing: bolt
              count: COUNT
              torque: {value: 24 N·m, tolerance: ±2 N·m, tolerance-from: invented manual}
            - {id: END-cover, say: [END cover]}
          """
              .replace("END", end)
              .replace("COUNT", Integer.toString(2 + random.nextInt(6))));
      steps.append(
          """
            - {id: END-off, say: [END off], off: [END-bolts, END-cover]}
            - {id: END-on, say: [END on], on: [END-cover, END-bolts], needs: END-off}
          """
              .replace("END", end));
    }
    return PlanReader.read("ends.yaml", "tallyback-plan: 1\nname: two ends\n" + items + steps)
        .plan()
        .orElseThrow();
  }

  /** What is done at one end; each thing may be left out, so that anything may be wrong. */
  static List<Telling.Told> tell(Plan plan, String end, Random random) {
    int count = plan.item(end + "-bolts").orElseThrow().count();
    Telling job = new Telling();
    job.say(new StepMarked(end + "-off", StepMark.STARTED));
    job.say(moved(ItemMove.OFF, end + "-bolts", count));
    job.say(moved(ItemMove.OFF, end + "-cover", 1));
    job.say(new StepMarked(end + "-off", StepMark.DONE));
    job.say(new StepMarked(end + "-on", StepMark.STARTED));
    job.say(moved(ItemMove.ON, end + "-cover", 1));
    job.say(moved(ItemMove.ON, end + "-bolts", count - random.nextInt(2)));
    job.say(
        new Tightened(
            TightnessState.TORQUED,
            end + "-bolts",
            null,
            null,
            count,
            false,
            JobText.amount(random.nextInt(3) == 0 ? "24 lbf·ft" : "24 N·m"),
            null,
            null,
            null,
            null,
            null));
    job.say(new StepMarked(end + "-on", StepMark.DONE));
    job.told().removeIf(each -> random.nextInt(6) == 0);
    return job.told();
  }

  private static ItemsMoved moved(ItemMove move, String item, int count) {
    return new ItemsMoved(move, item, null, count, false, null, null, null);
  }

  /** Both ends in one telling, each in its own order; the front goes next with this likelihood. */
  static List<Telling.Told> merge(
      List<Telling.Told> front, List<Telling.Told> rear, Random random, double frontNext) {
    List<Telling.Told> merged = new ArrayList<>();
    int ofFront = 0;
    int ofRear = 0;
    while (ofFront < front.size() || ofRear < rear.size()) {
      boolean takeFront =
          ofRear == rear.size() || (ofFront < front.size() && random.nextDouble() < frontNext);
      merged.add(takeFront ? front.get(ofFront++) : rear.get(ofRear++));
    }
    return merged;
  }
}
