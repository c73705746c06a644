package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class CutterBenchTest {

  @Test
  void inAQuietRoomTheCutterFindsWhatWasSpokenAndNothingElse()
      throws IOException, InterruptedException {
    String folder = "src/test/resources/bench/";
    BenchSettings settings =
        BenchSettings.of(
            Map.of(
                "bench.speech", folder + "speech",
                "bench.grammar", folder + "numbers.jsgf",
                "bench.noise", folder + "noise",
                "bench.snr", "clean,5",
                "bench.n", "6"));
    List<String> lines = new ArrayList<>();
    List<CutterBench.CutCell> cells =
        CutterBench.run(
            settings, Language.read(settings.grammar()), cell -> lines.add(cell.json()));
    assertEquals(
        "{\"set\":\"speech\",\"noise\":\"none\",\"snrDb\":null,\"n\":6,\"missed\":0,"
            + "\"missedStarts\":0,\"cutEnds\":0,\"splits\":0,\"joins\":0,\"extra\":0,"
            + "\"extraPerMinute\":0.00}",
        lines.get(0));
    assertTrue(
        lines.get(1).startsWith("{\"set\":\"speech\",\"noise\":\"steam\",\"snrDb\":5,\"n\":6,"),
        lines.get(1));
    List<String> rows =
        CutterBench.CutCell.markdown(cells).lines().filter(row -> row.startsWith("| sp")).toList();
    assertEquals(4, rows.size(), "two ratios over all noises, two cells");
  }
}
