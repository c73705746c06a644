package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;
import org.junit.jupiter.api.Test;

class RegressionTest {

  private static final int SIZE = 3;
  private static final int FRAMES = 200;

  private final Random random = new Random(5);
  private final double[] ones = {1, 1, 1};

  @Test
  void withGaussiansOfOneWidthItIsTheLibrarysLeastSquares() {
    double[][] means = new double[FRAMES][];
    double[][] heard = new double[SIZE][FRAMES];
    Regression regression = new Regression(SIZE);
    for (int t = 0; t < FRAMES; t++) {
      means[t] = random.doubles(SIZE, -5, 5).toArray();
      float[] features = new float[SIZE];
      for (int i = 0; i < SIZE; i++) {
        features[i] =
            (float)
                (0.8 * means[t][i] - 0.3 * means[t][(i + 1) % SIZE] + i + random.nextGaussian());
        heard[i][t] = features[i];
      }
      regression.add(means[t], ones, features, 0, 1, new double[SIZE]);
    }

    Regression.Affine learned = regression.solve(0);

    for (int i = 0; i < SIZE; i++) {
      OLSMultipleLinearRegression squares = new OLSMultipleLinearRegression();
      squares.newSampleData(heard[i], means);
      double[] theirs = squares.estimateRegressionParameters();
      double[] ours = learned.row(i);
      assertArrayEquals(Arrays.copyOfRange(theirs, 1, SIZE + 1), Arrays.copyOf(ours, SIZE), 1e-6);
      assertEquals(theirs[0], ours[SIZE], 1e-6);
    }
  }

  @Test
  void whatIsBelievedOutweighsAFewFrames() {
    Regression regression = new Regression(SIZE);
    double[] mean = {1, 2, 3};
    regression.add(mean, ones, new float[] {9, 9, 9}, 0, 1, new double[SIZE]);

    Regression.Affine learned = regression.solve(1e6);

    for (int i = 0; i < SIZE; i++) {
      assertEquals(mean[i], learned.mapped(i, mean), 1e-3);
    }
  }

  @Test
  void nothingLearnedChangesNothing() {
    Regression.Affine learned = new Regression(SIZE).solve(300);
    double[] mean = {-4, 0, 7};

    for (int i = 0; i < SIZE; i++) {
      assertEquals(mean[i], learned.mapped(i, mean), 1e-12);
    }
  }

  @Test
  void aNarrowGaussianCountsForMore() {
    Regression regression = new Regression(SIZE);
    double[] mean = {1, 1, 1};
    double[] narrow = {0.01, 0.01, 0.01};
    for (int t = 0; t < FRAMES; t++) {
      regression.add(mean, ones, new float[] {5, 5, 5}, 0, 1, new double[SIZE]);
      regression.add(mean, narrow, new float[] {2, 2, 2}, 0, 1, new double[SIZE]);
    }

    assertEquals(2, regression.solve(1e-9).mapped(0, mean), 0.05);
  }

  @Test
  void whatTheVoiceHasOfItsOwnIsNotLearned() {
    Regression regression = new Regression(SIZE);
    for (int t = 0; t < FRAMES; t++) {
      double[] mean = random.doubles(SIZE, -5, 5).toArray();
      double[] beside = random.doubles(SIZE, 1, 3).toArray();
      float[] features = new float[SIZE];
      for (int i = 0; i < SIZE; i++) {
        features[i] = (float) (0.5 * (mean[i] + beside[i]) + 2);
      }
      regression.add(mean, ones, features, 0, 1, beside);
    }

    Regression.Affine learned = regression.solve(0);

    assertEquals(0.5 * 4 + 2, learned.mapped(0, new double[] {4, 4, 4}), 1e-4);
  }
}
