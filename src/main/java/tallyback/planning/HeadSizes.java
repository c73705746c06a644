package tallyback.planning;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.trade.ScrewThread;
import tallyback.trade.WidthAcrossFlats;

/**
 * A head that no standard has for its thread. Reduced and flange heads are common, so this is never
 * more than a note; sizes of ISO, DIN, JIS and the usual flange heads all count as usual.
 */
final class HeadSizes {

  private static final Set<Thing> WITH_HEADS =
      EnumSet.of(Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.STUD);

  private HeadSizes() {}

  static void look(Plan plan, LintList list) {
    for (Item item : plan.items()) {
      Amount head = item.head();
      if (head != null && WITH_HEADS.contains(item.thing()) && isOutsideHexagon(item)) {
        Optional.ofNullable(item.thread())
            .flatMap(ScrewThread::read)
            .flatMap(WidthAcrossFlats::of)
            .filter(row -> head.unit().dimension() == Dimension.LENGTH && !fits(head, row))
            .ifPresent(row -> LintText.headUnusual(item, head, row, list));
      }
    }
  }

  /** A drive that is turned from inside has sizes of its own. */
  private static boolean isOutsideHexagon(Item item) {
    String drive = item.drive() == null ? "hex" : item.drive().toLowerCase(Locale.ROOT);
    return drive.startsWith("hex") && !drive.contains("socket") && !drive.contains("inside");
  }

  private static boolean fits(Amount head, WidthAcrossFlats row) {
    return head.unit() == Unit.MILLIMETRE
        && row.sizesMm().stream()
            .anyMatch(size -> Rational.of(size, 1).equals(Rational.of(head.value())));
  }

  /** Threads of the table on which such a head is usual. */
  static Set<Integer> usualOn(Amount head) {
    return head.unit() == Unit.MILLIMETRE && head.value().stripTrailingZeros().scale() <= 0
        ? WidthAcrossFlats.diametersMm(head.value().intValue())
        : Set.of();
  }
}
