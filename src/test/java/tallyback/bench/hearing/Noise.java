package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import tallyback.audio.Clip;

/**
 * A recording of noise.
 *
 * @param name the name of its file without the ending
 * @param clip its sound
 */
record Noise(String name, Clip clip) {

  /** Which noises of a folder: hearing is tuned on one half and reported on the other. */
  enum Half {
    ALL,
    TUNING,
    REPORT;

    boolean has(int place) {
      return this == ALL || (place % 2 == 0) == (this == TUNING);
    }

    /** Of a long recording each half of the noises has a half of its own. */
    Clip part(Clip clip) {
      int middle = clip.length() / 2;
      short[] samples = clip.samples();
      return switch (this) {
        case ALL -> clip;
        case TUNING -> new Clip(Arrays.copyOf(samples, middle), 0);
        case REPORT -> new Clip(Arrays.copyOfRange(samples, middle, samples.length), 0);
      };
    }
  }

  private static final int MOST_TRIES = 100;

  /** A noise of a minute is divided: its first half for tuning, its second to report on. */
  private static final int LONG_MS = 59_000;

  /**
   * All WAV files of a folder in alphabetical order, or every other of them and half of each long
   * one.
   */
  static List<Noise> of(Path folder, Half half) throws IOException {
    List<Path> files = Recordings.in(folder);
    List<Noise> noises = new java.util.ArrayList<>();
    for (int place = 0; place < files.size(); place++) {
      String file = files.get(place).getFileName().toString();
      String name = file.substring(0, file.lastIndexOf('.'));
      Clip clip = Recordings.read(files.get(place));
      if (clip.durationMs() >= LONG_MS) {
        noises.add(new Noise(name, half.part(clip)));
      } else if (half.has(place)) {
        noises.add(new Noise(name, clip));
      }
    }
    if (noises.isEmpty()) {
      throw new IllegalArgumentException(folder + ": expected WAV files of noise, found none");
    }
    return noises;
  }

  /** The first or second half of it. */
  Clip half(boolean second) {
    int middle = clip.length() / 2;
    short[] samples = clip.samples();
    return new Clip(
        second
            ? Arrays.copyOfRange(samples, middle, samples.length)
            : Arrays.copyOf(samples, middle),
        0);
  }

  /** The same with only its second half to be heard. */
  Noise secondHalf() {
    return new Noise(name, half(true));
  }

  /** A stretch of it from anywhere, gone round as often as it takes; never silent. */
  double[] stretch(int length, Random random) {
    for (int tried = 0; tried < MOST_TRIES; tried++) {
      int from = random.nextInt(clip.length());
      double[] stretch = new double[length];
      for (int i = 0; i < length; i++) {
        stretch[i] = clip.sample((from + i) % clip.length());
      }
      if (Mixer.power(stretch) > 0) {
        return stretch;
      }
    }
    throw new IllegalArgumentException(name + ": expected noise, found digital silence");
  }
}
