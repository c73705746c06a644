package tallyback.dialogue;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Unit;

/** The one measured value of a statement: finding it, and putting another in its place. */
final class Amounts {

  private Amounts() {}

  /** The value that a statement is about, if it has one. */
  static Optional<Amount> of(Statement statement) {
    if (statement instanceof FluidMoved fluid) {
      return Optional.ofNullable(fluid.amount());
    }
    if (statement instanceof Tightened tightened) {
      return Optional.ofNullable(
          tightened.torque() != null ? tightened.torque() : tightened.angle());
    }
    if (statement instanceof Measured measured) {
      return Optional.ofNullable(measured.amount());
    }
    return statement instanceof Aligned aligned
        ? Optional.ofNullable(aligned.angle())
        : Optional.empty();
  }

  /** True when a number stands there whose unit was not said. */
  static boolean lacksUnit(Statement statement) {
    return of(statement).filter(Amount::unitUnsaid).isPresent();
  }

  /**
   * False when a unit was said that leaves some open ("quarts") and a statement put right with it
   * has kept one that isn't among them.
   *
   * @param choices the units left open; empty when none was said at all
   */
  static boolean hasUnitAmong(Statement statement, List<Unit> choices) {
    Statement now = statement instanceof Corrected corrected ? corrected.now() : statement;
    return choices.isEmpty()
        || of(now)
            .map(Amount::unit)
            .map(unit -> unit == Unit.UNSAID || choices.contains(unit))
            .orElse(true);
  }

  /** The statement with another value; empty when it holds none that the value could replace. */
  static Optional<Statement> with(Statement statement, Amount value) {
    if (statement instanceof ItemsMoved moved) {
      return withCount(moved, value);
    }
    if (statement instanceof TemporaryMoved moved) {
      return wholeNumber(value).map(count -> new TemporaryMoved(moved.in(), moved.item(), count));
    }
    return of(statement)
        .flatMap(old -> keepingUnit(old, value))
        .map(fitting -> replaced(statement, fitting));
  }

  /** The statement with its number as said and another unit; empty when that makes no sense. */
  static Optional<Statement> withUnit(Statement statement, Unit unit) {
    return of(statement)
        .filter(old -> fits(statement, old, unit.dimension()))
        .map(old -> replaced(statement, new Amount(old.value(), unit)));
  }

  private static boolean fits(Statement statement, Amount old, Dimension dimension) {
    return old.unitUnsaid()
        ? dimensionsOf(statement).contains(dimension)
        : old.unit().dimension() == dimension;
  }

  /** What the value of a statement may measure. */
  private static List<Dimension> dimensionsOf(Statement statement) {
    if (statement instanceof FluidMoved) {
      return List.of(Dimension.VOLUME, Dimension.MASS);
    }
    if (statement instanceof Tightened tightened) {
      return List.of(tightened.torque() != null ? Dimension.TORQUE : Dimension.ANGLE);
    }
    if (statement instanceof Measured measured) {
      return dimensionsOf(measured.measure());
    }
    return statement instanceof Aligned ? List.of(Dimension.ANGLE) : List.of();
  }

  private static List<Dimension> dimensionsOf(Measure measure) {
    return switch (measure) {
      case TEMPERATURE -> List.of(Dimension.TEMPERATURE);
      case LEVEL, GAP, THICKNESS -> List.of(Dimension.LENGTH);
      case PRESSURE -> List.of(Dimension.PRESSURE);
      case VOLTAGE -> List.of(Dimension.VOLTAGE);
      case CURRENT -> List.of(Dimension.CURRENT);
      case RESISTANCE -> List.of(Dimension.RESISTANCE);
      case SPEED -> List.of(Dimension.SPEED);
      case HOURS -> List.of(Dimension.TIME);
      case DISTANCE -> List.of(Dimension.DISTANCE);
      case STRENGTH -> List.of(Dimension.TEMPERATURE, Dimension.SHARE);
    };
  }

  /**
   * "Sixteen, not sixty" keeps the unit that was said before; a value with a unit must measure the
   * same thing.
   */
  private static Optional<Amount> keepingUnit(Amount old, Amount value) {
    if (value.unitUnsaid()) {
      return Optional.of(new Amount(value.value(), old.unit()));
    }
    boolean sameKind = old.unitUnsaid() || old.unit().dimension() == value.unit().dimension();
    return sameKind ? Optional.of(value) : Optional.empty();
  }

  /** So many fasteners tightened; empty when the value is no count. */
  static Optional<Statement> withCount(Tightened old, Amount value) {
    return wholeNumber(value)
        .map(
            count ->
                new Tightened(
                    old.state(),
                    old.item(),
                    old.place(),
                    old.thing(),
                    count,
                    old.lump(),
                    old.torque(),
                    old.pass(),
                    old.angle(),
                    old.wrench(),
                    old.torqueAt(),
                    old.order()));
  }

  private static Optional<Statement> withCount(ItemsMoved moved, Amount value) {
    if (value.unit().dimension() == Dimension.LENGTH) {
      return Optional.of(items(moved, moved.count(), value));
    }
    return wholeNumber(value).map(count -> items(moved, count, moved.headSize()));
  }

  private static ItemsMoved items(
      ItemsMoved moved, @Nullable Integer count, @Nullable Amount headSize) {
    return new ItemsMoved(
        moved.move(),
        moved.item(),
        moved.thing(),
        count,
        moved.lump(),
        headSize,
        moved.place(),
        moved.where());
  }

  private static Optional<Integer> wholeNumber(Amount value) {
    BigDecimal number = value.value().stripTrailingZeros();
    boolean whole = value.unitUnsaid() && number.scale() <= 0 && number.signum() > 0;
    return whole && number.compareTo(BigDecimal.valueOf(99)) <= 0
        ? Optional.of(number.intValueExact())
        : Optional.empty();
  }

  private static Statement replaced(Statement statement, Amount value) {
    if (statement instanceof FluidMoved old) {
      return new FluidMoved(
          old.move(),
          value,
          old.about(),
          old.fluid(),
          old.form(),
          old.system(),
          old.place(),
          old.vessel(),
          old.warmth(),
          old.temperature());
    }
    if (statement instanceof Tightened old) {
      boolean torque = old.torque() != null;
      return new Tightened(
          old.state(),
          old.item(),
          old.place(),
          old.thing(),
          old.count(),
          old.lump(),
          torque ? value : null,
          old.pass(),
          torque ? old.angle() : value,
          old.wrench(),
          old.torqueAt(),
          old.order());
    }
    if (statement instanceof Measured old) {
      return new Measured(
          old.measure(),
          value,
          old.level(),
          old.mark(),
          old.subject(),
          old.warmth(),
          old.instrument());
    }
    return statement instanceof Aligned old ? new Aligned(old.item(), value) : statement;
  }
}
