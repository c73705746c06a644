package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.trade.Uncertainty.Component;

/**
 * Against the worked examples of JCGM 100:2008, as the documentation of a reference implementation
 * gives them.
 */
class UncertaintyTest {

  /**
   * JCGM 100:2008, H.1 (end gauge): components in nanometres, combined 31.664 nm, printed as 32 nm.
   */
  @Test
  void independentComponentsAddAsSquaresAsInTheEndGaugeExample() {
    double combined = Uncertainty.quadrature(25, 16.599, 6.7, 5.8, 3.9, 2.88679);
    assertEquals(31.66386517, combined, 0.001);
    assertEquals(32, Math.round(combined));
  }

  /**
   * The same example: the standard uncertainty of d_theta, uniform with a = 0.05 degC, gives 16.599
   * nm for 0.05 m.
   */
  @Test
  void rectangularLimitsGiveTheHalfWidthOverTheRootOfThree() {
    double perDegree = 50_000_623.0 * 11.5e-6;
    assertEquals(16.599, perDegree * Uncertainty.ofRectangular(0.05), 0.001);
  }

  /**
   * JCGM 100:2008, H.2 (resistance and reactance): u(R) = 0.0699787 with r(V,I) = -0.36, r(V,phi) =
   * 0.86, r(I,phi) = -0.65.
   */
  @Test
  void correlatedComponentsCombineAsInTheImpedanceExample() {
    double volt = 4.999;
    double ampere = 0.019661;
    double phase = 1.04446;
    double resistance = volt / ampere * Math.cos(phase);
    double[] components = {
      resistance / volt * 0.0032,
      -resistance / ampere * 9.5e-6,
      -volt / ampere * Math.sin(phase) * 0.00075
    };
    double[][] correlation = {{1, -0.36, 0.86}, {-0.36, 1, -0.65}, {0.86, -0.65, 1}};
    assertEquals(127.73216992810208, resistance, 1e-9);
    assertEquals(0.06997872798837179, Uncertainty.combined(components, correlation), 1e-9);
  }

  @Test
  void twoReadingsOfOneJugAddTheirLimitsWithTheirSigns() {
    assertEquals(
        2 * 0.3 / Math.sqrt(3),
        Uncertainty.expanded(List.of(new Component("jug", 0.1), new Component("jug", 0.2))),
        1e-12);
    assertEquals(
        2 * 0.1 / Math.sqrt(3),
        Uncertainty.expanded(List.of(new Component("jug", 0.2), new Component("jug", -0.1))),
        1e-12);
  }

  @Test
  void readingsOfTwoJugsAddAsSquares() {
    assertEquals(
        2 * Math.sqrt((0.3 * 0.3 + 0.4 * 0.4) / 3),
        Uncertainty.expanded(List.of(new Component("one", 0.3), new Component("other", -0.4))),
        1e-12);
  }

  @Test
  void nothingReadHasNoUncertainty() {
    assertEquals(0, Uncertainty.expanded(List.of()));
  }
}
