package tallyback.speech.adapt;

import java.util.ArrayList;
import java.util.List;

/**
 * Where the means of one kind of feature lie for a voice: a matrix that each mean of the model is
 * multiplied by, and what is added then. Immutable.
 *
 * @param rows one for each coefficient: its row of the matrix and, last, what is added
 */
public record MeanMap(List<List<Double>> rows) {

  /** Far larger ones are no voice. */
  private static final double LARGEST = 1e3;

  /** Copies the rows, which must make a square matrix and a column, of finite numbers. */
  public MeanMap {
    List<List<Double>> copied = new ArrayList<>();
    for (List<Double> row : rows) {
      if (row.size() != rows.size() + 1 || rows.isEmpty()) {
        throw new IllegalArgumentException(
            "expected " + rows.size() + " rows of one number more, found one of " + row.size());
      }
      for (double value : row) {
        if (!(Math.abs(value) < LARGEST)) {
          throw new IllegalArgumentException("expected small numbers, found " + value);
        }
      }
      copied.add(List.copyOf(row));
    }
    rows = List.copyOf(copied);
  }

  /**
   * Of the same numbers.
   *
   * @param rows {@code [coefficient][coefficient]} and, last, what is added
   */
  public static MeanMap of(double[][] rows) {
    List<List<Double>> lists = new ArrayList<>();
    for (double[] row : rows) {
      List<Double> list = new ArrayList<>();
      for (double value : row) {
        list.add(value);
      }
      lists.add(list);
    }
    return new MeanMap(lists);
  }

  /** How many coefficients a mean has. */
  public int size() {
    return rows.size();
  }

  /** The same as an array of the caller's own. */
  public double[][] toArray() {
    double[][] array = new double[size()][size() + 1];
    for (int i = 0; i < array.length; i++) {
      for (int k = 0; k < array[i].length; k++) {
        array[i][k] = rows.get(i).get(k);
      }
    }
    return array;
  }
}
