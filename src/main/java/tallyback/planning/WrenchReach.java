package tallyback.planning;

import java.util.List;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;

/**
 * A torque that none of the plan's torque wrenches reaches. A plan that lists none is left alone.
 */
final class WrenchReach {

  private WrenchReach() {}

  static void look(Plan plan, LintList list) {
    List<Instrument> wrenches =
        plan.instruments().stream()
            .filter(each -> each.kind() == InstrumentKind.WRENCH)
            .filter(each -> isTorque(each.from().unit().dimension()))
            .filter(each -> isTorque(each.to().unit().dimension()))
            .toList();
    if (wrenches.isEmpty()) {
      return;
    }
    for (Item item : plan.items()) {
      if (item.torque() != null
          && isTorque(item.torque().value().unit().dimension())
          && !list.has(list.places().of(item.id(), "torque", "value"))
          && wrenches.stream().noneMatch(each -> reaches(each, item.torque().value().base()))) {
        LintText.noWrench(item, item.torque(), wrenches, list);
      }
    }
  }

  private static boolean isTorque(Dimension dimension) {
    return dimension == Dimension.TORQUE;
  }

  private static boolean reaches(Instrument wrench, Rational torque) {
    return wrench.adapter() != null
        || (torque.compareTo(wrench.from().base()) >= 0
            && torque.compareTo(wrench.to().base()) <= 0);
  }
}
