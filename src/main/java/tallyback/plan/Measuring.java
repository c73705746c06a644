package tallyback.plan;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Unit;
import tallyback.plan.Naming.Called;
import tallyback.plan.Plan.Adapter;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Section.Sign;

/** Reads what is measured with, and what readings are expected. One file each. */
final class Measuring {

  private static final int MOST_MINUTES = 1_440;

  private final Faults faults;

  Measuring(Faults faults) {
    this.faults = faults;
  }

  Instrument instrument(Section section, Called called) {
    InstrumentKind kind = section.choice("kind", InstrumentKind.class);
    if (!section.has("kind")) {
      section.missing("kind", "kind: vessel");
    }
    Set<Dimension> scale = scaleOf(kind);
    Amount from = section.requiredAmount("from", "from: 0.5 L (the lowest mark)", Sign.ANY, scale);
    Amount to = section.requiredAmount("to", "to: 5 L (the highest mark)", Sign.ANY, scale);
    checkRange(section, from, to);
    Amount tolerance =
        kind == InstrumentKind.WRENCH && !section.has("tolerance")
            ? null
            : instrumentTolerance(section, to);
    boolean percent = tolerance != null && tolerance.unit() == Unit.PERCENT;
    Instrument instrument =
        new Instrument(
            called.id(),
            called.say(),
            kind == null ? InstrumentKind.GAUGE : kind,
            to.unit(),
            from,
            to,
            percent && tolerance != null ? tolerance.value() : null,
            percent ? null : tolerance,
            calibrated(section),
            adapter(section, kind));
    section.finish();
    return instrument;
  }

  private static Set<Dimension> scaleOf(@Nullable InstrumentKind kind) {
    if (kind == InstrumentKind.VESSEL) {
      return EnumSet.of(Dimension.VOLUME, Dimension.MASS);
    }
    return kind == InstrumentKind.WRENCH ? EnumSet.of(Dimension.TORQUE) : AmountText.anyDimension();
  }

  private void checkRange(Section section, Amount from, Amount to) {
    if (from.unitUnsaid() || to.unitUnsaid()) {
      return;
    }
    if (from.unit() != to.unit()) {
      faults.differentUnit(section.spot("from"), to.unit().symbol(), from.toString());
    } else if (from.value().compareTo(to.value()) >= 0) {
      faults.upsideDown(section.spot("from"), from.toString(), to.toString());
    }
  }

  private Amount instrumentTolerance(Section section, Amount to) {
    String written = section.requiredText("tolerance", "tolerance: 5 % (or ±0.05 L)");
    if (written.isEmpty()) {
      return Section.WRONG;
    }
    Set<Dimension> wanted =
        to.unitUnsaid()
            ? AmountText.anyDimension()
            : EnumSet.of(to.unit().dimension(), Dimension.SHARE);
    Spot spot = section.spot("tolerance");
    Amount tolerance =
        section.checkedAmount(
            Tightening.withoutPlusMinus(written), spot, Sign.NOUGHT_OR_MORE, wanted);
    if (tolerance == null) {
      return Section.WRONG;
    }
    if (!to.unitUnsaid() && tolerance.unit() == Unit.PERCENT) {
      if (to.unit().dimension() == Dimension.TEMPERATURE) {
        faults.percentOfTemperature(spot, to.unit().symbol());
      }
    } else if (!to.unitUnsaid() && tolerance.unit() != to.unit()) {
      faults.differentUnit(spot, to.unit().symbol(), tolerance.toString());
    }
    return tolerance;
  }

  private @Nullable String calibrated(Section section) {
    String date = section.text("calibrated");
    if (date == null) {
      return null;
    }
    try {
      return LocalDate.parse(date).toString();
    } catch (DateTimeParseException e) {
      faults.notDate(section.spot("calibrated"), date);
      return null;
    }
  }

  private @Nullable Adapter adapter(Section instrument, @Nullable InstrumentKind kind) {
    Section section =
        instrument.section("adapter", "adapter: {wrench: 300 mm, reach: 50 mm, angle: 0°}");
    if (section == null) {
      return null;
    }
    if (kind != null && kind != InstrumentKind.WRENCH) {
      faults.adapterOnlyOnWrench(instrument.spot("adapter"), Section.word(kind));
    }
    Set<Dimension> length = EnumSet.of(Dimension.LENGTH);
    Adapter adapter =
        new Adapter(
            section.requiredAmount("wrench", "wrench: 300 mm", Sign.ABOVE_NOUGHT, length),
            section.requiredAmount("reach", "reach: 50 mm", Sign.ABOVE_NOUGHT, length),
            section.requiredAmount(
                "angle", "angle: 0° (in line)", Sign.NOUGHT_OR_MORE, EnumSet.of(Dimension.ANGLE)),
            section.choice("said", TorqueAt.class));
    section.finish();
    return adapter;
  }

  private void checkLimit(
      Section section, @Nullable Amount from, @Nullable Amount to, boolean open) {
    if (!open && !section.has("from") && !section.has("to")) {
      faults.noLimit(section.spot());
    }
    if (from == null || to == null) {
      return;
    }
    if (from.unit().dimension() != to.unit().dimension()) {
      faults.differentUnit(section.spot("to"), from.unit().symbol(), to.toString());
    } else if (from.base().compareTo(to.base()) > 0) {
      faults.upsideDown(section.spot("from"), from.toString(), to.toString());
    }
  }

  /** What a measure is given in. */
  static Set<Dimension> dimensionsOf(Measure measure) {
    return switch (measure) {
      case TEMPERATURE -> EnumSet.of(Dimension.TEMPERATURE);
      case LEVEL -> AmountText.anyDimension();
      case PRESSURE -> EnumSet.of(Dimension.PRESSURE);
      case GAP, THICKNESS -> EnumSet.of(Dimension.LENGTH);
      case VOLTAGE -> EnumSet.of(Dimension.VOLTAGE);
      case CURRENT -> EnumSet.of(Dimension.CURRENT);
      case RESISTANCE -> EnumSet.of(Dimension.RESISTANCE);
      case SPEED -> EnumSet.of(Dimension.SPEED);
      case HOURS -> EnumSet.of(Dimension.TIME);
      case DISTANCE -> EnumSet.of(Dimension.DISTANCE);
      case STRENGTH -> EnumSet.of(Dimension.TEMPERATURE, Dimension.SHARE);
    };
  }

  /**
   * Reads a limit.
   *
   * @param open whether some of its values are left to the maker's manual
   */
  Limit limit(Section section, String subject, boolean open) {
    if (!section.has("measure")) {
      section.missing("measure", "measure: temperature");
    }
    Measure measure = section.choice("measure", Measure.class);
    if (measure == Measure.LEVEL) {
      faults.levelHasMarks(section.spot("measure"));
    }
    Set<Dimension> wanted = measure == null ? AmountText.anyDimension() : dimensionsOf(measure);
    Amount from = section.amount("from", Sign.ANY, wanted);
    Amount to = section.amount("to", Sign.ANY, wanted);
    checkLimit(section, from, to, open);
    Amount drop = section.amount("drop", Sign.NOUGHT_OR_MORE, EnumSet.of(Dimension.PRESSURE));
    Integer minutes = section.whole("minutes", 1, MOST_MINUTES);
    if ((drop != null || minutes != null) && measure != null && measure != Measure.PRESSURE) {
      faults.holdOnlyOfPressure(
          section.spot(drop != null ? "drop" : "minutes"), Section.word(measure));
    }
    section.finish();
    return new Limit(subject, measure == null ? Measure.LEVEL : measure, from, to, drop, minutes);
  }
}
