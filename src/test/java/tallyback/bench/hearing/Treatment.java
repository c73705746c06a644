package tallyback.bench.hearing;

import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;
import tallyback.audio.Clip;
import tallyback.audio.NoiseReducer;

/**
 * What may be done to the sound before it is heard, to see what that is worth. None of it is done
 * by the program.
 */
enum Treatment {
  /** Nothing. */
  NONE {
    @Override
    Clip of(Clip clip) {
      return clip;
    }
  },
  /** Noise taken out, by 20 dB at most. */
  LOG_MMSE {
    @Override
    Clip of(Clip clip) {
      return NoiseReducer.reduce(clip, -20);
    }
  },
  /** Noise taken out, by 8 dB at most. */
  LOG_MMSE_LITTLE {
    @Override
    Clip of(Clip clip) {
      return NoiseReducer.reduce(clip, -8);
    }
  },
  /** Nothing below 200 Hz, where most of an engine's noise is. */
  NO_RUMBLE {
    @Override
    Clip of(Clip clip) {
      return filtered(clip, hz -> edge(hz, 200));
    }
  },
  /** The band of a telephone. */
  TELEPHONE {
    @Override
    Clip of(Clip clip) {
      return filtered(clip, hz -> edge(hz, 300) * (1 - edge(hz, 3400)));
    }
  },
  /** A close microphone of our own invention: thin below 400 Hz, 8 dB more about 3 kHz. */
  HEADSET {
    @Override
    Clip of(Clip clip) {
      return filtered(
          clip,
          hz -> {
            double octaves = Math.log(Math.max(hz, 1) / 3000) / Math.log(2);
            double peakDb = 8 * Math.exp(-octaves * octaves);
            double low = hz / Math.hypot(hz, 400);
            return low * Math.pow(10, peakDb / 20) / 2;
          });
    }
  };

  /** A gain at a frequency. */
  private interface Gain {
    double at(double hz);
  }

  /** The clip as it is heard then. */
  abstract Clip of(Clip clip);

  /** From nothing to all within a third of an octave about a frequency. */
  private static double edge(double hz, double at) {
    double octaves = Math.log(Math.max(hz, 1) / at) / Math.log(2);
    return Math.max(0, Math.min(1, 0.5 + 3 * octaves));
  }

  private static Clip filtered(Clip clip, Gain gain) {
    int size = Integer.highestOneBit(Math.max(2, clip.length())) * 2;
    double[] padded = new double[size];
    for (int i = 0; i < clip.length(); i++) {
      padded[i] = clip.sample(i);
    }
    FastFourierTransformer fourier = new FastFourierTransformer(DftNormalization.STANDARD);
    Complex[] spectrum = fourier.transform(padded, TransformType.FORWARD);
    for (int bin = 0; bin < size; bin++) {
      double hz = (double) Math.min(bin, size - bin) * Clip.SAMPLE_RATE_HZ / size;
      spectrum[bin] = spectrum[bin].multiply(gain.at(hz));
    }
    Complex[] back = fourier.transform(spectrum, TransformType.INVERSE);
    short[] samples = new short[clip.length()];
    for (int i = 0; i < samples.length; i++) {
      double value = Math.rint(back[i].getReal());
      samples[i] = (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, value));
    }
    return new Clip(samples, clip.startMs());
  }
}
