package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;

/** With the real recogniser and a tap that runs. */
@Timeout(300)
class ShopNoiseTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));

  @TempDir private Path home;

  @Test
  void itIsLearnedWhileSomebodyWorksInIt() throws IOException, InterruptedException {
    NoiseDiary diary = new NoiseDiary(home);
    Clip tap;
    try (WavSource source =
        WavSource.open(Path.of("src/test/resources/audio/noise/running_tap.wav"))) {
      tap = source.readAll();
    }
    try (Ear ear = Ear.open(PLAN, null);
        ShopNoise shop = ShopNoise.start(PLAN, diary)) {
      assertTrue(shop.swap(ear, NINE).isEmpty());
      // The tap itself, and once more for what may be the beginning of speech.
      shop.add(tap.samples(), false);
      shop.add(tap.samples(), false);
      shop.heard(12);

      Optional<NoiseDiary.Tried> tried = shop.swap(ear, NINE);
      while (tried.isEmpty()) {
        Thread.sleep(100);
        tried = shop.swap(ear, NINE);
      }

      assertEquals(NINE, tried.get().at());
      assertTrue(tried.get().phrases() > 0, tried.toString());
      assertEquals(List.of(tried.get()), diary.all());
      assertTrue(shop.swap(ear, NINE).isEmpty());
    }
  }
}
