package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class NoiseCeilingTest {

  @Test
  void itIsNotKnownFromAFewFrames() {
    NoiseCeiling ceiling = new NoiseCeiling();
    for (int i = 0; i < 29; i++) {
      ceiling.learn(20);
    }
    assertFalse(ceiling.isKnown());
    assertEquals(Double.NEGATIVE_INFINITY, ceiling.db());
    ceiling.learn(20);
    assertTrue(ceiling.isKnown());
    assertEquals(20, ceiling.db());
  }

  @Test
  void strokesCountAndASingleBangDoesNot() {
    NoiseCeiling strokes = new NoiseCeiling();
    NoiseCeiling bang = new NoiseCeiling();
    for (int i = 0; i < 400; i++) {
      strokes.learn(i % 10 == 0 ? 30 : 10);
      bang.learn(i > 200 && i < 215 ? 30 : 10);
    }
    assertEquals(30, strokes.db());
    assertEquals(10, bang.db());
  }

  @Test
  void itForgets() {
    NoiseCeiling ceiling = new NoiseCeiling();
    for (int i = 0; i < 400; i++) {
      ceiling.learn(40);
    }
    for (int i = 0; i < 400; i++) {
      ceiling.learn(12);
    }
    assertEquals(12, ceiling.db());
  }
}
