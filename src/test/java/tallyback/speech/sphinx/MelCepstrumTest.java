package tallyback.speech.sphinx;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import edu.cmu.sphinx.frontend.BaseDataProcessor;
import edu.cmu.sphinx.frontend.Data;
import edu.cmu.sphinx.frontend.DoubleData;
import edu.cmu.sphinx.frontend.transform.DiscreteCosineTransform2;
import edu.cmu.sphinx.frontend.transform.Lifter;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class MelCepstrumTest {

  private static final int FILTERS = 25;
  private static final int COEFFICIENTS = 13;
  private static final int LIFTER = 22;

  private final MelCepstrum mel = new MelCepstrum(FILTERS, COEFFICIENTS, LIFTER);

  @Test
  void makesTheCepstrumThatTheLibrarysFrontEndMakes() {
    double[] spectrum = new Random(1).doubles(FILTERS, 1e3, 1e7).toArray();

    double[] ours = mel.toCepstrum(Arrays.stream(spectrum).map(Math::log).toArray());

    assertArrayEquals(libraryCepstrum(spectrum), ours, 1e-6);
  }

  @Test
  void comesBackFromTheSpectrumAsItWas() {
    double[] cepstrum = new Random(2).doubles(COEFFICIENTS, -20, 20).toArray();

    assertArrayEquals(cepstrum, mel.toCepstrum(mel.toMel(cepstrum)), 1e-9);
  }

  @Test
  void filtersThatLetAllThroughChangeNoStep() {
    double[] gain = new double[COEFFICIENTS * COEFFICIENTS];
    double[] shares = new double[FILTERS];
    Arrays.fill(shares, 1);

    mel.gain(shares, gain);

    for (int i = 0; i < COEFFICIENTS; i++) {
      for (int k = 0; k < COEFFICIENTS; k++) {
        assertEquals(i == k ? 1 : 0, gain[i * COEFFICIENTS + k], 1e-9);
      }
    }
  }

  private static double[] libraryCepstrum(double[] spectrum) {
    BaseDataProcessor source =
        new BaseDataProcessor() {
          @Override
          public Data getData() {
            return new DoubleData(spectrum.clone(), 16_000, 0);
          }
        };
    DiscreteCosineTransform2 cosine = new DiscreteCosineTransform2(FILTERS, COEFFICIENTS);
    cosine.setPredecessor(source);
    Lifter lifter = new Lifter(LIFTER);
    lifter.setPredecessor(cosine);
    return ((DoubleData) lifter.getData()).getValues();
  }
}
