package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.ThreadedInto;
import tallyback.plan.Plan.Torque;
import tallyback.trade.Preload;
import tallyback.trade.Preload.NutFactor;
import tallyback.trade.PropertyClass;
import tallyback.trade.ScrewThread;

/**
 * What a torque does to the bolt itself, whatever the plan asks for; what an adapter makes of it;
 * and whether it was tightened again after running warm.
 */
final class BoltRules implements Rule {

  private static final Kind OVERLOADED =
      Kind.stop("overloaded", Kind.ALL).following("unit-slip", "torque-outside", "adapter-unsaid");
  private static final Kind LOAD_HIGH =
      Kind.note("load-high").following("unit-slip", "torque-outside", "adapter-unsaid");
  private static final Kind ADAPTER_UNSAID =
      Kind.check("adapter-unsaid", Kind.ALL).following("unit-slip", "torque-outside");
  private static final Kind TIGHTEN_AGAIN =
      Kind.check("tighten-again-unsaid", Kind.HAND_OVER)
          .following("left-in-tray", "missing", "torque-unsaid", "torque-partly", "hand-tight-only")
          .whileUnfinished();

  @Override
  public List<Kind> kinds() {
    return List.of(OVERLOADED, LOAD_HIGH, ADAPTER_UNSAID, TIGHTEN_AGAIN);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (Item item : job.plan().items()) {
      if (!item.temporary()) {
        load(job, item, found);
        adapter(job, item, found);
        again(job, item, found);
      }
    }
  }

  private static void load(JobView job, Item item, Drafts found) {
    Optional<Tightness.Told> hardest = hardest(job.tightness(item));
    Bolt bolt = Bolt.of(item);
    if (hardest.isEmpty() || bolt.notJudged() != null) {
      return;
    }
    switch (bolt.load(hardest.get().atBolt())) {
      case ABOVE_WITH_ANY_FACTOR -> write(OVERLOADED, item, bolt, hardest.get(), found);
      case ABOVE_WITH_USUAL_FACTOR -> write(LOAD_HIGH, item, bolt, hardest.get(), found);
      case BELOW_PROOF -> {}
    }
  }

  private static Optional<Tightness.Told> hardest(Tightness tightness) {
    Tightness.Told hardest = null;
    for (Tightness.Told told : tightness.torques()) {
      if (hardest == null || told.atBolt().compareTo(hardest.atBolt()) > 0) {
        hardest = told;
      }
    }
    return Optional.ofNullable(hardest);
  }

  private static void write(Kind kind, Item item, Bolt bolt, Tightness.Told told, Drafts found) {
    double torqueNm = told.atBolt().toDouble();
    found
        .add(kind, item.id(), item.label())
        .with("bolt", item.thread() + " " + item.grade())
        .with("proof", kilonewtons(bolt.proofLoadN()))
        .with("value", told.said())
        .with("least", kilonewtons(bolt.newtons(torqueNm, bolt.factor().highest())))
        .with("usual", kilonewtons(bolt.newtons(torqueNm, bolt.factor().nominal())))
        .with("lowestFactor", factor(bolt.factor().lowest()))
        .with("usualFactor", factor(bolt.factor().nominal()))
        .with("highestFactor", factor(bolt.factor().highest()))
        .seenIn(told.at().said());
  }

  private static String kilonewtons(double newtons) {
    return String.format(Locale.ROOT, "%.1f kN", newtons / 1000);
  }

  private static String factor(double factor) {
    return String.format(Locale.ROOT, "%.2f", factor);
  }

  /**
   * What is known of a bolt.
   *
   * @param notJudged why its load is not judged, in words; null when it is
   */
  record Bolt(
      @Nullable ScrewThread thread,
      @Nullable PropertyClass grade,
      NutFactor factor,
      @Nullable String notJudged) {

    static Bolt of(Item item) {
      Torque torque = item.torque();
      boolean oiled = torque != null && torque.threads() == ThreadState.OILED;
      ScrewThread thread =
          Optional.ofNullable(item.thread()).flatMap(ScrewThread::read).orElse(null);
      PropertyClass grade =
          Optional.ofNullable(item.grade()).flatMap(PropertyClass::read).orElse(null);
      return new Bolt(
          thread,
          grade,
          oiled ? NutFactor.OILED : NutFactor.DRY_OR_UNSAID,
          notJudged(item, torque, thread, grade));
    }

    private static @Nullable String notJudged(
        Item item,
        @Nullable Torque torque,
        @Nullable ScrewThread thread,
        @Nullable PropertyClass grade) {
      ThreadedInto into = torque == null ? null : torque.into();
      if (into != null && into != ThreadedInto.STEEL && into != ThreadedInto.IRON) {
        return FindingText.threadInto(into);
      }
      if (item.thing() == Thing.PLUG) {
        return FindingText.NOT_JUDGED_PLUG;
      }
      if (item.hollow()) {
        return FindingText.NOT_JUDGED_HOLLOW;
      }
      if (item.stretch()) {
        return FindingText.NOT_JUDGED_STRETCH;
      }
      return thread == null || grade == null ? FindingText.NOT_JUDGED_UNKNOWN : null;
    }

    private ScrewThread knownThread() {
      if (thread == null) {
        throw new IllegalStateException("not judged: " + notJudged);
      }
      return thread;
    }

    private PropertyClass knownGrade() {
      if (grade == null) {
        throw new IllegalStateException("not judged: " + notJudged);
      }
      return grade;
    }

    Preload.Load load(Rational torqueNm) {
      return Preload.load(torqueNm.toDouble(), knownThread(), knownGrade(), factor);
    }

    double proofLoadN() {
      return knownGrade().proofLoadN(knownThread());
    }

    double newtons(double torqueNm, double nutFactor) {
      return Preload.newtons(torqueNm, nutFactor, knownThread().diameterMm());
    }
  }

  /**
   * Groups that were torqued and whose load can't be judged, each with the reason, in words; those
   * of which the plan says too little are only counted.
   */
  static List<String> notJudged(JobView job) {
    List<String> notJudged = new ArrayList<>();
    int unknown = 0;
    for (Item item : job.plan().items()) {
      String why = Bolt.of(item).notJudged();
      if (why != null && !item.temporary() && hardest(job.tightness(item)).isPresent()) {
        if (why.equals(FindingText.NOT_JUDGED_UNKNOWN)) {
          unknown++;
        } else {
          notJudged.add(item.label() + " (" + why + ")");
        }
      }
    }
    if (unknown > 0) {
      notJudged.add(FindingText.notJudgedUnknown(unknown));
    }
    return notJudged;
  }

  private static void adapter(JobView job, Item item, Drafts found) {
    List<Tightness.Told> torques = job.tightness(item).torques();
    for (int last = torques.size() - 1; last >= 0; last--) {
      Tightness.Told told = torques.get(last);
      Instrument wrench = job.index().instrument(told.told().wrench()).orElse(null);
      if (wrench == null || !Adapters.unsaid(wrench, told.told())) {
        if (told.count() >= item.count()) {
          return; // All of them were torqued again since, and it is known how tight.
        }
        continue;
      }
      Rational gain = Adapters.mechanicalGain(wrench);
      Amount said = told.said();
      found
          .add(ADAPTER_UNSAID, item.id(), item.label())
          .with("value", said)
          .with("wrench", wrench.label())
          .with("atBolt", FindingText.inUnit(said.base().times(gain), said.unit()))
          .with("setting", FindingText.inUnit(said.base().dividedBy(gain), said.unit()))
          .seenIn(told.at().said());
    }
  }

  private static void again(JobView job, Item item, Drafts found) {
    Torque torque = item.torque();
    Optional<At<StateSaid>> run =
        job.states().lastBefore(Integer.MAX_VALUE, EnumSet.of(MachineState.RUNNING));
    int lastTorqued = job.tightness(item).lastTorqued();
    if (torque != null
        && torque.againAfterHeat()
        && run.isPresent()
        && lastTorqued >= 0
        && lastTorqued < run.get().position()) {
      found
          .add(TIGHTEN_AGAIN, item.id(), item.label())
          .with("spec", FindingText.torque(torque))
          .with("when", FindingText.when(run.get().said()))
          .seenIn(job.evidenceOf(item))
          .seenIn(run.get().said());
    }
  }
}
