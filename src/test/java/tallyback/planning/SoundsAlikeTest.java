package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tallyback.model.Weight;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.speech.CmuLexicon;

/** Pairs of names that a mechanic would, or would not, take for one another over a noise. */
class SoundsAlikeTest {

  private static final CmuLexicon LEXICON = CmuLexicon.load();

  private static Optional<Weight> weight(String one, String other) {
    String text =
        "tallyback-plan: 1\nname: a job\nitems:\n  - {say: [%s], count: 2}\n  - {say: [%s], count: 2}\n"
            .formatted(one, other);
    List<PlanFault> faults =
        PlanLint.of("p", PlanReader.read("p", text), LEXICON, word -> Optional.empty()).faults();
    return faults.stream().map(PlanFault::weight).findFirst();
  }

  @ParameterizedTest
  @CsvSource({
    "brake line, break line, STOP",
    "heel plate, heal plate, STOP",
    "fan bolt, fan belt, CHECK",
    "belly pan, valley pan, CHECK",
    "oil filter, oil filler, NOTE"
  })
  void these(String one, String other, Weight expected) {
    assertEquals(Optional.of(expected), weight(one, other));
  }

  @ParameterizedTest
  @CsvSource({
    "left nuts, right nuts",
    "top clamp, stop clamp",
    "upper hose, lower hose",
    "inner bearing, outer bearing",
    "inlet nuts, outlet nuts",
    "front cover, fan cover",
    "pump bolts, long bolts",
    "fan, fan shroud",
    "intake one, intake two",
    "caliper bolts, bracket bolts"
  })
  void toldApart(String one, String other) {
    assertEquals(Optional.empty(), weight(one, other));
  }
}
