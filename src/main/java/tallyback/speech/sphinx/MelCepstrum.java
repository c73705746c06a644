package tallyback.speech.sphinx;

import java.util.Arrays;

/**
 * From the log mel spectrum to the cepstrum and back, as the acoustic model's front end does it: an
 * orthonormal cosine transform (type II), cut off after the first coefficients, and the sine lifter
 * of B. H. Juang, L. R. Rabiner, J. G. Wilpon, <cite>On the use of bandpass liftering in speech
 * recognition</cite>, IEEE Transactions on Acoustics, Speech, and Signal Processing 35, 1987.
 *
 * <p>Thread rule: immutable.
 */
final class MelCepstrum {

  private final int filters;
  private final int coefficients;

  /** {@code [coefficient][filter]}. */
  private final double[][] forth;

  /** {@code [filter][coefficient]}; what was cut off comes back as nought. */
  private final double[][] back;

  /** {@code [filter][coefficient * coefficients + coefficient]}. */
  private final double[][] products;

  MelCepstrum(int filters, int coefficients, int lifter) {
    this.filters = filters;
    this.coefficients = coefficients;
    forth = new double[coefficients][filters];
    back = new double[filters][coefficients];
    products = new double[filters][coefficients * coefficients];
    for (int i = 0; i < coefficients; i++) {
      double norm = Math.sqrt((i == 0 ? 1.0 : 2.0) / filters);
      double lift = 1 + lifter / 2.0 * Math.sin(i * Math.PI / lifter);
      for (int j = 0; j < filters; j++) {
        double cosine = norm * Math.cos(Math.PI * i * (j + 0.5) / filters);
        forth[i][j] = cosine * lift;
        back[j][i] = cosine / lift;
      }
    }
    for (int i = 0; i < coefficients; i++) {
      for (int k = 0; k < coefficients; k++) {
        for (int j = 0; j < filters; j++) {
          products[j][i * coefficients + k] = forth[i][j] * back[j][k];
        }
      }
    }
  }

  int filters() {
    return filters;
  }

  int coefficients() {
    return coefficients;
  }

  double[] toMel(double[] cepstrum) {
    return times(back, cepstrum);
  }

  double[] toCepstrum(double[] mel) {
    return times(forth, mel);
  }

  /**
   * What becomes of a small step in the cepstrum when each filter lets a share of it through.
   *
   * @param shares one for each filter
   * @param gain filled: {@code [coefficient out * coefficients + coefficient in]}
   */
  void gain(double[] shares, double[] gain) {
    Arrays.fill(gain, 0);
    // Filter by filter, so that the inner loop is long and becomes vector instructions.
    for (int j = 0; j < filters; j++) {
      double share = shares[j];
      double[] product = products[j];
      for (int i = 0; i < gain.length; i++) {
        gain[i] += product[i] * share;
      }
    }
  }

  private static double[] times(double[][] matrix, double[] vector) {
    double[] product = new double[matrix.length];
    for (int i = 0; i < product.length; i++) {
      double sum = 0;
      double[] row = matrix[i];
      for (int j = 0; j < row.length; j++) {
        sum += row[j] * vector[j];
      }
      product[i] = sum;
    }
    return product;
  }
}
