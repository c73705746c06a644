package tallyback.dialogue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.CautionAnswered;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Step;

/**
 * The plan's cautions, said when a step is begun or with the first entry that belongs to it. Those
 * about what hurts people want "understood", once for each state of the machine: they are due again
 * when the machine has become more dangerous, or somebody else has taken over. The others are said
 * once. Whoever goes on without is not held up; that is noted. One thread.
 */
final class Cautions {

  /**
   * Beginnings of words that speak of what hurts people: heat and pressure, poison, battery,
   * falling and rolling machines, moving parts, exhaust, fuel, springs, hydraulics, dust, high
   * voltage. After 29 CFR 1910.133 and 1910.244, 66 FR 29747, ATSDR ToxFAQs 107-21-1, the NIOSH
   * alert on carbon monoxide of 1996 and common practice. Rather one too many: it costs a word.
   */
  private static final Pattern HURTS =
      Pattern.compile(
          "\\b(scald|burn|hot\\b|cold\\b|cool\\b|pressur|steam|eye|goggle|hand|finger|sleeve|ring|skin"
              + "|glove|hair|poison|toxic|swallow|acid|hydrogen|batter|short.circuit|jack|stand|raise"
              + "|lift|fall|crush|roll|chock|belt|fan\\b|shaft|runn|runs?\\b|exhaust|fume|ventilat"
              + "|indoor|fuel|petrol|gasoline|diesel|vapou?r|spark|flame|fire|spring|airbag|voltage"
              + "|refrigerant|hydraulic|dust|asbestos|injur|danger|hurt|bleed to|brake fluid)");

  /** States in which the machine can do more harm than before. */
  private static final Set<MachineState> DANGEROUS =
      EnumSet.of(
          MachineState.HOT,
          MachineState.RUNNING,
          MachineState.BATTERY_ON,
          MachineState.ON_STANDS,
          MachineState.CAP_OPEN,
          MachineState.GUARDS_OFF);

  private static final Map<MachineState, Set<MachineState>> ENDS =
      Map.of(
          MachineState.COLD, EnumSet.of(MachineState.HOT, MachineState.RUNNING),
          MachineState.STOPPED, EnumSet.of(MachineState.RUNNING),
          MachineState.BATTERY_OFF, EnumSet.of(MachineState.BATTERY_ON),
          MachineState.ON_WHEELS, EnumSet.of(MachineState.ON_STANDS),
          MachineState.CAP_CLOSED, EnumSet.of(MachineState.CAP_OPEN),
          MachineState.GUARDS_ON, EnumSet.of(MachineState.GUARDS_OFF));

  private final Plan plan;
  private final Set<MachineState> dangers = EnumSet.of(MachineState.BATTERY_ON);
  private final Map<String, Integer> saidAtChange = new HashMap<>();
  private final Set<String> done = new HashSet<>();
  private int changes;
  private @Nullable String speaker;
  private @Nullable Step waiting;
  private boolean spoken;

  Cautions(Plan plan) {
    this.plan = plan;
  }

  /** Whether somebody is there to hear them; off at first, since nobody listens to a recording. */
  void speak(boolean now) {
    spoken = now;
  }

  /** True while one wants its answer. */
  boolean isWaiting() {
    return waiting != null;
  }

  /** Takes every entry of the job in order. */
  void add(Entry entry) {
    if (entry.certainty() == Certainty.UNCONFIRMED) {
      return;
    }
    Statement said = entry.said();
    if (said instanceof StateSaid state) {
      state(state.state());
    } else if (said instanceof SpeakerIs somebody) {
      changes += somebody.person().equals(speaker) ? 0 : 1;
      speaker = somebody.person();
    } else if (said instanceof CautionAnswered answered) {
      saidAtChange.put(answered.step(), changes);
      waiting = null;
    } else if (said instanceof StepMarked marked && marked.mark() != StepMark.STARTED) {
      done.add(marked.step());
    }
  }

  private void state(MachineState state) {
    boolean wasHot = dangers.contains(MachineState.HOT);
    dangers.removeAll(ENDS.getOrDefault(state, Set.of()));
    if (DANGEROUS.contains(state) && dangers.add(state)) {
      changes++;
    }
    if (state == MachineState.RUNNING || (state == MachineState.STOPPED && wasHot)) {
      dangers.add(MachineState.HOT);
    }
  }

  /**
   * What is to be said with an entry that was just noted; from then on its answer is waited for, if
   * it wants one.
   */
  Optional<String> due(Entry noted) {
    Step step = spoken ? stepOf(noted.statement()).orElse(null) : null;
    if (step == null
        || step.cautions().isEmpty()
        || Integer.valueOf(changes).equals(saidAtChange.get(step.id()))) {
      return Optional.empty();
    }
    boolean first = !saidAtChange.containsKey(step.id());
    List<String> texts = new ArrayList<>(step.cautions());
    if (!first) {
      texts.removeIf(text -> !hurts(step, text));
    }
    saidAtChange.put(step.id(), changes);
    if (texts.isEmpty()) {
      return Optional.empty();
    }
    boolean wantsAnswer = texts.stream().anyMatch(text -> hurts(step, text));
    waiting = wantsAnswer ? step : waiting;
    return Optional.of(Texts.caution(texts, wantsAnswer));
  }

  /** "Understood"; empty when nothing waits for it. */
  Optional<Statement> understood() {
    return Optional.ofNullable(waiting).map(step -> new CautionAnswered(step.id(), true));
  }

  /** What is to be noted when work goes on with this; empty when nothing was passed over. */
  Optional<Statement> passedOver(Statement next) {
    return goesOn(next)
        ? Optional.ofNullable(waiting).map(step -> new CautionAnswered(step.id(), false))
        : Optional.empty();
  }

  /** Making safe is what a caution asks for; work, or starting the engine, goes on without it. */
  private static boolean goesOn(Statement next) {
    return next instanceof ItemsMoved
        || next instanceof TemporaryMoved
        || next instanceof Tightened
        || next instanceof FluidMoved
        || next instanceof PartFitted
        || next instanceof StepMarked
        || (next instanceof StateSaid state && state.state() == MachineState.RUNNING);
  }

  /** Whether people may be injured: as the plan says, else by the words. */
  private static boolean hurts(Step step, String caution) {
    Boolean said = step.injury().get(caution);
    return said == null ? hurts(caution) : said;
  }

  /** True for what speaks of harm to people. */
  static boolean hurts(String caution) {
    return HURTS.matcher(caution.toLowerCase(Locale.ROOT)).find();
  }

  /** The step that is begun, or that an entry belongs to; of several the first not done. */
  private Optional<Step> stepOf(Statement said) {
    if (said instanceof StepMarked marked) {
      boolean begins = marked.mark() == StepMark.STARTED || marked.mark() == StepMark.REDONE;
      return begins ? plan.step(marked.step()) : Optional.empty();
    }
    if (said instanceof ItemsMoved moved) {
      boolean on = moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON;
      boolean off = moved.move() == ItemMove.OFF;
      return on
          ? with(moved.item(), Step::on)
          : off ? with(moved.item(), Step::off) : Optional.empty();
    }
    if (said instanceof TemporaryMoved moved) {
      return with(moved.item(), moved.in() ? Step::on : Step::off);
    }
    if (said instanceof PartFitted fitted) {
      return with(fitted.item(), Step::on);
    }
    return said instanceof Tightened tightened
        ? with(tightened.item(), Step::on)
        : Optional.empty();
  }

  private Optional<Step> with(@Nullable String item, Function<Step, List<String>> items) {
    return item == null
        ? Optional.empty()
        : plan.steps().stream()
            .filter(step -> items.apply(step).contains(item) && !done.contains(step.id()))
            .findFirst();
  }
}
