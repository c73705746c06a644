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

  /** What the cutter says, and how many samples it had been given when it said so. */
  private record Saying(Cut cut, int samples) {}

  private static List<Saying> followed(short[] stream, int block) {
    Cutter cutter = new Cutter(CutterSettings.defaults());
    List<Saying> said = new ArrayList<>();
    for (int from = 0; from < stream.length; from += block) {
      short[] part = Arrays.copyOfRange(stream, from, Math.min(stream.length, from + block));
      for (Cut cut : cutter.follow(part, part.length)) {
        said.add(new Saying(cut, from + part.length));
      }
    }
    for (Cut cut : cutter.finishFollowing()) {
      said.add(new Saying(cut, stream.length));
    }
    return said;
  }

  @Test
  void aLikelyEndHasTheClipOfTheEnd() {
    short[] stream =
        new Joined().pause(1500).speech(0).pause(1500).speech(3).pause(1500).noise(-60, 11).samples;
    List<Saying> said = followed(stream, 160);
    List<Clip> ended = new ArrayList<>();
    for (int i = 0; i < said.size(); i++) {
      if (said.get(i).cut() instanceof Cut.Ended end) {
        assertEquals(new Cut.Likely(end.clip()), said.get(i - 1).cut());
        ended.add(end.clip());
      }
    }
    assertEquals(cut(stream, 160), ended);
    assertEquals(2, ended.size());
  }

  @Test
  void theEndIsKnownSoonAfterThePauseIsLongEnough() {
    Joined joined = new Joined().pause(1500).speech(0).pause(2000).noise(-60, 12);
    List<Saying> said = followed(joined.samples, 160);
    int spokenMs = joined.truths.get(0).endMs();
    int likelyMs = said.get(0).samples() / MS - spokenMs;
    int endMs = said.get(1).samples() / MS - spokenMs;
    assertEquals(2, said.size(), said.toString());
    // The pause of 600 ms, 40 ms of envelope and 32 ms of window, and what of the word fades out.
    assertTrue(likelyMs > 250 && likelyMs < 500, "likely after " + likelyMs);
    assertTrue(endMs > 550 && endMs < 800, "ended after " + endMs);
  }

  @Test
  void aPauseInsideAnUtteranceIsALikelyEndThatIsTakenBack() {
    Joined joined =
        new Joined().pause(1000).speech(3).pause(480).speech(4).pause(1200).noise(-62, 13);
    List<Saying> said = followed(joined.samples, 333);
    assertEquals(
        List.of(Cut.Likely.class, Cut.WentOn.class, Cut.Likely.class, Cut.Ended.class),
        said.stream().map(saying -> saying.cut().getClass()).toList());
  }

  @Test
  void strokesOfAHammerAreLearntAndDoNotJoinUtterances() {
    Joined joined = new Joined().pause(4000);
    for (int i = 0; i < 6; i++) {
      joined.speech(i).pause(1400);
    }
    short[] stream = joined.noise(-62, 14).samples;
    Random random = new Random(15);
    for (int from = 0; from + 80 * MS < stream.length; from += 300 * MS) {
      for (int i = 0; i < 80 * MS; i++) {
        double stroke = 900 * Math.exp(-i / (15.0 * MS)) * random.nextGaussian();
        stream[from + i] = (short) (stream[from + i] + stroke);
      }
    }
    List<Clip> clips = cut(stream, 1600);
    for (Truth truth : joined.truths) {
      long holding =
          clips.stream()
              .filter(clip -> clip.startMs() < truth.endMs() && clip.endMs() > truth.startMs())
              .count();
      assertEquals(1, holding, truth + " in " + clips);
    }
    for (Clip clip : clips) {
      long held =
          joined.truths.stream()
              .filter(truth -> clip.startMs() < truth.endMs() && clip.endMs() > truth.startMs())
              .count();
      assertTrue(held <= 1, clip + " holds " + held);
    }
  }

  @Test
  void anUtteranceOverAMachineThatStartedIsCutFromItsNoise() {
    // Strokes in quick succession, from 3 s on; nobody has paused since they began.
    Joined joined = new Joined().pause(11_000).speech(1).pause(4000).noise(-62, 16);
    short[] stream = joined.samples;
    Random random = new Random(17);
    for (int from = 3000 * MS; from + 150 * MS < stream.length; from += 150 * MS) {
      for (int i = 0; i < 150 * MS; i++) {
        double stroke = 500 * Math.exp(-i / (30.0 * MS)) * random.nextGaussian();
        stream[from + i] = (short) (stream[from + i] + stroke);
      }
    }
    Truth truth = joined.truths.get(0);
    List<Clip> holding =
        cut(stream, 1600).stream()
            .filter(clip -> clip.startMs() < truth.endMs() && clip.endMs() > truth.startMs())
            .toList();
    assertEquals(1, holding.size(), holding.toString());
    Clip clip = holding.get(0);
    assertTrue(
        clip.startMs() <= truth.startMs() && clip.startMs() > truth.startMs() - 1500,
        clip + " for " + truth);
    assertTrue(
        clip.endMs() >= truth.endMs() - 60 && clip.endMs() < truth.endMs() + 1500,
        clip + " for " + truth);
  }

  @Test
  void aWordThatFadesOutIsKept() {
    Joined joined = new Joined().pause(1500).speech(2).pause(1500);
    Truth truth = joined.truths.get(0);
    // The last quarter of a second of it 20 dB fainter.
    for (int i = (truth.endMs() - 250) * MS; i < truth.endMs() * MS; i++) {
      joined.samples[i] = (short) (joined.samples[i] / 10);
    }
    assertCutAt(joined.noise(-66, 18));
  }

  @Test
  void anOffsetAndTheHumOfTheMainsAreNoSpeechAndHideNone() {
    for (int offset : new int[] {-9000, 4000}) {
      Joined joined = new Joined().pause(2000).speech(0).pause(1500).speech(5).pause(1500);
      joined.noise(-62, 19);
      for (int i = 0; i < joined.samples.length; i++) {
        double hum = 800 * Math.sin(2 * Math.PI * 50 * i / Clip.SAMPLE_RATE_HZ);
        hum += 200 * Math.sin(2 * Math.PI * 150 * i / Clip.SAMPLE_RATE_HZ);
        joined.samples[i] = (short) Math.max(-32_768, joined.samples[i] + offset + hum);
      }
      assertCutAt(joined);
    }
  }

  @Test
  void halfASecondDroppedOutOfTheSoundEndsNothing() {
    Joined joined = new Joined().pause(1500).speech(3).speech(4).pause(1500).noise(-60, 20);
    int from = joined.truths.get(0).endMs() * MS - 250 * MS;
    Arrays.fill(joined.samples, from, from + 500 * MS, (short) 0);
    List<Clip> clips = joined.cut();
    assertEquals(1, clips.size(), clips.toString());
    assertTrue(clips.get(0).startMs() <= joined.truths.get(0).startMs());
    assertTrue(clips.get(0).endMs() >= joined.truths.get(1).endMs() - 60);
  }

  @Test
  void nothingOfAnUtteranceOfFortySecondsIsLost() {
    Joined joined = new Joined().pause(1500);
    while (joined.samples.length < 41_500 * MS) {
      joined.speech(joined.truths.size() % SPOKEN.size()).pause(150);
    }
    int endMs = joined.truths.get(joined.truths.size() - 1).endMs();
    List<Clip> clips = joined.pause(1500).noise(-60, 21).cut();
    assertEquals(2, clips.size(), clips.toString());
    assertTrue(clips.get(0).startMs() <= 1500);
    assertTrue(clips.get(1).startMs() <= clips.get(0).endMs(), clips.toString());
    assertTrue(clips.get(1).endMs() >= endMs - 60, clips + " for " + endMs);
  }

  @Test
  void speechAfterAMinuteOfAllZeroesIsCutAsEver() {
    Joined joined = new Joined().pause(1000).speech(0).pause(1500).noise(-60, 22);
    short[] stream = new short[60_000 * MS + joined.samples.length];
    System.arraycopy(joined.samples, 0, stream, 60_000 * MS, joined.samples.length);
    Truth truth = joined.truths.get(0);
    List<Clip> clips = cut(stream, 1600);
    assertTrue(
        clips.stream()
            .anyMatch(
                clip ->
                    clip.startMs() <= 60_000 + truth.startMs() + 20
                        && clip.endMs() >= 60_000 + truth.endMs() - 60),
        clips + " for " + truth + " after 60000");
  }
}
