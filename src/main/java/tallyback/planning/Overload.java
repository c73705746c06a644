package tallyback.planning;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.Torque;
import tallyback.trade.Preload;
import tallyback.trade.Preload.Load;
import tallyback.trade.Preload.NutFactor;
import tallyback.trade.PropertyClass;
import tallyback.trade.ScrewThread;

/**
 * A torque that its bolt can't bear, most often for a slip of the unit, or that hardly tightens it.
 * The bolt itself is looked at, whatever it is screwed into; where the plan gives no property
 * class, by the strongest there is, so that nothing is said against a torque that any bolt could
 * bear. Plugs, hollow and stretch bolts bear otherwise and are left alone, as when a job is judged.
 */
final class Overload {

  /** Stands in for a bolt of unknown class: none is stronger. */
  private static final PropertyClass STRONGEST = PropertyClass.CLASS_12_9;

  /** What a bolt of unknown class most often is; only for saying which unit would suit. */
  private static final PropertyClass USUAL = PropertyClass.CLASS_8_8;

  /**
   * Shares of the proof load that a figure in the right unit comes to; usual practice aims at some
   * three quarters (MIL-HDBK-60), covers and soft threads at less. Common practice, no source.
   */
  private static final double LEAST_USUAL = 0.25;

  private static final double MOST_USUAL = 0.9;

  /** Less than this hardly tightens a bolt of known class in steel. Common practice, no source. */
  private static final double HARDLY_TIGHT = 0.1;

  private static final Set<Thing> JUDGED =
      EnumSet.of(Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.STUD);

  private Overload() {}

  /**
   * A torque on a thread.
   *
   * @param classKnown whether the plan gives the property class, or it is the strongest
   */
  record Bolt(
      Item item,
      Torque torque,
      ScrewThread thread,
      PropertyClass grade,
      boolean classKnown,
      NutFactor factor) {

    double newtons(Rational torqueNm, double nutFactor) {
      return Preload.newtons(torqueNm.toDouble(), nutFactor, thread.diameterMm());
    }

    double proofN() {
      return grade.proofLoadN(thread);
    }

    /** Share of the proof load with the usual friction. */
    double share(Rational torqueNm) {
      return newtons(torqueNm, factor.nominal()) / proofN();
    }

    /** Units in which the same number would be a usual torque. */
    List<Unit> wouldSuit() {
      PropertyClass by = classKnown ? grade : USUAL;
      List<Unit> units = new ArrayList<>();
      for (Unit unit : Unit.values()) {
        if (unit.dimension() != Dimension.TORQUE || unit == torque.value().unit()) {
          continue;
        }
        Rational other = unit.toBase(Rational.of(torque.value().value()));
        double share = newtons(other, factor.nominal()) / by.proofLoadN(thread);
        if (share >= LEAST_USUAL && share <= MOST_USUAL) {
          units.add(unit);
        }
      }
      return units;
    }
  }

  static void look(Plan plan, LintList list) {
    for (Item item : plan.items()) {
      bolt(item).ifPresent(bolt -> judge(bolt, list));
    }
  }

  private static Optional<Bolt> bolt(Item item) {
    Torque torque = item.torque();
    ScrewThread thread = Optional.ofNullable(item.thread()).flatMap(ScrewThread::read).orElse(null);
    if (torque == null
        || thread == null
        || torque.value().unit().dimension() != Dimension.TORQUE
        || !JUDGED.contains(item.thing())
        || item.stretch()
        || item.hollow()) {
      return Optional.empty();
    }
    Optional<PropertyClass> grade = Optional.ofNullable(item.grade()).flatMap(PropertyClass::read);
    boolean oiled = torque.threads() == ThreadState.OILED;
    return Optional.of(
        new Bolt(
            item,
            torque,
            thread,
            grade.orElse(STRONGEST),
            grade.isPresent(),
            oiled ? NutFactor.OILED : NutFactor.DRY_OR_UNSAID));
  }

  private static void judge(Bolt bolt, LintList list) {
    Rational torqueNm = bolt.torque().value().base();
    Load load = Preload.load(torqueNm.toDouble(), bolt.thread(), bolt.grade(), bolt.factor());
    switch (load) {
      case ABOVE_WITH_ANY_FACTOR -> LintText.overload(bolt, Weight.STOP, list);
      case ABOVE_WITH_USUAL_FACTOR ->
          LintText.overload(bolt, bolt.wouldSuit().isEmpty() ? Weight.NOTE : Weight.CHECK, list);
      case BELOW_PROOF -> {
        boolean soft =
            bolt.torque().into() != null
                && bolt.torque().into() != Plan.ThreadedInto.STEEL
                && bolt.torque().into() != Plan.ThreadedInto.IRON;
        if (bolt.classKnown()
            && !soft
            && bolt.share(torqueNm) < HARDLY_TIGHT
            && !bolt.wouldSuit().isEmpty()) {
          LintText.hardlyTight(bolt, list);
        }
      }
    }
  }
}
