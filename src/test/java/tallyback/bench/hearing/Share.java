package tallyback.bench.hearing;

import java.util.Locale;

/**
 * A count out of a number of trials with its 95 % interval (E. B. Wilson, <cite>Probable inference,
 * the law of succession, and statistical inference</cite>, Journal of the American Statistical
 * Association 22, 1927).
 */
record Share(long count, long of) {

  private static final double Z = 1.959964;

  /** The share itself, from 0 to 1; 0 of none. */
  double value() {
    return of == 0 ? 0 : (double) count / of;
  }

  /** The lower end of the interval. */
  double low() {
    return of == 0 ? 0 : Math.max(0, centre() - half());
  }

  /** The upper end of the interval. */
  double high() {
    return of == 0 ? 1 : Math.min(1, centre() + half());
  }

  private double centre() {
    return (value() + Z * Z / (2 * of)) / (1 + Z * Z / of);
  }

  private double half() {
    double p = value();
    return Z / (1 + Z * Z / of) * Math.sqrt(p * (1 - p) / of + Z * Z / (4.0 * of * of));
  }

  /** In per cent, such as {@code 96.7 (94.0 to 98.2)}. */
  String percent() {
    return of == 0
        ? "none"
        : String.format(
            Locale.ROOT, "%.1f (%.1f to %.1f)", 100 * value(), 100 * low(), 100 * high());
  }

  @Override
  public String toString() {
    return of == 0 ? "none" : count + " of " + of + " = " + percent() + " %";
  }
}
