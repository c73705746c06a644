package tallyback.report.owner;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class UncheckedTest {

  @Test
  void whatIsAlikeStandsTogetherAndNothingIsLeftOut() {
    assertEquals(
        List.of(
            new Unchecked.Group(
                "Said to be done, but not counted off and on again", List.of("hood", "side panel")),
            new Unchecked.Group(
                "Whether these, which only help during the work, went in and came out again",
                List.of("blanking plug")),
            new Unchecked.Group("Nobody said", List.of("a test run", "something quite new")),
            new Unchecked.Group("Where the old fluid went", List.of("cooling system, 5.00 L")),
            new Unchecked.Group("Not measured", List.of("drive belt: gap")),
            new Unchecked.Group(
                "Not worked out: whether bolt and thread bear what they were tightened to",
                List.of("radiator drain, 10 groups of bolts and nuts"))),
        Unchecked.groups(
            List.of(
                "hood: step done, nobody counted off and on",
                "whether the blanking plug went in and came out again",
                "a test run",
                "side panel: step done, nobody counted off and on",
                "cooling system: where the 5.00 L caught went",
                "drive belt: gap (the plan gives a limit)",
                "overload, not judged: radiator drain (drain or filler plug), 10 groups (thread or"
                    + " property class not in the plan)",
                "something quite new"),
            false));
  }

  @Test
  void whatStandsElsewhereIsNotToldTwice() {
    List<String> unchecked =
        List.of(
            "cooling system: where the 5.00 L caught went",
            "wheel nuts: tightened again after 50 km (tell the owner)");
    assertEquals(List.of(), Unchecked.groups(unchecked, true));
    assertEquals(List.of(new Unchecked.Again("wheel nuts", "50 km")), Unchecked.again(unchecked));
  }
}
