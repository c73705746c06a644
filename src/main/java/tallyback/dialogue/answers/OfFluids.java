package tallyback.dialogue.answers;

import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement.FluidMoved;
import tallyback.phrase.Question.FluidTopic;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.FluidSum;

/** How the fluids stand, by the sums of what was told and within what the jugs can tell. */
final class OfFluids {

  private final Plan plan;
  private final Outcome outcome;

  OfFluids(Plan plan, Outcome outcome) {
    this.plan = plan;
    this.outcome = outcome;
  }

  /**
   * Answers.
   *
   * @param topic what is asked
   * @param fluid plan id of the fluid, or null for all that was spoken of
   */
  Told answer(FluidTopic topic, @Nullable String fluid) {
    if (plan.systems().isEmpty()) {
      return Told.same(subject(topic, "fluid") + ": " + AnswerText.NO_SYSTEM);
    }
    List<FluidSystem> systems = meant(fluid);
    if (systems.isEmpty()) {
      return Told.same(
          plan.label(Objects.requireNonNull(fluid)) + ": " + AnswerText.NOT_IN_ANY_SYSTEM);
    }
    List<String> spoken = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    for (FluidSystem system : systems) {
      Told told = of(topic, system);
      String subject = subject(topic, system.label()) + ": ";
      spoken.add(subject + told.spoken());
      shown.add(subject + told.shown());
    }
    return new Told(Aloud.few(spoken, ". "), String.join("\n", shown));
  }

  /** With no name, those that were spoken of; where none was, all. */
  private List<FluidSystem> meant(@Nullable String fluid) {
    if (fluid != null) {
      return plan.systems().stream().filter(system -> system.fluid().equals(fluid)).toList();
    }
    List<FluidSystem> spokenOf =
        plan.systems().stream().filter(system -> sum(system).isPresent()).toList();
    return spokenOf.isEmpty() ? plan.systems() : spokenOf;
  }

  private static String subject(FluidTopic topic, String system) {
    return switch (topic) {
      case OUT -> AnswerText.out(system);
      case IN -> AnswerText.in(system);
      case SHORT -> AnswerText.missing(system);
      case POUR -> AnswerText.toPour(system);
    };
  }

  private Optional<FluidSum> sum(FluidSystem system) {
    return outcome.fluids().stream().filter(sum -> sum.system().equals(system.id())).findFirst();
  }

  private Told of(FluidTopic topic, FluidSystem system) {
    Optional<FluidSum> known = sum(system);
    if (known.isEmpty()) {
      return Told.same(AnswerText.NOTHING_SAID_OF_IT);
    }
    FluidSum sum = known.get();
    Told told =
        switch (topic) {
          case OUT -> out(sum);
          case IN -> new Told(Aloud.litres(sum.in()), sum.in().toString());
          case SHORT -> missing(sum);
          case POUR -> pour(sum);
        };
    List<String> besides = new ArrayList<>();
    if (said(system).anyMatch(moved -> moved.amount() == null || moved.amount().unitUnsaid())) {
      besides.add(AnswerText.AMOUNT_UNSAID);
    }
    int unconfirmed = unconfirmed(system);
    if (unconfirmed > 0) {
      besides.add(AnswerText.notCounted(Integer.toString(unconfirmed)));
    }
    StringBuilder spoken = new StringBuilder(told.spoken());
    StringBuilder shown = new StringBuilder(told.shown()).append("\n  ").append(sum.says());
    for (String each : besides) {
      spoken.append(". ").append(Aloud.of(each));
      shown.append("\n  ").append(each);
    }
    return new Told(spoken.toString(), shown.toString());
  }

  private Stream<FluidMoved> said(FluidSystem system) {
    return outcome.standing().stream()
        .filter(entry -> entry.statement() instanceof FluidMoved)
        .map(entry -> (FluidMoved) entry.statement())
        .filter(moved -> moved.system() == null || moved.system().equals(system.id()));
  }

  private int unconfirmed(FluidSystem system) {
    return (int)
        outcome.standing().stream()
            .filter(entry -> !entry.confirmed())
            .filter(
                entry ->
                    entry.statement() instanceof FluidMoved moved
                        && (moved.system() == null || moved.system().equals(system.id())))
            .count();
  }

  private static Told out(FluidSum sum) {
    boolean spilled = sum.lost().value().signum() > 0;
    return new Told(
        Aloud.litres(sum.out())
            + (spilled ? ", " + AnswerText.spilled(Aloud.litres(sum.lost())) : ""),
        sum.out() + (spilled ? ", " + AnswerText.spilled(sum.lost().toString()) : ""));
  }

  /** True when the difference is more than the jugs may be wrong by. */
  private static boolean tells(FluidSum sum) {
    return sum.shortage().value().abs().compareTo(sum.uncertainty().value()) > 0;
  }

  private static Told missing(FluidSum sum) {
    String shown = sum.shortage() + " ± " + sum.uncertainty();
    if (!tells(sum)) {
      return new Told(AnswerText.EVEN, AnswerText.EVEN + " (" + shown + ")");
    }
    return sum.shortage().value().signum() > 0
        ? new Told(Aloud.litres(sum.shortage()), shown)
        : new Told(
            AnswerText.tooMuch(Aloud.litres(sum.shortage())),
            AnswerText.tooMuch(size(sum.shortage()) + " ± " + sum.uncertainty()));
  }

  private static Amount size(Amount amount) {
    return new Amount(amount.value().abs(), amount.unit());
  }

  /** Out less in; to a tenth of a litre, as nobody pours finer from a can, unless it is less. */
  private static Told pour(FluidSum sum) {
    if (!tells(sum) || sum.shortage().value().signum() < 0) {
      Told why = missing(sum);
      return new Told(AnswerText.pourNothing(why.spoken()), AnswerText.pourNothing(why.shown()));
    }
    Amount exact = sum.shortage();
    Amount tenths = new Amount(exact.value().setScale(1, RoundingMode.HALF_UP), exact.unit());
    Amount said = tenths.value().signum() > 0 ? tenths : exact;
    Amount holds = sum.capacity();
    if (holds != null
        && holds.unit().dimension() == exact.unit().dimension()
        && exact.base().compareTo(holds.base()) > 0) {
      return new Told(
          AnswerText.pourTooMuch(Aloud.litres(said), Aloud.litres(holds)),
          AnswerText.pourTooMuch(exact + " ± " + sum.uncertainty(), holds.toString()));
    }
    return new Told(
        AnswerText.pour(Aloud.litres(said)), AnswerText.pour(exact + " ± " + sum.uncertainty()));
  }
}
