package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConfusionTableTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "two bolts off;                 ten bolts off;              two | ten",
        "two point oh five litres;      two point five litres;      oh | (nothing)",
        "forty bolts;                   four two bolts;             forty | four two",
        "fan nut;                       the fan nut;                (nothing) | the",
      })
  void whatDiffersIsNamed(String said, String read, String confusion) {
    assertEquals(
        List.of(confusion),
        ConfusionTable.confusions(List.of(said.split(" ")), List.of(read.split(" "))));
  }

  @Test
  void eachPlaceIsOne() {
    assertEquals(
        List.of("six | sixty", "pump | hub"),
        ConfusionTable.confusions(
            List.of("six", "bolts", "off", "pump"), List.of("sixty", "bolts", "off", "hub")));
    assertEquals(List.of(), ConfusionTable.confusions(List.of("done"), List.of("done")));
  }
}
