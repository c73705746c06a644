package tallyback.speech.sphinx;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;

/**
 * Maximum likelihood linear regression: the one affine map of many Gaussians' means that makes the
 * frames they were heard as likeliest, and for each dimension the factor by which their variances
 * then fit. C. J. Leggetter, P. C. Woodland, <cite>Maximum likelihood linear regression for speaker
 * adaptation of continuous density hidden Markov models</cite>, Computer Speech and Language 9,
 * 1995. A number of frames that heard each mean where it is keeps the map from running away where
 * there is little to learn from.
 *
 * <p>The voices it is learned from lie beside the means themselves, and that is not to be learned.
 * So how far each frame's voice lies beside the mean goes into the regression too, and its part is
 * left out of the map.
 *
 * <p>The library's own regression knows one stream of Gaussians that no senones share; this model
 * has three, shared.
 *
 * <p>Thread rule: one owner.
 */
final class Regression {

  /** Where all voices lie on the means, the matrix would be singular. */
  private static final double LEAST = 1e-9;

  private final int size;
  private double count;

  /** {@code [dimension][row][column]}: of what explains a frame, squared. */
  private final double[][][] left;

  /** {@code [dimension][row]}: of the frame and what explains it. */
  private final double[][] right;

  /** The mean, 1, and how far the voice lies beside the mean. */
  private final double[] explains;

  Regression(int size) {
    this.size = size;
    left = new double[size][size + 2][size + 2];
    right = new double[size][size + 2];
    explains = new double[size + 2];
    explains[size] = 1;
  }

  /**
   * Takes a frame as one that a Gaussian made.
   *
   * @param mean of the Gaussian
   * @param variance of the Gaussian
   * @param features the frame's begin at {@code from}
   * @param from where
   * @param share how much of the frame is that Gaussian's
   * @param beside by dimension: how far the voice lies beside the mean
   */
  void add(
      double[] mean, double[] variance, float[] features, int from, double share, double[] beside) {
    System.arraycopy(mean, 0, explains, 0, size);
    count += share;
    for (int i = 0; i < size; i++) {
      explains[size + 1] = beside[i];
      double weight = share / variance[i];
      for (int row = 0; row < explains.length; row++) {
        double weighted = weight * explains[row];
        right[i][row] += weighted * features[from + i];
        for (int column = 0; column < explains.length; column++) {
          left[i][row][column] += weighted * explains[column];
        }
      }
    }
  }

  /** An affine map. Immutable. */
  static final class Affine {

    /** {@code [dimension out][dimension in, and last what is added]}. */
    private final double[][] rows;

    private Affine(double[][] rows) {
      this.rows = rows;
    }

    /** The factors of one dimension, and last what is added. */
    double[] row(int i) {
      return rows[i].clone();
    }

    double mapped(int i, double[] mean) {
      double sum = rows[i][mean.length];
      for (int k = 0; k < mean.length; k++) {
        sum += rows[i][k] * mean[k];
      }
      return sum;
    }
  }

  /**
   * What was learned.
   *
   * @param believed how many frames that heard each mean where it is
   */
  Affine solve(double believed) {
    double[][] rows = new double[size][];
    for (int i = 0; i < size; i++) {
      rows[i] = row(i, believed);
    }
    return new Affine(rows);
  }

  private double[] row(int i, double believed) {
    if (count < 1) {
      double[] same = new double[size + 1];
      same[i] = 1;
      return same;
    }
    double[][] matrix = new double[size + 2][];
    double[] vector = right[i].clone();
    for (int row = 0; row < matrix.length; row++) {
      matrix[row] = left[i][row].clone();
      // As many frames of each mean's own size as are believed, spread over its dimensions alone.
      double own = row > size ? LEAST : believed * (left[i][row][row] + LEAST) / count;
      matrix[row][row] += own;
      vector[row] += row == i ? own : 0;
    }
    double[] solved =
        new LUDecomposition(new Array2DRowRealMatrix(matrix, false))
            .getSolver()
            .solve(new ArrayRealVector(vector, false))
            .toArray();
    return Arrays.copyOf(solved, size + 1);
  }
}
