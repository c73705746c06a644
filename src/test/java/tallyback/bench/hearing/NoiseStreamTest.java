package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.speech.Judgement;

class NoiseStreamTest {

  private static final Path OWN = Path.of("src/test/resources/bench");

  private static Noise tone(int hertz) {
    double[] samples = new double[16_000];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = 1_000 * Math.sin(2 * Math.PI * hertz * i / 16_000);
    }
    return new Noise(Integer.toString(hertz), Mixer.clip(samples));
  }

  private static NoiseStream tones(long seed) {
    return new NoiseStream(List.of(tone(400), tone(800), tone(1_600)), List.of(), new Random(seed));
  }

  /** How often a second it goes through nought upwards in the middle of a piece. */
  private static int hertz(short[] piece) {
    int crossings = 0;
    int middle = piece.length / 2;
    for (int i = middle; i < middle + 16_000; i++) {
      crossings += piece[i - 1] < 0 && piece[i] >= 0 ? 1 : 0;
    }
    return crossings;
  }

  @Test
  void theSameSeedGivesTheSameStream() throws IOException {
    assertArrayEquals(tones(3).next(), tones(3).next());
    assertFalse(Arrays.equals(tones(3).next(), tones(4).next()));
  }

  @Test
  void everyNoiseComesOnceBeforeAnyComesAgain() throws IOException {
    NoiseStream stream = tones(5);
    for (int round = 0; round < 3; round++) {
      List<Integer> heard = new ArrayList<>();
      for (int i = 0; i < 3; i++) {
        heard.add(Math.round(hertz(stream.next()) / 100f) * 100);
      }
      heard.sort(null);
      assertEquals(List.of(400, 800, 1_600), heard);
    }
  }

  @Test
  void levelsStayWithinTwelveDecibelsAndChange() throws IOException {
    NoiseStream stream = tones(6);
    double least = 0;
    double most = -100;
    for (int i = 0; i < 12; i++) {
      short[] piece = stream.next();
      int middle = piece.length / 2;
      Clip second = new Clip(Arrays.copyOfRange(piece, middle, middle + 16_000), 0);
      double dbfs = LevelMeter.measure(second).activeDbfs();
      least = Math.min(least, dbfs);
      most = Math.max(most, dbfs);
    }
    assertTrue(least > -35 - 12.5 && most < -35 + 12.5, least + " to " + most);
    assertTrue(most - least > 6, least + " to " + most);
  }

  /** Where two pieces meet nothing jumps: two tones in a fade are no louder than both together. */
  @Test
  void piecesFadeIntoEachOther() throws IOException {
    NoiseStream stream = new NoiseStream(List.of(tone(100)), List.of(), new Random(8));
    short[] last = stream.next();
    for (int i = 0; i < 10; i++) {
      short[] next = stream.next();
      int jump = Math.abs(next[0] - last[last.length - 1]);
      assertTrue(jump < 200, "jump of " + jump);
      last = next;
    }
  }

  @Test
  void talkIsLaidOverTheNoise() throws IOException {
    List<Path> talk = Recordings.in(OWN.resolve("speech"));
    short[] with = new NoiseStream(List.of(tone(400)), talk, new Random(1)).next();
    short[] without = tones(1).next();
    assertTrue(
        LevelMeter.measure(new Clip(with, 0)).activeDbfs()
            > LevelMeter.measure(new Clip(without, 0)).activeDbfs() + 3);
  }

  @Test
  @Tag("slow")
  void nothingIsNotedInHalfAMinuteOfSteam() throws IOException {
    Map<String, String> properties = new HashMap<>();
    properties.put("bench.noise", OWN.resolve("noise").toString());
    properties.put("bench.minutes", "0.5");
    NoiseStreamBench.Settings settings = NoiseStreamBench.Settings.of(properties);
    List<String> told = new ArrayList<>();
    NoiseStreamBench.Outcome outcome = NoiseStreamBench.run(settings, told::add);
    assertEquals(0, outcome.count(Judgement.NOTE), told.toString());
    assertEquals(outcome.count(Judgement.ASK), told.size());
    assertTrue(outcome.cpuMs() > 0);
    assertTrue(
        outcome
            .json(settings)
            .startsWith("{\"minutes\":0.5,\"seed\":0,\"attention\":\"none\",\"clips\":"),
        outcome.json(settings));
  }

  @Test
  void whatCannotBeRunIsRefused() {
    assertEquals(
        "bench.noise: expected a folder of noises, found none; name one with -Dbench.noise",
        assertThrows(IllegalArgumentException.class, () -> NoiseStreamBench.Settings.of(Map.of()))
            .getMessage());
    assertEquals(
        "bench.minutes: expected a number of minutes, found long",
        assertThrows(
                IllegalArgumentException.class,
                () ->
                    NoiseStreamBench.Settings.of(
                        Map.of("bench.noise", "noise", "bench.minutes", "long")))
            .getMessage());
  }
}
