package tallyback.trade;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Strength of bolts: property classes of ISO 898-1 (nominal proof stress from memory; with the
 * stress area it comes within 0.5 % of the printed proof loads) and grades of SAE J429 (proof
 * stress as printed by two fastener shops). Immutable, safe for any thread.
 */
public enum PropertyClass {
  /** ISO 898-1 class 4.6. */
  CLASS_4_6("4.6", 225),
  /** ISO 898-1 class 4.8. */
  CLASS_4_8("4.8", 310),
  /** ISO 898-1 class 5.6. */
  CLASS_5_6("5.6", 280),
  /** ISO 898-1 class 5.8. */
  CLASS_5_8("5.8", 380),
  /** ISO 898-1 class 6.8. */
  CLASS_6_8("6.8", 440),
  /** ISO 898-1 class 8.8; 600 MPa above M16. */
  CLASS_8_8("8.8", 580),
  /** ISO 898-1 class 9.8. */
  CLASS_9_8("9.8", 650),
  /** ISO 898-1 class 10.9. */
  CLASS_10_9("10.9", 830),
  /** ISO 898-1 class 12.9. */
  CLASS_12_9("12.9", 970),
  /** SAE J429 grade 1. */
  SAE_1("SAE 1", psi(33_000)),
  /** SAE J429 grade 2; 33,000 psi above 3/4 inch. */
  SAE_2("SAE 2", psi(55_000)),
  /** SAE J429 grade 5; 74,000 psi above 1 inch. */
  SAE_5("SAE 5", psi(85_000)),
  /** SAE J429 grade 8. */
  SAE_8("SAE 8", psi(120_000));

  private static final double INCH_MM = 25.4;
  private static final Pattern SAE =
      Pattern.compile("(?:SAE )?(?:J429 )?(?:GRADE|GR\\.?|SAE) ?([1258])");

  private final String sign;
  private final double proofMPa;

  PropertyClass(String sign, double proofMPa) {
    this.sign = sign;
    this.proofMPa = proofMPa;
  }

  private static double psi(double value) {
    return value * 0.006894757293168;
  }

  /**
   * Reads a class or grade as people write it: {@code 8.8}, {@code class 10.9}, {@code grade 5},
   * {@code SAE grade 8}. Empty for anything else; a bare 8 or 10 is the class of a nut.
   */
  public static Optional<PropertyClass> read(String written) {
    String text = written.strip().toUpperCase(Locale.ROOT).replaceFirst("^CLASS ", "");
    for (PropertyClass each : values()) {
      if (each.sign.equals(text)) {
        return Optional.of(each);
      }
    }
    Matcher sae = SAE.matcher(text);
    return sae.matches() ? read("SAE " + sae.group(1)) : Optional.empty();
  }

  /** How it is written, such as {@code 8.8} or {@code SAE 5}. */
  public String sign() {
    return sign;
  }

  /** Proof stress in MPa for a thread. */
  public double proofMPa(ScrewThread thread) {
    double diameterMm = thread.diameterMm();
    return switch (this) {
      case CLASS_8_8 -> diameterMm > 16 ? 600 : proofMPa;
      case SAE_2 -> diameterMm > 0.75 * INCH_MM ? psi(33_000) : proofMPa;
      case SAE_5 -> diameterMm > INCH_MM ? psi(74_000) : proofMPa;
      default -> proofMPa;
    };
  }

  /** Proof load in newtons: proof stress times stress area. */
  public double proofLoadN(ScrewThread thread) {
    return proofMPa(thread) * thread.stressAreaMm2();
  }
}
