package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;

import edu.cmu.sphinx.frontend.BaseDataProcessor;
import edu.cmu.sphinx.frontend.Data;
import edu.cmu.sphinx.frontend.DoubleData;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class VocalTractTest {

  private static final int BINS = 257;

  @Test
  void anOrdinaryTractLeavesTheSpectrumAsItIs() {
    double[] spectrum = peakAt(100);

    assertArrayEquals(spectrum.clone(), heard(spectrum, 1));
  }

  @Test
  void aPeakComesToLieBelow() {
    for (int bin : List.of(20, 56, 112, 168)) {
      double[] squeezed = heard(peakAt(bin), 1.12);

      assertEquals(bin / 1.12, centre(squeezed), 0.5, "peak at bin " + bin);
    }
  }

  @Test
  void theTopStaysTheTop() {
    double[] rising = IntStream.range(0, BINS).asDoubleStream().toArray();

    double[] squeezed = heard(rising, 1.12);

    assertEquals(0, squeezed[0]);
    assertEquals(BINS - 1, squeezed[BINS - 1]);
    for (int i = 1; i < BINS; i++) {
      assertEquals(squeezed[i], Math.max(squeezed[i], squeezed[i - 1]), "bin " + i);
    }
  }

  @Test
  void aFactorOutOfReachIsRefused() {
    VocalTract tract = new VocalTract();

    assertThrows(IllegalArgumentException.class, () -> tract.squeeze(0.9));
    assertThrows(IllegalArgumentException.class, () -> tract.squeeze(1.2));
    assertThrows(IllegalArgumentException.class, () -> tract.squeeze(Double.NaN));
  }

  private static double[] peakAt(int bin) {
    double[] spectrum = new double[BINS];
    for (int i = 0; i < BINS; i++) {
      spectrum[i] = Math.exp(-0.5 * Math.pow((i - bin) / 3.0, 2));
    }
    return spectrum;
  }

  private static double centre(double[] spectrum) {
    double weighted = 0;
    double sum = 0;
    for (int i = 0; i < spectrum.length; i++) {
      weighted += i * spectrum[i];
      sum += spectrum[i];
    }
    return weighted / sum;
  }

  private static double[] heard(double[] spectrum, double factor) {
    VocalTract tract = new VocalTract();
    tract.squeeze(factor);
    tract.setPredecessor(
        new BaseDataProcessor() {
          @Override
          public Data getData() {
            return new DoubleData(spectrum);
          }
        });
    return assertInstanceOf(DoubleData.class, tract.getData()).getValues();
  }
}
