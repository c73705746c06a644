package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.audio.SampleSource;
import tallyback.audio.WavWriter;
import tallyback.speech.adapt.TaughtVoice;
import tallyback.voice.Voice;
import tallyback.voice.freetts.FreeTtsVoice;

/** The program's own voice repeats the lines; the recogniser is the real one. */
@Tag("slow")
class TeachingTest {

  private static final InstantSource CLOCK =
      InstantSource.fixed(Instant.parse("2026-03-02T09:00:00Z"));

  private static Voice voice;

  @TempDir private Path home;
  @TempDir private Path recordings;

  @BeforeAll
  static void open() {
    voice = FreeTtsVoice.open();
  }

  @AfterAll
  static void close() {
    voice.close();
  }

  private VoiceShelf shelf() {
    return new VoiceShelf(home);
  }

  private Teaching teaching(boolean anew) {
    return Teaching.open(shelf(), "kevin", null, anew, CLOCK);
  }

  /** What is spoken, in a quiet room, with some of it around. */
  private static Clip said(String text, int hiss) {
    // As the voice must read it to say it right.
    Clip spoken = voice.speak(text.replace("torqued", "torkt").replace("metre", "meter"));
    Random random = new Random(text.hashCode());
    int margin = Clip.SAMPLE_RATE_HZ / 4;
    short[] samples = new short[spoken.length() + 2 * margin];
    for (int i = 0; i < samples.length; i++) {
      int sample = i >= margin && i < margin + spoken.length() ? spoken.sample(i - margin) : 0;
      long noisy = sample + Math.round(hiss * random.nextGaussian());
      samples[i] = (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, noisy));
    }
    return new Clip(samples, 0);
  }

  private void write(List<String> said, List<String> transcribed) throws IOException {
    StringBuilder transcripts = new StringBuilder("file\tspeaker\twords\n");
    for (int i = 0; i < said.size(); i++) {
      WavWriter.write(said(said.get(i), 20), recordings.resolve(i + ".wav"));
      transcripts.append(i + ".wav\tkevin\t" + transcribed.get(i) + "\n");
    }
    Files.writeString(recordings.resolve("transcripts.tsv"), transcripts);
  }

  private static List<String> lines() {
    return Teaching.all().stream().map(Teaching.Line::text).toList();
  }

  private String wrong() {
    try (Teaching teaching = teaching(false)) {
      return String.join(
          "\n", assertThrows(WrongUse.class, () -> teaching.takeFrom(recordings)).lines());
    }
  }

  @Test
  void aFolderOfRecordingsTeachesAVoiceIfItIsBetterHeardThen() throws IOException {
    List<String> transcribed = new ArrayList<>(lines());
    // Two that say something else than stands beside them.
    transcribed.set(3, lines().get(17));
    transcribed.set(8, "engine hood off");
    write(lines(), transcribed);
    try (Teaching teaching = teaching(false)) {
      List<String> leftOut = teaching.takeFrom(recordings);
      assertEquals(2, leftOut.size(), leftOut::toString);
      assertTrue(
          leftOut.get(0).contains("3.wav: left out, it does not sound like"), leftOut.get(0));
      assertTrue(leftOut.get(1).contains("8.wav"), leftOut.get(1));
      Teaching.Outcome outcome = teaching.finish();
      assertEquals(18, outcome.lessons());
      assertEquals(18, outcome.before().lines());
      assertEquals(18, outcome.after().lines());
      assertEquals(outcome.after().isBetterThan(outcome.before()), outcome.kept());
      assertTrue(outcome.kept(), outcome::toString);
      TaughtVoice kept = shelf().taught("kevin").orElseThrow();
      assertEquals(outcome.after(), kept.after());
      assertEquals(CLOCK.instant(), kept.taughtAt());
    }
    listensForTheVoice();
  }

  private void listensForTheVoice() {
    KnownVoices voices = KnownVoices.on(shelf(), "kevin");
    LoadedPlan plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"), voices);
    Clip clip = said("engine hood off", 20);
    try (Ear ear = Ear.open(plan, null)) {
      assertEquals("kevin", ear.voices().expected());
      Ear.Heard asKevin = ear.entry(clip);
      assertEquals("engine hood off", asKevin.readings().get(0));
      assertFalse(ear.voices().expect("tobias"), "never taught");
      assertEquals("kevin", ear.voices().expected());
      assertTrue(ear.voices().expect(null));
      Ear.Heard asAnybody = ear.entry(clip);
      assertNotEquals(asKevin.logScore(), asAnybody.logScore());
      assertTrue(ear.voices().expect("kevin"));
      assertEquals(asKevin, ear.entry(clip));
    }
  }

  @Test
  void whatHoldsNothingToLearnFromIsRefusedAndNothingIsKept() throws IOException {
    assertTrue(wrong().contains("nothing to learn from"));
    write(lines().subList(0, 3), lines().subList(0, 3));
    assertTrue(wrong().contains("at least 10 recordings to learn from, found 3"));
    write(lines().subList(0, 1), List.of("xyzzyx 19 bolts"));
    assertTrue(wrong().contains("known pronunciation, found 19, xyzzyx"));
    assertEquals(List.of(), shelf().names());
  }

  @Test
  void noiseIsNotLearned() {
    Teaching.Line line = Teaching.all().get(0);
    try (Teaching teaching = teaching(false)) {
      assertEquals(Teaching.Taken.TOO_NOISY, teaching.take(line, said(line.text(), 2000)));
      assertEquals(List.of(), shelf().names());
    }
  }

  /** A room in which somebody repeats what is asked for. */
  private static final class Repeating implements SampleSource {
    private Clip next = new Clip(new short[0], 0);
    private int at;
    private int quiet = Clip.SAMPLE_RATE_HZ;
    private final Random random = new Random(1);

    void say(Clip clip) {
      next = clip;
      at = -quiet;
    }

    @Override
    public int read(short[] buffer) {
      for (int i = 0; i < buffer.length; i++, at++) {
        int hiss = (int) Math.round(15 * random.nextGaussian());
        buffer[i] = (short) (at >= 0 && at < next.length() ? next.sample(at) : hiss);
      }
      return buffer.length;
    }

    @Override
    public void close() {}
  }

  @Test
  void aLineNotUnderstoodIsAskedForOnceMoreThenSkippedAndTheRestGoesOnLater() throws IOException {
    Repeating room = new Repeating();
    List<String> told = new ArrayList<>();
    try (Teaching teaching = teaching(false)) {
      LiveTeaching live =
          new LiveTeaching(
              teaching,
              null,
              null,
              event -> {
                told.add(event.getClass().getSimpleName());
                if (event instanceof LiveTeaching.Event.Say say) {
                  int number = say.line().number();
                  boolean wrong = number == 2 || (number == 3 && say.again() == null);
                  boolean gone = number == 4;
                  room.say(
                      gone
                          ? new Clip(new short[0], 0)
                          : said(wrong ? "engine hood off" : say.line().text(), 15));
                }
              });
      assertFalse(live.run(Teaching.left(shelf(), "kevin"), room));
    }
    assertEquals(
        List.of("Say", "Kept", "Say", "Say", "Skipped", "Say", "Say", "Kept", "Say", "NobodyThere"),
        told);
    List<Integer> left =
        Teaching.left(shelf(), "kevin").stream().map(Teaching.Line::number).toList();
    assertEquals(18, left.size());
    assertEquals(List.of(2, 4, 5), left.subList(0, 3));
    try (Teaching teaching = teaching(false)) {
      assertThrows(WrongUse.class, teaching::finish, "too little to learn from");
    }
  }

  @Test
  void whoBeginsAnewLosesNothingBeforeTheFirstLineIsSaid() {
    Teaching.Line line = Teaching.all().get(11);
    try (Teaching teaching = teaching(false)) {
      assertEquals(Teaching.Taken.UNDERSTOOD, teaching.take(line, said(line.text(), 20)));
    }
    Teaching.Line other = Teaching.all().get(10);
    try (Teaching teaching = teaching(true)) {
      assertEquals(Teaching.Taken.NOT_UNDERSTOOD, teaching.take(other, said("belly pan off", 20)));
      assertEquals(1, shelf().recorded("kevin").size());
      assertEquals(Teaching.Taken.UNDERSTOOD, teaching.take(other, said(other.text(), 20)));
    }
    assertEquals(
        List.of(other.words()),
        shelf().recorded("kevin").stream().map(VoiceShelf.Recorded::words).toList());
  }
}
