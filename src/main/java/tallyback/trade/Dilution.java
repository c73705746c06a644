package tallyback.trade;

import java.util.OptionalInt;
import tallyback.model.Rational;

/**
 * Mixing and replacing. Volumes are taken to add up and to mix perfectly; ASHRAE's table shows that
 * mixing glycol with water shrinks by about 0.3 of a percent of volume, far less than a jug can
 * tell. Identities of arithmetic, exact; textbook examples in the tests.
 *
 * <p>Stateless, safe for any thread. Volumes in one unit of choice, strengths as shares from 0 to
 * 1.
 */
public final class Dilution {

  private static final Rational ONE = Rational.of(1, 1);
  private static final int MOST_ROUNDS = 100;

  private Dilution() {}

  /** Strength of two volumes mixed; the sum must not be nought. */
  public static Rational mixed(
      Rational volume, Rational share, Rational otherVolume, Rational otherShare) {
    return volume
        .times(share)
        .plus(otherVolume.times(otherShare))
        .dividedBy(volume.plus(otherVolume));
  }

  /**
   * Alligation: which part of a mixture the stronger of two fluids must be.
   *
   * @param weak strength of the weaker
   * @param strong strength of the stronger, other than {@code weak}
   * @param wanted strength wanted, between the two
   */
  public static Rational partOfStronger(Rational weak, Rational strong, Rational wanted) {
    return wanted.minus(weak).dividedBy(strong.minus(weak));
  }

  /**
   * Share of the old fluid left after draining and refilling the same amount so many times: {@code
   * (1 - x/V)^n}.
   */
  public static Rational oldLeft(Rational drainedEachTime, Rational content, int rounds) {
    Rational stays = ONE.minus(drainedEachTime.dividedBy(content));
    Rational left = ONE;
    for (int round = 0; round < rounds; round++) {
      left = left.times(stays);
    }
    return left;
  }

  /**
   * How many rounds of draining and refilling bring the share of old fluid from {@code now} down to
   * {@code wanted}; empty when no number up to a hundred does.
   */
  public static OptionalInt roundsTo(
      Rational drainedEachTime, Rational content, Rational now, Rational wanted) {
    Rational stays = ONE.minus(drainedEachTime.dividedBy(content));
    Rational left = now;
    for (int round = 0; round <= MOST_ROUNDS; round++) {
      if (left.compareTo(wanted) <= 0) {
        return OptionalInt.of(round);
      }
      left = left.times(stays);
    }
    return OptionalInt.empty();
  }

  /** What to do to end at a wanted strength. */
  public sealed interface Recipe permits Pour, DrainFirst, OutOfReach {}

  /**
   * Fill up with these.
   *
   * @param concentrate how much concentrate
   * @param water how much water
   */
  public record Pour(Rational concentrate, Rational water) implements Recipe {}

  /**
   * Filling up can't do it: so much of what is inside must come out first.
   *
   * @param drain how much at least
   * @param then what to fill up with after that
   */
  public record DrainFirst(Rational drain, Pour then) implements Recipe {}

  /** Not even an empty system filled with the concentrate gets there. */
  public record OutOfReach() implements Recipe {}

  /**
   * What to pour to fill a system to a wanted strength.
   *
   * @param content how much the full system holds, above nought
   * @param inside how much is inside, at most {@code content}
   * @param shareInside strength of what is inside
   * @param shareOfConcentrate strength of the concentrate, above nought
   * @param wanted strength wanted
   */
  public static Recipe toReach(
      Rational content,
      Rational inside,
      Rational shareInside,
      Rational shareOfConcentrate,
      Rational wanted) {
    if (wanted.compareTo(shareOfConcentrate) > 0) {
      return new OutOfReach();
    }
    Rational drain = toDrain(content, inside, shareInside, shareOfConcentrate, wanted);
    Rational stays = inside.minus(drain);
    Rational lacking = content.times(wanted).minus(stays.times(shareInside));
    Rational concentrate = lacking.dividedBy(shareOfConcentrate);
    Pour pour = new Pour(concentrate, content.minus(stays).minus(concentrate));
    return drain.signum() > 0 ? new DrainFirst(drain, pour) : pour;
  }

  private static Rational toDrain(
      Rational content,
      Rational inside,
      Rational shareInside,
      Rational shareOfConcentrate,
      Rational wanted) {
    Rational lacking = content.times(wanted).minus(inside.times(shareInside));
    if (lacking.signum() < 0) {
      return inside.minus(content.times(wanted).dividedBy(shareInside));
    }
    Rational most = content.minus(inside).times(shareOfConcentrate);
    if (lacking.compareTo(most) > 0) {
      return lacking.minus(most).dividedBy(shareOfConcentrate.minus(shareInside));
    }
    return Rational.ZERO;
  }
}
