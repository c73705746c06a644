package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.audio.LevelReport;

class DoubtTest {

  private static final Doubt DOUBT =
      new Doubt(
          -30,
          -350,
          new Margins(6, 20, 24, 28, 50),
          new Doubt.Noise(40, 20, 100, 10),
          new Doubt.Strangeness(10, -30, 10));

  private static Reading reading(double logScore, double... fits) {
    List<Word> words = new ArrayList<>();
    for (double fit : fits) {
      words.add(new Word("w" + words.size(), words.size() * 100L, words.size() * 100L + 100, fit));
    }
    return new Reading(words, logScore);
  }

  private static Hearing hearing(Reading... readings) {
    return hearing(40, readings);
  }

  private static Hearing hearing(double snrDb, Reading... readings) {
    return new Hearing(
        List.of(readings),
        -1000,
        false,
        new LevelReport(-20, -60, snrDb, false),
        new Clip(new short[16_000], 0));
  }

  @Test
  void aClearReadingIsNoted() {
    assertEquals(
        Judgement.NOTE, DOUBT.judge(hearing(reading(-900, 100, 50), reading(-950, 90, 10))));
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(reading(-900, 100, 50))));
  }

  @Test
  void aRivalCloseByIsAskedAbout() {
    assertEquals(
        Judgement.ASK, DOUBT.judge(hearing(reading(-900, 100, 50), reading(-905, 100, 40, 3))));
    assertEquals(
        Judgement.NOTE, DOUBT.judge(hearing(reading(-900, 100, 50), reading(-906, 100, 40, 3))));
  }

  @Test
  void aRivalThatExchangesWordsMustBeFurtherBehind() {
    assertEquals(
        Judgement.ASK, DOUBT.judge(hearing(reading(-900, 100, 50), reading(-919, 100, 40))));
    assertEquals(
        Judgement.NOTE, DOUBT.judge(hearing(reading(-900, 100, 50), reading(-920, 100, 40))));
  }

  @Test
  void oneRivalFarBehindDoesNotHideAnother() {
    assertEquals(
        Judgement.ASK,
        DOUBT.judge(
            hearing(reading(-900, 100, 50), reading(-910, 100, 40, 3), reading(-915, 100, 40))));
  }

  @Test
  void inNoiseARivalMustBeFurtherBehind() {
    Reading best = reading(-900, 100, 90);
    Reading rival = reading(-926, 100, 40);
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(40, best, rival)));
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(30, best, rival)));
    assertEquals(Judgement.ASK, DOUBT.judge(hearing(20, best, rival)));
    assertEquals(Judgement.ASK, DOUBT.judge(hearing(5, best, rival)));
  }

  @Test
  void aVoiceThatFitsBadlyMustBeFurtherAhead() {
    Reading rival = reading(-926, 100, 40);
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(reading(-900, 10, 10), rival)));
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(reading(-900, 4, 4), rival)));
    assertEquals(Judgement.ASK, DOUBT.judge(hearing(reading(-900, -20, -20), rival)));
  }

  @Test
  void inNoiseTheFitMustBeBetter() {
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(40, reading(-900, 30, 30))));
    assertEquals(Judgement.NOTE, DOUBT.judge(hearing(30, reading(-900, 30, 30))));
    assertEquals(Judgement.ASK, DOUBT.judge(hearing(20, reading(-900, 30, 30))));
  }

  @Test
  void aPoorFitIsAskedAbout() {
    assertEquals(Judgement.ASK, DOUBT.judge(hearing(reading(-900, -40, -25))));
  }

  @Test
  void oneWordThatDoesNotFitIsAskedAbout() {
    assertEquals(Judgement.ASK, DOUBT.judge(hearing(reading(-900, 300, -351, 300, 300))));
  }

  @Test
  void noReadingIsRejected() {
    assertEquals(Judgement.REJECT, DOUBT.judge(hearing()));
  }

  @Test
  void theFitOfAReadingIsWeighedByTime() {
    Reading reading =
        new Reading(List.of(new Word("a", 0, 100, 10), new Word("b", 500, 800, -30)), -5);
    assertEquals(-20, reading.fit(), 1e-9);
  }
}
