package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CutterTest {

  private static final int MS = Clip.SAMPLE_RATE_HZ / 1000;
  private static final List<TestClips.Spoken> SPOKEN = TestClips.all();

  /** Where speech begins and ends in a joined stream, in milliseconds. */
  private record Truth(int startMs, int endMs) {}

  private static final class Joined {
    private short[] samples = new short[0];
    private final List<Truth> truths = new ArrayList<>();

    Joined pause(int ms) {
      samples = Arrays.copyOf(samples, samples.length + ms * MS);
      return this;
    }

    /** Adds a clip without the silence around its speech. */
    Joined speech(int index) {
      short[] spoken = trimmed(SPOKEN.get(index).clip().samples());
      int from = samples.length;
      samples = Arrays.copyOf(samples, from + spoken.length);
      System.arraycopy(spoken, 0, samples, from, spoken.length);
      truths.add(new Truth(from / MS, samples.length / MS));
      return this;
    }

    private static short[] trimmed(short[] spoken) {
      int from = 0;
      int to = spoken.length;
      while (Math.abs(spoken[from]) < 600) {
        from++;
      }
      while (Math.abs(spoken[to - 1]) < 600) {
        to--;
      }
      return Arrays.copyOfRange(spoken, from, to);
    }

    /** White noise at a level below full scale. */
    Joined noise(double dbfs, long seed) {
      Random random = new Random(seed);
      double size = 32_768 * Math.pow(10, dbfs / 20);
      for (int i = 0; i < samples.length; i++) {
        samples[i] =
            (short)
                Math.max(
                    -32_768,
                    Math.min(32_767, samples[i] + Math.round(size * random.nextGaussian())));
      }
      return this;
    }

    List<Clip> cut() {
      return CutterTest.cut(samples, 777);
    }
  }

  private static List<Clip> cut(short[] stream, int block) {
    Cutter cutter = new Cutter(CutterSettings.defaults());
    List<Clip> clips = new ArrayList<>();
    for (int from = 0; from < stream.length; from += block) {
      short[] part = Arrays.copyOfRange(stream, from, Math.min(stream.length, from + block));
      clips.addAll(cutter.accept(part, part.length));
    }
    clips.addAll(cutter.finish());
    return clips;
  }

  private static void assertCutAt(Joined joined) {
    List<Clip> clips = joined.cut();
    assertEquals(joined.truths.size(), clips.size(), clips + " for " + joined.truths);
    for (int i = 0; i < clips.size(); i++) {
      Truth truth = joined.truths.get(i);
      Clip clip = clips.get(i);
      assertTrue(
          clip.startMs() <= truth.startMs() + 20, clip + " begins in the speech of " + truth);
      assertTrue(clip.startMs() >= truth.startMs() - 500, clip + " begins long before " + truth);
      assertTrue(clip.endMs() >= truth.endMs() - 60, clip + " ends in the speech of " + truth);
      assertTrue(clip.endMs() <= truth.endMs() + 700, clip + " ends long after " + truth);
    }
  }

  @Test
  void cutsUtterancesApartInAQuietRoom() {
    assertCutAt(
        new Joined()
            .pause(1500)
            .speech(0)
            .pause(1200)
            .speech(1)
            .pause(2500)
            .speech(2)
            .pause(1500)
            .noise(-66, 1));
  }

  @Test
  void cutsUtterancesApartInNoiseTwentyDbBelow() {
    assertCutAt(
        new Joined()
            .pause(2500)
            .speech(0)
            .pause(1500)
            .speech(1)
            .pause(1500)
            .speech(3)
            .pause(1500)
            .noise(-38, 2));
  }

  @Test
  void findsSpeechThatBeginsAndEndsWithTheStream() {
    assertCutAt(new Joined().speech(4).pause(1500).speech(6).noise(-62, 3));
  }

  @Test
  void keepsAPauseInsideAnUtterance() {
    Joined joined =
        new Joined().pause(1000).speech(3).pause(400).speech(4).pause(1200).noise(-62, 4);
    assertEquals(1, joined.cut().size());
  }

  @Test
  void saysWhereEachClipBeganAndGivesItsSamplesUnchanged() {
    Joined joined =
        new Joined().pause(1200).speech(0).pause(1500).speech(1).pause(1000).noise(-62, 5);
    for (Clip clip : joined.cut()) {
      int from = (int) clip.startMs() * MS;
      assertEquals(joined.samples[from + 500], clip.sample(500));
      assertEquals(joined.samples[from + clip.length() - 1], clip.sample(clip.length() - 1));
    }
  }

  @Test
  void blockSizesMakeNoDifference() {
    short[] stream =
        new Joined().pause(900).speech(2).pause(1300).speech(5).pause(900).noise(-60, 6).samples;
    List<Clip> expected = cut(stream, 160);
    assertEquals(2, expected.size());
    for (int block : new int[] {1, 333, 16_000, stream.length}) {
      assertEquals(expected, cut(stream, block), "blocks of " + block);
    }
  }

  @Test
  void findsNothingInDigitalSilenceSteadyNoiseOrClicks() {
    short[] silence = new short[10_000 * MS];
    assertEquals(List.of(), cut(silence, 1600));
    assertEquals(List.of(), new Joined().pause(20_000).noise(-40, 7).cut());
    short[] clicks = new Joined().pause(10_000).noise(-66, 8).samples;
    for (int at = 1000 * MS; at < clicks.length; at += 3000 * MS) {
      clicks[at] = 20_000;
    }
    assertEquals(List.of(), cut(clicks, 1600));
  }

  @Test
  void noStreamIsTooShort() {
    for (int length : new int[] {0, 1, 100, 511, 512, 700}) {
      assertEquals(List.of(), cut(new short[length], 1600));
    }
  }

  @Test
  void noClipIsLongerThanTheLimit() {
    short[] drone = new short[70_000 * MS];
    short[] spoken = SPOKEN.get(0).clip().samples();
    for (int i = 16_000; i < drone.length; i++) {
      drone[i] = spoken[3_000 + i % (spoken.length - 8_000)];
    }
    List<Clip> clips = cut(drone, 1600);
    assertTrue(clips.size() >= 2, clips.toString());
    clips.forEach(clip -> assertTrue(clip.durationMs() <= 30_100, clip.toString()));
  }

  @Test
  void aMachineThatStartsIsLearnt() {
    Joined joined = new Joined().pause(6000);
    short[] quiet = joined.noise(-66, 9).samples;
    Joined after = new Joined().pause(7000).speech(1).pause(1500).noise(-38, 10);
    short[] stream = Arrays.copyOf(quiet, quiet.length + after.samples.length);
    System.arraycopy(after.samples, 0, stream, quiet.length, after.samples.length);
    List<Clip> clips = cut(stream, 1600);
    Truth truth = after.truths.get(0);
    assertTrue(
        clips.stream()
            .anyMatch(
                clip ->
                    Math.abs(clip.startMs() - 6000 - truth.startMs()) < 500
                        && clip.endMs() - 6000 >= truth.endMs() - 60),
        clips + " for " + truth + " after 6000");
  }
}
