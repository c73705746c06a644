package tallyback.reconcile;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;

/**
 * What is kept of an earlier job on the same machine to compare with.
 *
 * @param at when it was opened
 * @param toppedUp how much more went in than came out, by fluid system; negative when less
 */
public record EarlierFill(Instant at, Map<String, ToppedUp> toppedUp) {

  /** Copies the amounts. */
  public EarlierFill {
    toppedUp = Map.copyOf(toppedUp);
  }

  /**
   * How much more went into a system than came out.
   *
   * @param amount a volume
   * @param uncertainty its expanded uncertainty (k = 2), a volume
   */
  public record ToppedUp(Amount amount, Amount uncertainty) {}

  /** What is kept of a job that was reconciled. */
  public static EarlierFill of(Instant openedAt, Outcome outcome) {
    Map<String, ToppedUp> toppedUp = new HashMap<>();
    for (Outcome.FluidSum sum : outcome.fluids()) {
      Amount shortage = sum.shortage();
      toppedUp.put(
          sum.system(),
          new ToppedUp(new Amount(shortage.value().negate(), shortage.unit()), sum.uncertainty()));
    }
    return new EarlierFill(openedAt, toppedUp);
  }

  private Optional<ToppedUp> of(String system) {
    return Optional.ofNullable(toppedUp.get(system))
        .filter(each -> each.amount().unit().dimension() == Dimension.VOLUME)
        .filter(each -> each.uncertainty().unit().dimension() == Dimension.VOLUME);
  }

  /** What was topped up of one system, oldest job first. */
  static List<ToppedUp> ofSystem(List<EarlierFill> past, String system) {
    return past.stream()
        .sorted(java.util.Comparator.comparing(EarlierFill::at))
        .flatMap(job -> job.of(system).stream())
        .toList();
  }

  /** Litres, exact. */
  static Rational litres(Amount volume) {
    return volume.base();
  }
}
