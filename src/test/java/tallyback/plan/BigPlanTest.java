package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashSet;
import java.util.List;
import org.junit.jupiter.api.Test;

class BigPlanTest {

  @Test
  void hasAHundredAndFiftyItemsOfTwoWordsEach() {
    Plan plan = BigPlan.plan();

    assertEquals(BigPlan.ITEMS, plan.items().size());
    HashSet<String> names = new HashSet<>();
    for (Plan.Item item : plan.items()) {
      names.add(item.label());
      assertEquals(2, item.label().split(" ").length, item.label());
    }
    assertEquals(BigPlan.ITEMS, names.size());
    assertEquals(List.of(), PlanReader.read("big.yaml", BigPlan.text()).warnings());
  }
}
