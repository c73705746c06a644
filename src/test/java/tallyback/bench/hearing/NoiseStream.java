package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;

/**
 * A shop in which nobody makes an entry, as an endless stream: stretches of noises in seeded order,
 * one fading into the next, each getting louder or fainter as it goes on, and now and then somebody
 * talking about something else. The levels are choices of our own, no source.
 *
 * <p>One thread.
 */
final class NoiseStream {

  static final int SECOND = Clip.SAMPLE_RATE_HZ;

  private static final int SHORTEST_S = 4;
  private static final int LONGEST_S = 20;

  /** The power of what fades out and of what fades in always adds up to one. */
  private static final int FADE = SECOND;

  private static final double NOISE_DBFS = -35;
  private static final double SWING_DB = 12;
  private static final double TALK_DBFS = -26;
  private static final double TALK_SWING_DB = 6;
  private static final int LONGEST_GAP_S = 10;

  private final List<Noise> noises;
  private final List<Path> talk;
  private final Random random;
  private final List<Noise> toCome = new ArrayList<>();
  private double[] fadingOut = new double[FADE];
  private double[] talking = new double[0];
  private int talked;
  private int silentFor;

  /**
   * Begins.
   *
   * @param noises all noises; each comes once before any comes again
   * @param talk recordings of talk, or none
   * @param random the seed
   */
  NoiseStream(List<Noise> noises, List<Path> talk, Random random) {
    this.noises = List.copyOf(noises);
    this.talk = List.copyOf(talk);
    this.random = random;
  }

  /** The next piece of some seconds; one piece goes on where the one before it ended. */
  short[] next() throws IOException {
    int length = SECOND * (SHORTEST_S + random.nextInt(LONGEST_S - SHORTEST_S + 1));
    double[] whole = stretch(length + FADE);
    double[] piece = Arrays.copyOf(whole, length);
    for (int i = 0; i < FADE; i++) {
      double in = Math.sin(Math.PI / 2 * i / FADE);
      piece[i] = piece[i] * in + fadingOut[i];
      whole[length + i] *= Math.cos(Math.PI / 2 * i / FADE);
    }
    fadingOut = Arrays.copyOfRange(whole, length, length + FADE);
    talkOver(piece);
    return cut(piece);
  }

  /** The next noise, at its level of now at one end and at another at the other. */
  private double[] stretch(int length) {
    if (toCome.isEmpty()) {
      toCome.addAll(noises);
      Collections.shuffle(toCome, random);
    }
    double[] stretch = toCome.remove(toCome.size() - 1).stretch(length, random);
    double level = Math.sqrt(Mixer.power(NOISE_DBFS) / Mixer.power(stretch));
    double fromDb = swing(SWING_DB);
    double toDb = swing(SWING_DB);
    for (int i = 0; i < length; i++) {
      stretch[i] *= level * Math.pow(10, (fromDb + (toDb - fromDb) * i / length) / 20);
    }
    return stretch;
  }

  private double swing(double db) {
    return db * (2 * random.nextDouble() - 1);
  }

  private void talkOver(double[] piece) throws IOException {
    for (int i = 0; i < piece.length && !talk.isEmpty(); i++) {
      if (talked < talking.length) {
        piece[i] += talking[talked++];
      } else if (silentFor-- <= 0) {
        talking = somebody();
        talked = 0;
        silentFor = SECOND + random.nextInt(SECOND * LONGEST_GAP_S);
      }
    }
  }

  private double[] somebody() throws IOException {
    Clip clip = Recordings.read(talk.get(random.nextInt(talk.size())));
    double levelDb = TALK_DBFS + swing(TALK_SWING_DB) - LevelMeter.measure(clip).activeDbfs();
    double gain = Double.isFinite(levelDb) ? Math.pow(10, levelDb / 20) : 0;
    double[] samples = new double[clip.length()];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = gain * clip.sample(i);
    }
    return samples;
  }

  private static short[] cut(double[] samples) {
    short[] cut = new short[samples.length];
    for (int i = 0; i < cut.length; i++) {
      cut[i] = (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, Math.rint(samples[i])));
    }
    return cut;
  }
}
