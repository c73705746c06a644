package tallyback.plan;

import java.math.BigDecimal;
import java.util.EnumSet;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.ThreadedInto;
import tallyback.plan.Plan.Torque;
import tallyback.plan.Section.Sign;

/**
 * Reads how tight a fastener is to be, and holds the tolerance against the value. One file each.
 */
final class Tightening {

  private static final int MOST_PASSES = 9;

  private final Faults faults;

  Tightening(Faults faults) {
    this.faults = faults;
  }

  @Nullable Torque torque(@Nullable Section section) {
    if (section == null) {
      return null;
    }
    if (!section.has("value")) {
      section.missing("value", "value: 24 N·m (the maker's figure)");
    }
    Amount value = section.amount("value", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.TORQUE));
    Amount[] tolerance = torqueTolerance(section, value);
    String from = section.requiredText("tolerance-from", "tolerance-from: workshop manual p. 12");
    Integer passes = section.whole("passes", 1, MOST_PASSES);
    Torque torque =
        new Torque(
            value == null ? Section.WRONG : value,
            tolerance[0],
            tolerance[1],
            from,
            passes == null ? 1 : passes,
            section.amount("angle", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.ANGLE)),
            section.choice("threads", ThreadState.class),
            section.choice("into", ThreadedInto.class),
            section.flag("sequence"),
            section.flag("again-after-heat"),
            section.amount(
                "again-after", Sign.ABOVE_NOUGHT, EnumSet.of(Dimension.DISTANCE, Dimension.TIME)));
    section.finish();
    return torque;
  }

  /** Plus and minus, in the unit of the value. */
  private Amount[] torqueTolerance(Section torque, @Nullable Amount value) {
    if (!torque.has("tolerance")) {
      torque.missing("tolerance", "tolerance: ±2 N·m (or 10 %, as the manual says)");
    }
    if (torque.isSection("tolerance")) {
      Section both = torque.section("tolerance", "tolerance: ±2 N·m");
      Amount plus = both == null ? null : side(both, "plus", value);
      Amount minus = both == null ? null : side(both, "minus", value);
      if (both != null) {
        both.finish();
      }
      return within(torque, value, plus, minus);
    }
    String written = torque.text("tolerance");
    if (written == null) {
      return new Amount[] {Section.WRONG, Section.WRONG};
    }
    Amount either =
        torque.checkedAmount(
            withoutPlusMinus(written),
            torque.spot("tolerance"),
            Sign.NOUGHT_OR_MORE,
            EnumSet.of(Dimension.TORQUE, Dimension.SHARE));
    if (either != null && value != null && either.unit().dimension() == Dimension.SHARE) {
      either = share(value, either.value());
    } else if (either != null && value != null && either.unit() != value.unit()) {
      faults.differentUnit(torque.spot("tolerance"), value.unit().symbol(), either.toString());
    }
    return within(torque, value, either, either);
  }

  private @Nullable Amount side(Section both, String field, @Nullable Amount value) {
    if (!both.has(field)) {
      both.missing(field, field + ": 2 N·m");
    }
    Amount side = both.amount(field, Sign.NOUGHT_OR_MORE, EnumSet.of(Dimension.TORQUE));
    if (side != null && value != null && side.unit() != value.unit()) {
      faults.differentUnit(both.spot(field), value.unit().symbol(), side.toString());
    }
    return side;
  }

  private Amount[] within(
      Section torque, @Nullable Amount value, @Nullable Amount plus, @Nullable Amount minus) {
    if (value != null
        && minus != null
        && minus.unit() == value.unit()
        && minus.value().compareTo(value.value()) >= 0) {
      faults.toleranceTooLarge(torque.spot("tolerance"), minus + " below " + value);
    }
    return new Amount[] {
      plus == null ? Section.WRONG : plus, minus == null ? Section.WRONG : minus
    };
  }

  /** The exact share of a value, trailing noughts of the product taken off. */
  private static Amount share(Amount value, BigDecimal percent) {
    BigDecimal share =
        value.value().multiply(percent).divide(BigDecimal.valueOf(100)).stripTrailingZeros();
    return new Amount(share.scale() < 0 ? share.setScale(0) : share, value.unit());
  }

  /** A tolerance as text without its sign: {@code ±2 N·m} as {@code 2 N·m}. */
  static String withoutPlusMinus(String written) {
    return written.replaceFirst("^(±|\\+/-|\\+-)\\s*", "");
  }
}
