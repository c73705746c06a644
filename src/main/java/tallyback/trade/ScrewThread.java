package tallyback.trade;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A screw thread with its stress area. Metric: ISO 898-1, {@code A = pi/4 (d - 0.9382 P)^2}; coarse
 * pitches of ISO 261 where no pitch is written (M18 and above from memory). Unified: ASME B1.1,
 * {@code A = pi/4 (d - 0.9743/n)^2} (from memory; 1/2-13 gives the printed 0.1419 square inches).
 *
 * <p>Immutable, safe for any thread.
 *
 * @param diameterMm nominal diameter in millimetres
 * @param pitchMm pitch in millimetres
 * @param unified true for an inch thread
 */
public record ScrewThread(double diameterMm, double pitchMm, boolean unified) {

  private static final double INCH_MM = 25.4;

  private static final Map<String, Double> COARSE_PITCH_MM =
      Map.ofEntries(
          Map.entry("3", 0.5),
          Map.entry("4", 0.7),
          Map.entry("5", 0.8),
          Map.entry("6", 1.0),
          Map.entry("7", 1.0),
          Map.entry("8", 1.25),
          Map.entry("10", 1.5),
          Map.entry("12", 1.75),
          Map.entry("14", 2.0),
          Map.entry("16", 2.0),
          Map.entry("18", 2.5),
          Map.entry("20", 2.5),
          Map.entry("22", 2.5),
          Map.entry("24", 3.0));

  private static final Pattern METRIC =
      Pattern.compile("M ?(\\d{1,2}(?:\\.\\d)?)(?: ?[Xx×] ?(\\d(?:\\.\\d{1,3})?))?");
  private static final Pattern NUMBERED = Pattern.compile("#(\\d{1,2}) ?- ?(\\d{1,2})(?: .*)?");
  private static final Pattern INCH =
      Pattern.compile(
          "(?:(\\d)(?:[ -](?=\\d+/)))?(?:(\\d{1,2})/(\\d{1,2})|(\\d)) ?- ?(\\d{1,2})(?: .*)?");

  /**
   * Reads a thread as people write it: {@code M8}, {@code M8x1.25}, {@code 5/16-18}, {@code
   * 1-1/8-12 UNF}, {@code #10-24}. Empty when it is none of these, or a metric size whose coarse
   * pitch is not known here.
   */
  public static Optional<ScrewThread> read(String written) {
    String text = written.strip();
    Matcher metric = METRIC.matcher(text.toUpperCase(Locale.ROOT));
    if (metric.matches()) {
      return metric(metric.group(1), metric.group(2));
    }
    Matcher numbered = NUMBERED.matcher(text);
    if (numbered.matches()) {
      double inches = 0.060 + 0.013 * Integer.parseInt(numbered.group(1));
      return unified(inches, numbered.group(2));
    }
    Matcher inch = INCH.matcher(text);
    return inch.matches() ? unified(inches(inch), inch.group(5)) : Optional.empty();
  }

  private static Optional<ScrewThread> metric(
      String diameter, @org.jspecify.annotations.Nullable String pitch) {
    Double pitchMm = pitch == null ? COARSE_PITCH_MM.get(diameter) : Double.valueOf(pitch);
    return pitchMm == null || pitchMm <= 0
        ? Optional.empty()
        : checked(new ScrewThread(Double.parseDouble(diameter), pitchMm, false));
  }

  private static double inches(Matcher inch) {
    double whole = inch.group(1) == null ? 0 : Double.parseDouble(inch.group(1));
    if (inch.group(4) != null) {
      return Double.parseDouble(inch.group(4));
    }
    return whole + Double.parseDouble(inch.group(2)) / Double.parseDouble(inch.group(3));
  }

  private static Optional<ScrewThread> unified(double inches, String threadsPerInch) {
    int threads = Integer.parseInt(threadsPerInch);
    return threads == 0 || Double.isInfinite(inches)
        ? Optional.empty()
        : checked(new ScrewThread(inches * INCH_MM, INCH_MM / threads, true));
  }

  /** A pitch that is no pitch for its diameter is a slip of the pen. */
  private static Optional<ScrewThread> checked(ScrewThread thread) {
    return Optional.of(thread).filter(each -> each.pitchMm() * 2 < each.diameterMm());
  }

  /** Stress area in square millimetres. */
  public double stressAreaMm2() {
    double factor = unified ? 0.9743 : 0.9382;
    double diameter = diameterMm - factor * pitchMm;
    return Math.PI / 4 * diameter * diameter;
  }
}
