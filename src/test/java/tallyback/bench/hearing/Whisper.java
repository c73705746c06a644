package tallyback.bench.hearing;

import java.util.Random;

/**
 * Turns a voice into a whisper by linear prediction: the vocal tract is kept as an all-pole filter
 * found anew each 10 ms (autocorrelation method, Levinson and Durbin's recursion; J. Makhoul,
 * <cite>Linear prediction: a tutorial review</cite>, Proceedings of the IEEE 63, 1975), and white
 * noise of the same power takes the place of what the voice put into it.
 */
final class Whisper {

  private static final int ORDER = 18;
  private static final int WINDOW = 400;
  private static final int HOP = 160;

  /** Keeps the recursion sound where there is next to nothing to predict. */
  private static final double WHITE = 1.0001;

  private final double[] window = new double[WINDOW];
  private final double windowPower;

  Whisper() {
    double power = 0;
    for (int i = 0; i < WINDOW; i++) {
      window[i] = 0.54 - 0.46 * Math.cos(2 * Math.PI * i / (WINDOW - 1));
      power += window[i] * window[i];
    }
    windowPower = power;
  }

  double[] of(double[] voice, Random random) {
    double[] whisper = new double[voice.length];
    for (int from = 0; from < voice.length; from += HOP) {
      double[] predictor = new double[ORDER + 1];
      double left = predict(correlation(voice, from + HOP / 2 - WINDOW / 2), predictor);
      double breath = Math.sqrt(Math.max(0, left) / windowPower);
      for (int i = from; i < Math.min(from + HOP, voice.length); i++) {
        double sum = breath * random.nextGaussian();
        for (int k = 1; k <= Math.min(ORDER, i); k++) {
          sum += predictor[k] * whisper[i - k];
        }
        whisper[i] = sum;
      }
    }
    return whisper;
  }

  private double[] correlation(double[] voice, int from) {
    double[] piece = new double[WINDOW];
    for (int i = 0; i < WINDOW; i++) {
      int at = from + i;
      piece[i] = at < 0 || at >= voice.length ? 0 : window[i] * voice[at];
    }
    double[] correlation = new double[ORDER + 1];
    for (int lag = 0; lag <= ORDER; lag++) {
      for (int i = lag; i < WINDOW; i++) {
        correlation[lag] += piece[i] * piece[i - lag];
      }
    }
    correlation[0] *= WHITE;
    return correlation;
  }

  /**
   * Fills in what predicts a sample from those before it, from 1; returns the energy that is left.
   */
  private static double predict(double[] correlation, double[] predictor) {
    double left = correlation[0];
    for (int order = 1; order <= ORDER && left > 0; order++) {
      double sum = correlation[order];
      for (int k = 1; k < order; k++) {
        sum -= predictor[k] * correlation[order - k];
      }
      double reflection = sum / left;
      double[] last = predictor.clone();
      predictor[order] = reflection;
      for (int k = 1; k < order; k++) {
        predictor[k] = last[k] - reflection * last[order - k];
      }
      left *= 1 - reflection * reflection;
    }
    return left;
  }
}
