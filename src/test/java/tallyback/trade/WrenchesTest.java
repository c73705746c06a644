package tallyback.trade;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Torque wrenches and what is put on them. */
class WrenchesTest {

  /** US Army TM 9-2350-261-20-1, p. 2-29: 40 lbf·ft wanted, 12 inch wrench, 4 inch adapter: 30. */
  @Test
  void theArmysAdapterIsSetToThirty() {
    assertEquals(30, Crowfoot.setting(40, 12, 4, 0), 1e-9);
    assertEquals(40, Crowfoot.atBolt(30, 12, 4, 0), 1e-9);
  }

  /** NAVEDTRA 14315: 100 lbf·in, 12 inch, 6 inch; the printed answer was not seen, 66.7 follows. */
  @Test
  void theNavysAdapterFollowsTheSameFormula() {
    assertEquals(66.667, Crowfoot.setting(100, 12, 6, 0), 0.001);
  }

  @Test
  void atARightAngleTheAdapterChangesNothing() {
    assertEquals(40, Crowfoot.setting(40, 12, 4, 90));
    assertEquals(40, Crowfoot.setting(40, 12, 4, -90));
    assertEquals(40, Crowfoot.setting(40, 12, 4, 270));
  }

  @Test
  void pointingBackTheAdapterTakesAway() {
    assertEquals(60, Crowfoot.setting(40, 12, 4, 180), 1e-9);
    assertEquals(
        40 * 12 / (12 + 4 * Math.cos(Math.toRadians(45))), Crowfoot.setting(40, 12, 4, 45), 1e-9);
  }

  /** ISO 6789:2003, type II class A, as reviewed in a tool maker's manual. */
  @Test
  void smallToolsMayDeviateByMore() {
    assertEquals(6, TorqueWrench.deviationPercent(10));
    assertEquals(4, TorqueWrench.deviationPercent(10.1));
    assertEquals(4, TorqueWrench.deviationPercent(340));
  }

  @Test
  void belowAFifthOfItsMaximumNothingIsPromised() {
    assertTrue(TorqueWrench.promised(20, 100));
    assertTrue(TorqueWrench.promised(100, 100));
    assertFalse(TorqueWrench.promised(19.9, 100));
    assertFalse(TorqueWrench.promised(100.1, 100));
  }
}
