package tallyback.speech.adapt;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.Base64;
import java.util.Map;
import java.util.SortedMap;

/**
 * How much further than {@link MeanMap} says the means of some Gaussians of one kind of feature
 * lie: of those that were heard. Immutable.
 */
public final class MeanShifts {

  /** Far larger ones are no voice. */
  private static final float LARGEST = 1e3f;

  private final int size;
  private final int[] gaussians;

  /** Of each Gaussian all coefficients in a row. */
  private final float[] values;

  private MeanShifts(int size, int[] gaussians, float[] values) {
    this.size = size;
    this.gaussians = gaussians;
    this.values = values;
    for (float value : values) {
      if (!(Math.abs(value) < LARGEST)) {
        throw new IllegalArgumentException("expected small numbers, found " + value);
      }
    }
    for (int i = 0; i < gaussians.length; i++) {
      if (gaussians[i] <= (i == 0 ? -1 : gaussians[i - 1])) {
        throw new IllegalArgumentException("expected Gaussians in order, each once");
      }
    }
  }

  /**
   * Of these Gaussians.
   *
   * @param size how many coefficients each has
   * @param shifts by number of the Gaussian in the model, from 0
   */
  public static MeanShifts of(int size, SortedMap<Integer, double[]> shifts) {
    int[] gaussians = new int[shifts.size()];
    float[] values = new float[shifts.size() * size];
    int at = 0;
    for (Map.Entry<Integer, double[]> shift : shifts.entrySet()) {
      gaussians[at] = shift.getKey();
      for (int i = 0; i < size; i++) {
        values[at * size + i] = (float) shift.getValue()[i];
      }
      at++;
    }
    return new MeanShifts(size, gaussians, values);
  }

  /** How many coefficients a mean has. */
  public int size() {
    return size;
  }

  /** How many Gaussians were heard. */
  public int count() {
    return gaussians.length;
  }

  /** The number of the Gaussian in the model. */
  public int gaussian(int at) {
    return gaussians[at];
  }

  /** How far it is shifted in one coefficient. */
  public float shift(int at, int coefficient) {
    return values[at * size + coefficient];
  }

  /** As text: Base64 of little-endian numbers: size, count, Gaussians, values. */
  String encoded() {
    ByteBuffer bytes =
        ByteBuffer.allocate(4 * (2 + gaussians.length + values.length))
            .order(ByteOrder.LITTLE_ENDIAN);
    bytes.putInt(size).putInt(gaussians.length);
    for (int gaussian : gaussians) {
      bytes.putInt(gaussian);
    }
    for (float value : values) {
      bytes.putFloat(value);
    }
    return Base64.getEncoder().encodeToString(bytes.array());
  }

  /**
   * Of such a text.
   *
   * @throws IllegalArgumentException if it is none
   */
  static MeanShifts decoded(String text) {
    ByteBuffer bytes = ByteBuffer.wrap(Base64.getDecoder().decode(text));
    bytes.order(ByteOrder.LITTLE_ENDIAN);
    try {
      int size = bytes.getInt();
      int count = bytes.getInt();
      if (size < 1 || count < 0 || bytes.remaining() != 4L * count * (1 + (long) size)) {
        throw new IllegalArgumentException("expected as many shifts as it says");
      }
      int[] gaussians = new int[count];
      for (int i = 0; i < count; i++) {
        gaussians[i] = bytes.getInt();
      }
      float[] values = new float[count * size];
      for (int i = 0; i < values.length; i++) {
        values[i] = bytes.getFloat();
      }
      return new MeanShifts(size, gaussians, values);
    } catch (BufferUnderflowException e) {
      throw new IllegalArgumentException("expected shifts, found too little", e);
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof MeanShifts shifts
        && size == shifts.size
        && Arrays.equals(gaussians, shifts.gaussians)
        && Arrays.equals(values, shifts.values);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(gaussians) + Arrays.hashCode(values);
  }

  @Override
  public String toString() {
    return count() + " shifts of " + size;
  }
}
