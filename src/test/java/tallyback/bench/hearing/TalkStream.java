package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;

/** Phrases one after the other with gaps of known length, all at one active speech level. */
final class TalkStream {

  /** Common practice in tests of speech coding; no source at hand. In dB of full scale. */
  private static final double LEVEL_DBFS = -26;

  /** Longer than any hangover in use, so that each phrase is an utterance of its own. */
  private static final int SHORTEST_GAP_MS = 1000;

  private static final int LONGEST_GAP_MS = 3000;

  /** A phrase begins and ends where it is no more than so far below its active level. */
  private static final double AUDIBLE_DB = 30;

  private static final int FRAME = Clip.SAMPLE_RATE_HZ / 100;
  private static final int SAMPLES_A_MS = Clip.SAMPLE_RATE_HZ / 1000;

  /** A quiet room: a faint hiss, as any microphone has. */
  private static final double HISS = 3;

  /** How long a stream without talk is, and how much of it is a quiet room. */
  private static final int SILENCE_MS = 65_000;

  private static final int QUIET_MS = 5_000;

  private final double[] samples;
  private final List<CutCounts.Spoken> spoken;

  private TalkStream(double[] samples, List<CutCounts.Spoken> spoken) {
    this.samples = samples;
    this.spoken = List.copyOf(spoken);
  }

  /** Where each phrase lies, from its first to its last audible 10 ms. */
  List<CutCounts.Spoken> spoken() {
    return spoken;
  }

  /** Joins phrases. */
  static TalkStream of(List<Clip> phrases, Random random) {
    double[] stream = new double[0];
    List<CutCounts.Spoken> spoken = new ArrayList<>();
    for (Clip phrase : phrases) {
      double[] levelled = trimmed(phrase);
      int from = stream.length + gap(random);
      stream = Arrays.copyOf(stream, from + levelled.length);
      System.arraycopy(levelled, 0, stream, from, levelled.length);
      spoken.add(new CutCounts.Spoken(from / SAMPLES_A_MS, stream.length / SAMPLES_A_MS));
    }
    return new TalkStream(Arrays.copyOf(stream, stream.length + gap(random)), spoken);
  }

  /** A stream in which nobody talks: a quiet room, and a minute of noise that starts in it. */
  static TalkStream silence() {
    return new TalkStream(new double[SILENCE_MS * SAMPLES_A_MS], List.of());
  }

  private static int gap(Random random) {
    return SAMPLES_A_MS * (SHORTEST_GAP_MS + random.nextInt(LONGEST_GAP_MS - SHORTEST_GAP_MS + 1));
  }

  /** The phrase at the common level, without what is not audible around it. */
  static double[] trimmed(Clip phrase) {
    double activeDbfs = LevelMeter.measure(phrase).activeDbfs();
    double audible = Mixer.power(activeDbfs - AUDIBLE_DB);
    int first = 0;
    int last = phrase.length() / FRAME - 1;
    while (first < last && power(phrase, first) < audible) {
      first++;
    }
    while (last > first && power(phrase, last) < audible) {
      last--;
    }
    double gain = Math.pow(10, (LEVEL_DBFS - activeDbfs) / 20);
    double[] samples = new double[(last + 1 - first) * FRAME];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = gain * phrase.sample(first * FRAME + i);
    }
    return samples;
  }

  private static double power(Clip phrase, int frame) {
    double sum = 0;
    for (int i = 0; i < FRAME; i++) {
      double sample = phrase.sample(frame * FRAME + i);
      sum += sample * sample;
    }
    return sum / FRAME;
  }

  /** The stream in a quiet room. */
  Clip clean(Random random) {
    double[] sum = samples.clone();
    for (int i = 0; i < sum.length; i++) {
      sum[i] += HISS * random.nextGaussian();
    }
    return Mixer.clip(sum);
  }

  /** The stream in noise, which goes on all through it if anybody talks. */
  Clip in(Noise noise, double snrDb, Random random) {
    double[] sum = noise.stretch(samples.length, random);
    double gain = Math.sqrt(Mixer.power(LEVEL_DBFS - snrDb) / Mixer.power(sum));
    int noisyFrom = spoken.isEmpty() ? QUIET_MS * SAMPLES_A_MS : 0;
    for (int i = 0; i < sum.length; i++) {
      sum[i] = samples[i] + (i < noisyFrom ? HISS * random.nextGaussian() : gain * sum[i]);
    }
    return Mixer.clip(sum);
  }
}
