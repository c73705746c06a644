package tallyback.bench.hearing;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * A ratio of speech to noise.
 *
 * @param db in dB; positive infinity for clean speech
 */
record Snr(double db) {

  static final Snr CLEAN = new Snr(Double.POSITIVE_INFINITY);

  /** Reads a list such as {@code clean,20,15}. */
  static List<Snr> list(String text) {
    return Stream.of(text.split(",", -1)).map(String::strip).map(Snr::of).toList();
  }

  private static Snr of(String text) {
    try {
      return text.equals("clean") ? CLEAN : new Snr(Double.parseDouble(text));
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(
          "bench.snr: expected clean or a number of dB, found " + text, e);
    }
  }

  boolean isClean() {
    return Double.isInfinite(db);
  }

  @Override
  public String toString() {
    return isClean() ? "clean" : String.format(Locale.ROOT, "%s dB", number());
  }

  /** The number of dB as one writes it, such as {@code 15} or {@code 7.5}. */
  String number() {
    return db == Math.rint(db) ? Long.toString((long) db) : Double.toString(db);
  }
}
