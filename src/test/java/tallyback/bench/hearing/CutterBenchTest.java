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
            settings,
            Language.read(settings.grammar()),
            List.of(Cutting.own()),
            cell -> lines.add(cell.json()));
    String clean =
        "{\"set\":\"speech\",\"noise\":\"none\",\"snrDb\":null,\"cutter\":\"own\",\"n\":6,"
            + "\"missed\":0,\"missedStarts\":0,\"cutEnds\":0,\"splits\":0,\"joins\":0,\"extra\":0,"
            + "\"extraPerMinute\":0.00,\"extraTime\":0.000,\"timeRatio\":";
    assertTrue(lines.get(0).startsWith(clean), lines.get(0));
    assertTrue(
        lines
            .get(1)
            .startsWith(
                "{\"set\":\"speech\",\"noise\":\"steam\",\"snrDb\":5,\"cutter\":\"own\",\"n\":6,"),
        lines.get(1));
    List<String> rows = CutTables.markdown(cells).lines().toList();
    assertEquals(2, rows.stream().filter(row -> row.startsWith("| speech |")).count());
    assertEquals(2, rows.stream().filter(row -> row.startsWith("| noise alone |")).count());
    assertEquals(1, rows.stream().filter(row -> row.startsWith("| steam |")).count());
    assertEquals(0, cells.get(2).counts().extra(), "a quiet room by itself");
    assertTrue(cells.get(0).timeRatio() > 0 && cells.get(0).timeRatio() < 1, "processor time");
  }
}
