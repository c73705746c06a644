package tallyback.plan;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Unit;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;

/** Warns of what is allowed in a plan and yet looks like a slip. */
final class SecondLook {

  private final Plan plan;
  private final Section file;
  private final Faults faults;

  private SecondLook(Plan plan, Section file, Faults faults) {
    this.plan = plan;
    this.file = file;
    this.faults = faults;
  }

  static void at(Plan plan, Section file, Faults faults) {
    SecondLook look = new SecondLook(plan, file, faults);
    look.atSystems();
    if (!plan.steps().isEmpty()) {
      look.atItems();
    }
  }

  private void atSystems() {
    List<Section> sections = file.sections("systems");
    for (int i = 0; i < plan.systems().size(); i++) {
      FluidSystem system = plan.systems().get(i);
      Amount capacity = system.capacity();
      if (capacity == null) {
        continue;
      }
      Rational shares = Rational.ZERO;
      for (Point drain : system.drains()) {
        Amount share = drain.share();
        shares = share == null ? shares : shares.plus(share.base());
      }
      if (shares.compareTo(capacity.base()) > 0) {
        faults.sharesExceedCapacity(
            sections.get(i).spot("drains"),
            shares.toBigDecimal().toPlainString() + " " + Unit.LITRE.symbol(),
            capacity.toString());
      }
      Amount before = system.before();
      if (before != null && before.base().compareTo(capacity.base()) > 0) {
        faults.beforeExceedsCapacity(
            sections.get(i).spot("before"), before.toString(), capacity.toString());
      }
    }
  }

  private void atItems() {
    Set<String> off = new HashSet<>();
    Set<String> on = new HashSet<>();
    for (Step step : plan.steps()) {
      off.addAll(step.off());
      on.addAll(step.on());
    }
    List<Section> sections = file.sections("items");
    for (int i = 0; i < plan.items().size(); i++) {
      Item item = plan.items().get(i);
      Spot spot = sections.get(i).spot();
      boolean comesOff = off.contains(item.id());
      boolean goesOn = on.contains(item.id());
      if (!comesOff && !goesOn) {
        faults.inNoStep(spot, item.id());
      } else if (item.temporary() && !comesOff) {
        faults.temporaryStays(spot, item.id());
      } else if (!item.temporary() && !goesOn) {
        faults.offNeverOn(spot, item.id(), stepThatTakesOff(item.id()));
      }
    }
  }

  private Optional<String> stepThatTakesOff(String item) {
    return plan.steps().stream()
        .filter(step -> step.off().contains(item))
        .map(Step::id)
        .findFirst();
  }
}
