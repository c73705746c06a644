package tallyback.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class FindingTest {

  private static String inShort(
      String kind, String expected, String found, @Nullable String difference) {
    return new Finding(
            kind,
            Weight.STOP,
            List.of(Finding.Stage.WORK),
            "cooling system",
            expected,
            found,
            difference,
            null,
            List.of(),
            "Look.",
            List.of())
        .inShort();
  }

  @Test
  void inShortItSaysWhatIsShortOrOverOrWhichStateWasNotSaid() {
    assertEquals(
        "short 1.00 L", inShort("fluid-short", "as much as out", "4.20 L in", "short 1.00 L"));
    assertEquals("0.00 L in", inShort("fluid-short", "as much as out", "0.00 L in", null));
    assertEquals(
        "key out never said",
        inShort("state-unsaid", "\"key out\" said first", "never said", null));
    assertEquals(
        "4 on the machine, 2 in the tray",
        inShort("left-in-tray", "all 6", "4 on the machine, 2 in the tray", "2 left over"));
  }
}
