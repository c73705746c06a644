package tallyback.bench;

import java.util.Locale;

/**
 * A count out of a number of trials with its 95 % interval (E. B. Wilson, <cite>Probable inference,
 * the law of succession, and statistical inference</cite>, Journal of the American Statistical
 * Association 22, 1927).
 */
record Share(long count, long of) {

  private static final double Z = 1.959964;

  @Override
  public String toString() {
    if (of == 0) {
      return "none";
    }
    double p = (double) count / of;
    double centre = (p + Z * Z / (2 * of)) / (1 + Z * Z / of);
    double half = Z / (1 + Z * Z / of) * Math.sqrt(p * (1 - p) / of + Z * Z / (4.0 * of * of));
    return String.format(
        Locale.ROOT,
        "%d of %d = %.1f %% (%.1f to %.1f)",
        count,
        of,
        100 * p,
        100 * (centre - half),
        100 * (centre + half));
  }
}
