package tallyback.reconcile;

import java.util.ArrayList;
import java.util.List;
import tallyback.books.Books;
import tallyback.model.Entry;
import tallyback.model.Rational;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;

/**
 * What moved in and out of one fluid system in a job, each with how far it may be off, to be held
 * against the same in another job.
 *
 * @param system plan id
 * @param label how people call it
 * @param out all that came out, whichever way
 * @param in all that went in
 * @param missing how much more came out than went in, and new parts hold; negative for an excess
 * @param incomplete true when something was poured or drained of which no usable amount was said
 */
public record MovedFluid(
    String system, String label, Litres out, Litres in, Litres missing, boolean incomplete) {

  /**
   * A volume.
   *
   * @param value litres
   * @param mayBeOff expanded uncertainty (k = 2) in litres
   * @param origin where that comes from, in words
   */
  public record Litres(Rational value, Rational mayBeOff, String origin) {}

  /**
   * Of every system of which something was told for certain.
   *
   * @param plan the expected job
   * @param entries every entry of one job
   */
  public static List<MovedFluid> of(Plan plan, List<Entry> entries) {
    JobView job = JobView.confirmed(plan, Books.of(plan, entries, Densities::litres), List.of());
    List<MovedFluid> all = new ArrayList<>();
    for (FluidSystem system : plan.systems()) {
      if (job.account(system).mentioned()) {
        FluidSums sums = job.sums(system);
        all.add(
            new MovedFluid(
                system.id(),
                system.label(),
                litres(sums.out()),
                litres(sums.in()),
                litres(sums.shortage()),
                sums.someAmountUnsaid()));
      }
    }
    return all;
  }

  private static Litres litres(FluidSums.Sum sum) {
    return new Litres(sum.value(), sum.uncertainty(), sum.origin());
  }
}
